/** The file operations that the bench screen uses; tests put failing ones in their place. */
import * as nodeFiles from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { readRegularFile } from '../disk/read-regular-file.ts';
import type { FilesToWrite } from '../disk/write-whole.ts';

export type Files = FilesToWrite &
  Pick<typeof nodeFiles, 'readFileSync' | 'existsSync' | 'realpathSync' | 'readdirSync'>;

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
