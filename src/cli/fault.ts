/** Every way in which the program can fail ends here: sentences on standard error and an exit code, no stack. */
import { safeText } from '../present/safe-text.ts';
import { complain } from './terminal.ts';
import { type ExitCode, exitCode, shownName, UserError, uncaughtRefusal } from './user-error.ts';

/** `record`: the one that was worked on, where there are several. */
export function reportFailure(error: unknown, record: string | null = null): ExitCode {
  const refusal = error instanceof UserError ? error : uncaughtRefusal(error);
  if (refusal !== null) {
    for (const sentence of refusal.sentences) complain(sentence);
    return exitCode.unusable;
  }
  const what = error instanceof Error ? error.message : String(error);
  const where = record === null ? '' : `${shownName(record)}: `;
  complain(`${where}a fault of the program, not yours: ${what} (WHICHGAS_DEBUG=1 shows where)`);
  if (process.env.WHICHGAS_DEBUG === '1' && error instanceof Error)
    process.stderr.write(`${error.stack?.split('\n').map(safeText).join('\n')}\n`);
  return exitCode.programFault;
}

/** Standard output that cannot be written: quiet where the reader has gone, a sentence where the disk is full. */
export function outputFailed(error: NodeJS.ErrnoException): void {
  // Windows calls it EOF.
  if (error.code === 'EPIPE' || error.code === 'EOF') process.exit();
  process.exit(reportFailure(new UserError(`the output cannot be written: ${error.message}`)));
}
