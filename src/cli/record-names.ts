/** Is this the record that is meant? With or without `.json`, with `/` or `\`, by its name alone or with its folders. */
import { resolve } from 'node:path';

/** Folders and name of a record, the outermost first; without what says only where to begin, and without `.json`. */
export type RecordPath = readonly string[];

/** As somebody wrote it in a table. */
export function writtenPath(text: string): RecordPath {
  const parts = text.normalize('NFC').split(/[/\\]/);
  const name = (parts.pop() ?? '').replace(/\.json$/i, '');
  return [...parts.filter((part) => part !== '' && part !== '.' && part !== '..'), name];
}

/** Of a file on this computer, from the root on. */
export function filePath(file: string): RecordPath {
  return file === '-' ? ['-'] : writtenPath(resolve(file));
}

/**
 * How much of the two paths agrees from the name backwards, in folders; 0 where the names differ. The same letters
 * in the same size agree a little better, for there are disks on which that makes two files.
 */
export function agreement(one: RecordPath, other: RecordPath): number {
  const back = (path: RecordPath, at: number) => path[path.length - 1 - at];
  const most = Math.min(one.length, other.length);
  let agreeing = 0;
  while (agreeing < most && back(one, agreeing)?.toLowerCase() === back(other, agreeing)?.toLowerCase()) {
    agreeing += 1;
  }
  return agreeing > 0 && back(one, 0) === back(other, 0) ? agreeing + 0.5 : agreeing;
}
