/** What a person is told when a file cannot be used: its name, and the system's refusal in words. */
import { FileRefused } from '../disk/read-regular-file.ts';
import { reasonOf } from '../disk/reasons.ts';
import { safeText } from '../present/safe-text.ts';
import { UserError } from './user-error.ts';

/** Longest name that a sentence repeats whole; of a longer one the end says more than its beginning. */
const longestName = 120;

/** A file's name in a sentence. */
export function shownName(path: string): string {
  if (path === '-') return 'standard input';
  const letters = [...safeText(path.slice(-4 * longestName))];
  return path.length <= longestName ? path : `…${letters.slice(1 - longestName).join('')}`;
}

/** The system's refusal as a sentence about the file; anything that is no refusal of the system comes back as it is. */
export function asUserError(error: unknown, path: string, verb: 'read' | 'written'): unknown {
  if (error instanceof FileRefused) return new UserError(`${shownName(path)}: ${error.message}`);
  const code = codeOf(error);
  if (error instanceof UserError || (code === '' && !(error instanceof TypeError))) return error;
  // A file that is written need not be there; its folder must.
  const isMissingFolder = verb === 'written' && (code === 'ENOENT' || code === 'ENOTDIR');
  const reason = isMissingFolder ? 'there is no such folder' : reasonOf(code);
  return new UserError(`${shownName(path)}: cannot be ${verb}: ${reason}`);
}

/** A refusal of the system that nobody on the way has put into words: still no fault of the program. */
export function uncaughtRefusal(error: unknown): UserError | null {
  if (!(error instanceof Error) || !('syscall' in error) || !/^E[A-Z0-9]+$/.test(codeOf(error))) return null;
  const path = 'path' in error ? String(error.path) : 'a file';
  return new UserError(`${shownName(path)}: cannot be used: ${reasonOf(codeOf(error))}`);
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}
