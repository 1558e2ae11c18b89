/** Faults of the disk in words. */
import { FileRefused } from '../disk/read-regular-file.ts';
import { reasonOf } from '../disk/reasons.ts';
import { basename } from './plain-path.ts';

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'no permission to write there',
  EPERM: 'no permission to write there',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  ENOENT: 'the folder is gone',
  ENOTDIR: 'the folder is gone',
  EISDIR: 'that is a folder',
  EIO: 'the disk reports a fault',
};

/** One sentence: what cannot be written and why. */
export function sentenceOf(error: unknown, path: string): string {
  const code = codeOf(error);
  if (error instanceof FileRefused) return `${basename(path)} cannot be written: ${error.message}.`;
  return `${basename(path)} cannot be written: ${code === undefined ? 'unknown fault' : (REASONS[code] ?? reasonOf(code))}.`;
}

/** The system's code of a fault, `ENOSPC`; undefined where it has none. */
export function codeOf(error: unknown): string | undefined {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === 'string' ? code : undefined;
}
