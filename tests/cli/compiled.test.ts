import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { compiledPath, loadCompiled } from '../../src/cli/compiled.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'whichgas-compiled-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The file with one bit of the byte at this share of its length turned over. */
function damage(path: string, share: number): void {
  const bytes = readFileSync(path);
  const at = Math.min(bytes.length - 1, Math.floor(bytes.length * share));
  bytes[at] = bytes[at]! ^ 1;
  writeFileSync(path, bytes);
}

const PLACES = [0, 0.1, 0.5, 0.9, 1];

describe('code compiled beforehand', () => {
  interface Program {
    readonly answer: () => number;
  }
  const programOf = (answer: number) =>
    `(function (exports, require, module, importBeside) { exports.answer = () => ${answer}; })`;
  let program: string;
  beforeEach(() => {
    program = join(folder, 'program.cjs');
    writeFileSync(program, programOf(42));
    const { exports, compiledNow } = loadCompiled<Program>(program);
    exports.answer();
    writeFileSync(compiledPath(program), compiledNow());
  });
  const load = () => {
    const { exports, wasCompiled } = loadCompiled<Program>(program);
    return { answer: exports.answer(), wasCompiled };
  };

  test('is taken', () => {
    expect(load()).toEqual({ answer: 42, wasCompiled: true });
  });

  test('is not needed', () => {
    rmSync(compiledPath(program));
    expect(load()).toEqual({ answer: 42, wasCompiled: false });
  });

  test.each(PLACES)('is not taken where a bit of it is wrong (at %d of its length)', (share) => {
    damage(compiledPath(program), share);
    expect(load()).toEqual({ answer: 42, wasCompiled: false });
  });

  test('is not taken where it is cut short', () => {
    const whole = readFileSync(compiledPath(program));
    for (const length of [0, 1, 31, 32, 33, whole.length - 1]) {
      writeFileSync(compiledPath(program), whole.subarray(0, length));
      expect(load()).toEqual({ answer: 42, wasCompiled: false });
    }
  });

  test('is not taken for another program, not even one of the same length', () => {
    writeFileSync(program, programOf(43));
    expect(load()).toEqual({ answer: 43, wasCompiled: false });
  });
});

describe('the built program', () => {
  const record = resolve('data/examples/harbour-lane-bench-2.json');
  const identify = (...flags: readonly string[]) => {
    const args = [...flags, join(folder, 'dist/whichgas.js'), 'identify', record];
    const { status, stdout, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
    return { status, stdout, stderr };
  };
  let usual: ReturnType<typeof identify>;
  beforeEach(() => {
    cpSync('dist', join(folder, 'dist'), { recursive: true });
    cpSync('package.json', join(folder, 'package.json'));
    usual = identify();
  });
  const compiled = () => join(folder, 'dist/commands.cjs.compiled');

  test('says the same without the compiled code, and with other flags of V8, for which it was not made', () => {
    expect(usual).toMatchObject({ status: 0, stderr: '' });
    expect(usual.stdout).toContain('neon');
    expect(identify('--no-opt')).toEqual(usual);
    rmSync(compiled());
    expect(identify()).toEqual(usual);
  });

  test('says the same with damaged code', () => {
    for (const share of PLACES) {
      damage(compiled(), share);
      expect(identify()).toEqual(usual);
    }
  });
});
