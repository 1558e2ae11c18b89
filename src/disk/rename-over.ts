/** A finished file takes the place of the old one, also where another program holds that for a moment. */
import * as nodeFiles from 'node:fs';
import { FileRefused } from './read-regular-file.ts';

/** With these Windows refuses to replace a file that a virus scanner or a synchronising folder has open; common practice, no source. */
const refusals = ['EPERM', 'EACCES', 'EBUSY'];

/** How long to wait before each further attempt, ms: a second in all. */
const pausesMs = [10, 20, 40, 80, 160, 320, 370];

/** @throws FileRefused where the system refuses for a second; its own error for any other reason */
export function renameOver(
  from: string,
  to: string,
  files: Pick<typeof nodeFiles, 'renameSync'> = nodeFiles,
): void {
  for (const pauseMs of [...pausesMs, null]) {
    try {
      files.renameSync(from, to);
      return;
    } catch (error) {
      if (!refusals.includes(String((error as NodeJS.ErrnoException).code))) throw error;
      if (pauseMs !== null) Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pauseMs);
    }
  }
  throw new FileRefused(
    'another program, perhaps a virus scanner, keeps it to itself, or it is write-protected',
  );
}
