/** The file operations that the bench screen uses; tests put failing ones in their place. */
import type * as nodeFiles from 'node:fs';

export type Files = Pick<
  typeof nodeFiles,
  | 'openSync'
  | 'writeSync'
  | 'fsyncSync'
  | 'closeSync'
  | 'renameSync'
  | 'readFileSync'
  | 'unlinkSync'
  | 'existsSync'
  | 'realpathSync'
  | 'statSync'
>;

/** The text of a file; null where there is none. */
export function readText(files: Files, path: string): string | null {
  try {
    return files.readFileSync(path, 'utf8');
  } catch (error) {
    const { code } = error as { code?: unknown };
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
    throw error;
  }
}

/** Writes text and has it on the disk before it returns. */
export function writeSynced(files: Files, path: string, flags: string, text: string, mode = 0o666): void {
  const file = files.openSync(path, flags, mode);
  try {
    const bytes = Buffer.from(text, 'utf8');
    for (let written = 0; written < bytes.length; ) written += files.writeSync(file, bytes, written);
    files.fsyncSync(file);
  } finally {
    files.closeSync(file);
  }
}
