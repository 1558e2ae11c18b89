/** How a command ends, and what a person is told when a file or an argument cannot be used. */
import { FileRefused } from '../disk/read-regular-file.ts';
import { reasonOf } from '../disk/reasons.ts';
import { safeText } from '../present/safe-text.ts';

/** What a command can end with. */
export const exitCode = { done: 0, notSupported: 1, unusable: 2, programFault: 3 } as const;

export type ExitCode = (typeof exitCode)[keyof typeof exitCode];

/** A file or an argument that cannot be used: the person's to mend, so it carries sentences, never a stack. */
export class UserError extends Error {
  readonly sentences: readonly string[];

  constructor(...sentences: string[]) {
    super(sentences.join('\n'));
    this.sentences = sentences;
  }
}

/** A refusal of what is written at a place, with the place in front. */
export function atPlace<Value>(place: string, read: () => Value): Value {
  try {
    return read();
  } catch (error) {
    if (error instanceof UserError) throw new UserError(`${place}: ${error.message}`);
    throw error;
  }
}

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
