/** The commands' only way to the file system. Every failure is a sentence that names the file. */
import { createReadStream } from 'node:fs';
import { open, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { Readable } from 'node:stream';
import { UserError } from './user-error.ts';

/** Largest file read, as the record format promises. */
const sizeLimitBytes = 16 * 1024 * 1024;

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
    return decodeUtf8(await readBounded(path === '-' ? process.stdin : createReadStream(path), name), name);
  } catch (error) {
    throw asUserError(error, name, 'read');
  }
}

async function readBounded(stream: Readable, name: string): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of stream) {
    const bytes: Buffer = typeof chunk === 'string' ? Buffer.from(chunk) : chunk;
    size += bytes.length;
    if (size > sizeLimitBytes) throw new UserError(`${name}: larger than 16 MiB, which no bench record is`);
    chunks.push(bytes);
  }
  return Buffer.concat(chunks);
}

function decodeUtf8(bytes: Buffer, name: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new UserError(`${name}: not UTF-8 text; save it as UTF-8 in the program that wrote it`);
  }
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
    if ((await stat(target).catch(() => null))?.isDirectory()) {
      throw new UserError(`${path}: a folder; give the name of a file to write`);
    }
    const handle = await open(unfinished, 'wx');
    try {
      await handle.writeFile(text, 'utf8');
      await handle.sync();
    } finally {
      await handle.close();
    }
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

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EISDIR: 'a folder, where a file is needed',
  ENOSPC: 'no space left on the disk',
  EDQUOT: 'no space left on the disk',
  EROFS: 'the disk is read-only',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'the links go round in a circle',
  EMFILE: 'too many files are open',
  EIO: 'the disk reports an error',
  ERR_INVALID_ARG_VALUE: 'no file can have this name',
};

function asUserError(error: unknown, name: string, verb: 'read' | 'written'): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (error instanceof UserError || (code === '' && !(error instanceof TypeError))) return error;
  // A file that is written need not be there; its folder must.
  const isMissingFolder = verb === 'written' && (code === 'ENOENT' || code === 'ENOTDIR');
  const reason = isMissingFolder ? 'there is no such folder' : (reasons[code] ?? code);
  return new UserError(`${name}: cannot be ${verb}: ${reason}`);
}
