/**
 * Code compiled beforehand. At every start V8 reads the program and compiles what is called of it, a good part of the
 * time that a command takes; here it gets what it compiled when the program was built, from a file beside it.
 *
 * V8 itself refuses what another version of it compiled, or the same with other flags: then, and where there is no such
 * file, the program is compiled as any other. It does not notice damage, though, and would compute with damaged code
 * and numbers; hence the checksum, over program and code, because each is worthless without the other.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';

export interface Loaded<Exports> {
  readonly exports: Exports;
  /** V8 had what it compiled before, and took it. */
  readonly wasCompiled: boolean;
  /** The file with compiled code that belongs to the program: all functions that have been called by now. */
  compiledNow(): Buffer;
}

const CHECKSUM = 'sha256';
const CHECKSUM_BYTES = 32;

export function compiledPath(program: string): string {
  return `${program}.compiled`;
}

/**
 * Runs a file that holds one expression: a function of a CommonJS module's `exports`, `require` and `module`, and of
 * what stands for its `import()`, which code compiled beforehand has lost.
 */
export function loadCompiled<Exports>(program: string): Loaded<Exports> {
  const source = readFileSync(program);
  const cachedData = compiledBefore(program, source);
  const script = new Script(source.toString(), {
    filename: program,
    ...(cachedData === null ? {} : { cachedData }),
  });
  const module = { exports: {} as Exports };
  const importBeside = (path: string) => import(new URL(path, pathToFileURL(program)).href);
  script.runInThisContext()(module.exports, createRequire(program), module, importBeside);
  return {
    exports: module.exports,
    wasCompiled: script.cachedDataRejected === false,
    compiledNow: () => {
      const code = script.createCachedData();
      return Buffer.concat([code, checksum(source, code)]);
    },
  };
}

function compiledBefore(program: string, source: Buffer): Buffer | null {
  let file: Buffer;
  try {
    file = readFileSync(compiledPath(program));
  } catch {
    return null;
  }
  const code = file.subarray(0, -CHECKSUM_BYTES);
  return checksum(source, code).equals(file.subarray(-CHECKSUM_BYTES)) ? code : null;
}

function checksum(source: Buffer, code: Buffer): Buffer {
  return createHash(CHECKSUM).update(source).update(code).digest();
}
