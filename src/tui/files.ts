/** The file operations that the bench screen uses; tests put failing ones in their place. */
import * as nodeFiles from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { FileRefused, readRegularFile } from '../disk/read-regular-file.ts';
import { renameOver } from '../disk/rename-over.ts';

export type Files = Pick<
  typeof nodeFiles,
  | 'openSync'
  | 'readSync'
  | 'writeSync'
  | 'fsyncSync'
  | 'closeSync'
  | 'renameSync'
  | 'readFileSync'
  | 'unlinkSync'
  | 'existsSync'
  | 'realpathSync'
  | 'statSync'
  | 'readdirSync'
>;

/**
 * The bytes of a regular file; null where there is none.
 * @throws FileRefused for anything else
 */
export function readBytes(files: Files, path: string, most?: number): Buffer | null {
  try {
    return readRegularFile(path, files, most);
  } catch (error) {
    const { code } = error as { code?: unknown };
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
    throw error;
  }
}

/** Writes text or bytes and has them on the disk before it returns. */
export function writeSynced(
  files: Files,
  path: string,
  flags: string,
  content: string | Buffer,
  mode = 0o666,
): void {
  const file = files.openSync(path, flags, mode);
  try {
    const bytes = Buffer.from(content);
    for (let written = 0; written < bytes.length; ) written += files.writeSync(file, bytes, written);
    files.fsyncSync(file);
  } finally {
    files.closeSync(file);
  }
}

/**
 * Replaces a file as a whole: a temporary one beside it, synced, read back, renamed over it; a reader sees the old or
 * the new.
 */
export function replaceWhole(files: Files, path: string, text: string): void {
  // The global `crypto` is loaded when it is used; an import would be at every start.
  const temporary = join(dirname(path), `.${basename(path)}.${crypto.randomUUID().slice(0, 8)}.part`);
  try {
    writeSynced(files, temporary, 'wx', text, modeOf(files, path));
    if (!readRegularFile(temporary, files, Number.POSITIVE_INFINITY).equals(Buffer.from(text)))
      throw new FileRefused('the disk gives back something else than was written');
    renameOver(temporary, path, files);
  } catch (error) {
    try {
      files.unlinkSync(temporary);
    } catch {
      // It was never made.
    }
    throw error;
  }
}

/** Takes away what a program that was killed has left of its writing to the file or to its trail. */
export function removeUnfinished(
  path: string,
  files: Pick<Files, 'readdirSync' | 'unlinkSync'> = nodeFiles,
): void {
  const begin = `.${basename(path)}.`;
  const isUnfinished = (name: string): boolean =>
    name.startsWith(begin) && /^(trail\.)?[0-9a-f]{8}\.part$/.test(name.slice(begin.length));
  try {
    for (const name of files.readdirSync(dirname(path)).filter(isUnfinished))
      files.unlinkSync(join(dirname(path), name));
  } catch {
    // They are in nobody's way.
  }
}

function modeOf(files: Files, path: string): number {
  try {
    return files.statSync(path).mode & 0o777;
  } catch {
    return 0o666;
  }
}

/** After it the renaming itself is on the disk. */
export function syncFolder(files: Files, path: string): void {
  // Windows cannot sync a folder; there the rename alone has to do.
  if (process.platform === 'win32') return;
  const folder = files.openSync(path, 'r');
  try {
    files.fsyncSync(folder);
  } finally {
    files.closeSync(folder);
  }
}

/** A name that is not taken: `bench.json`, `bench-2.json` ... */
export function freePath(wanted: string, files: Pick<Files, 'existsSync'> = nodeFiles): string {
  const [, stem, ending] = /^(.*?)(\.[^./\\]+)?$/s.exec(wanted)!;
  for (let count = 1; ; count += 1) {
    const path = count === 1 ? wanted : `${stem}-${count}${ending ?? ''}`;
    if (!files.existsSync(path)) return path;
  }
}
