/** The commands' only way to the file system. Every failure is a sentence that names the file. */
import { open, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { Readable } from 'node:stream';
import {
  FileRefused,
  kindOf,
  mostBytes,
  readRegularFile,
  tooLarge,
  utf8Text,
} from '../disk/read-regular-file.ts';
import { reasonOf } from '../disk/reasons.ts';
import { UserError } from './user-error.ts';

/** A file's name in a sentence. */
export function shownName(path: string): string {
  return path === '-' ? 'standard input' : path;
}

/** The text of a file, or of standard input for `-`: UTF-8 with or without a byte order mark. */
export async function readTextFile(path: string): Promise<string> {
  if (path === '')
    throw new UserError('an empty file name was given; name a file, or "-" for standard input');
  const name = shownName(path);
  try {
    const bytes = path === '-' ? await readBounded(process.stdin) : readRegularFile(path);
    return utf8Text(bytes).replace(/^\ufeff/, '');
  } catch (error) {
    throw asUserError(error, name, 'read');
  }
}

async function readBounded(stream: Readable): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of stream) {
    const bytes: Buffer = typeof chunk === 'string' ? Buffer.from(chunk) : chunk;
    size += bytes.length;
    if (size > mostBytes) throw tooLarge();
    chunks.push(bytes);
  }
  return Buffer.concat(chunks);
}

/** The file that a path means, through links; the path itself where there is nothing yet. */
async function fileMeant(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return path;
    throw asUserError(error, path, 'written');
  }
}

/** Writes the whole file or nothing: a new file beside it takes its place only when it is complete. */
export async function writeTextFile(path: string, text: string): Promise<void> {
  const target = await fileMeant(path);
  // The global `crypto` is loaded when it is used; an import would be at every start.
  const unfinished = join(dirname(target), `.${basename(target)}.${crypto.randomUUID()}.tmp`);
  try {
    const there = await stat(target).catch(() => null);
    if (there !== null && !there.isFile()) {
      throw new UserError(`${path}: ${kindOf(there)}; give the name of a file to write`);
    }
    const handle = await open(unfinished, 'wx');
    try {
      await handle.writeFile(text, 'utf8');
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (!readRegularFile(unfinished, undefined, Number.POSITIVE_INFINITY).equals(Buffer.from(text)))
      throw new FileRefused('the disk gives back something else than was written');
    await rename(unfinished, target);
  } catch (error) {
    await rm(unfinished, { force: true }).catch(() => {});
    throw asUserError(error, path, 'written');
  }
}

/** Files as given, and for a folder the records in it (names ending in .json) in the order of their names. */
export async function recordFiles(path: string): Promise<string[]> {
  if (path === '-' || !(await stat(path).catch(() => null))?.isDirectory()) return [path];
  try {
    const names = (await readdir(path)).filter((name) => name.toLowerCase().endsWith('.json'));
    if (names.length === 0) throw new UserError(`${path}: no record in this folder (records end in .json)`);
    return names.sort((a, b) => a.localeCompare(b, 'en', { numeric: true })).map((name) => join(path, name));
  } catch (error) {
    throw asUserError(error, path, 'read');
  }
}

function asUserError(error: unknown, name: string, verb: 'read' | 'written'): unknown {
  if (error instanceof FileRefused) return new UserError(`${name}: ${error.message}`);
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (error instanceof UserError || (code === '' && !(error instanceof TypeError))) return error;
  // A file that is written need not be there; its folder must.
  const isMissingFolder = verb === 'written' && (code === 'ENOENT' || code === 'ENOTDIR');
  const reason = isMissingFolder ? 'there is no such folder' : reasonOf(code);
  return new UserError(`${name}: cannot be ${verb}: ${reason}`);
}
