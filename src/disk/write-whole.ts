/** The one way in which the program writes files: the whole of it on the disk, or nothing. */
import * as nodeFiles from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { FileRefused, type FilesToRead, readRegularFile } from './read-regular-file.ts';
import { renameOver } from './rename-over.ts';

export type FilesToWrite = FilesToRead &
  Pick<typeof nodeFiles, 'writeSync' | 'fsyncSync' | 'chmodSync' | 'renameSync' | 'unlinkSync'>;

/** Writes text or bytes and has them on the disk before it returns. `mode`: of a file that is not there yet. */
export function writeSynced(
  files: FilesToWrite,
  path: string,
  flags: string,
  content: string | Buffer,
  mode?: number,
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
 * the new. It has the mode of the one that it replaces, from the first byte on: a private record is never open to others.
 */
export function replaceWhole(path: string, text: string, files: FilesToWrite = nodeFiles): void {
  // The global `crypto` is loaded when it is used; an import would be at every start.
  const temporary = join(dirname(path), `.${basename(path)}.${crypto.randomUUID().slice(0, 8)}.part`);
  try {
    const mode = modeOf(files, path);
    writeSynced(files, temporary, 'wx', text, mode ?? undefined);
    if (!readRegularFile(temporary, files, Number.POSITIVE_INFINITY).equals(Buffer.from(text)))
      throw new FileRefused('the disk gives back something else than was written');
    keepMode(files, temporary, mode);
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

/** What the mask took off; a file system that keeps no modes of its own refuses, and the text is worth more. */
function keepMode(files: FilesToWrite, path: string, mode: number | null): void {
  if (mode === null || modeOf(files, path) === mode) return;
  try {
    files.chmodSync(path, mode);
  } catch {
    // As it was made.
  }
}

/** Null where there is no such file. */
function modeOf(files: FilesToWrite, path: string): number | null {
  try {
    return files.statSync(path).mode & 0o7777;
  } catch {
    return null;
  }
}
