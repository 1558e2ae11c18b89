/**
 * The terminal taken and given back, whatever ends the program. First the record and its lock, then the terminal: a
 * terminal that is gone takes nothing more, and the record must not wait for it.
 */
import { isatty } from 'node:tty';
import { safeText } from '../present/safe-text.ts';

const PASTE_MARKS_ON = '\u001b[?2004h';
const RESTORE = '\u001b[?2004l\u001b[?25h';
const BELL = '\u0007';

export const EXIT_FAULT = 3;
const EXIT_HUNG_UP = 128 + 1;
const SIGNALS: Readonly<Partial<Record<NodeJS.Signals, number>>> = {
  SIGINT: 128 + 2,
  SIGTERM: 128 + 15,
};

/** Of whatever event: what comes with it is looked at by one of them only. */
// biome-ignore lint/suspicious/noExplicitAny: as Node declares them
type Listener = (...args: any[]) => void;

interface TakenTerminal {
  /** Closes the record and gives the terminal back. */
  close(): void;
}

/** @param closeRecord saves what is left to save and takes the lock away; may be called more than once */
export function takeTerminal(closeRecord: () => void): TakenTerminal {
  let isTaken = true;
  process.stdout.write(PASTE_MARKS_ON);
  const release = (): void => {
    if (!isTaken) return;
    isTaken = false;
    for (const [source, name, listener] of listeners) source.off(name, listener);
    process.stdout.write(RESTORE);
    if (process.stdin.isTTY) process.stdin.setRawMode(false);
  };
  const close = (): void => {
    closeRecord();
    if (isGone()) endHungUp();
    release();
  };
  const end = (exitCode: number, sentence: string | null = null): void => {
    close();
    if (sentence !== null) {
      process.stderr.write('\n');
      sayOutside(sentence);
    }
    process.exit(exitCode);
  };
  const onHangUp = (): void => end(EXIT_HUNG_UP);
  const onFault = (error: Error): void =>
    end(EXIT_FAULT, `a fault of the program: ${error.message}. Every reading taken is in the record.`);
  const listeners: readonly (readonly [NodeJS.EventEmitter, string, Listener])[] = [
    ...Object.entries(SIGNALS).map(([name, code]) => [process, name, () => end(code)] as const),
    [process, 'SIGHUP', onHangUp],
    [process, 'uncaughtException', onFault],
    [process, 'exit', close],
    // Not every terminal that closes says so by a signal: then reading ends, or writing fails.
    [process.stdin, 'end', onHangUp],
    [process.stdin, 'error', onHangUp],
    [process.stdout, 'error', onHangUp],
  ];
  for (const [source, name, listener] of listeners) source.prependListener(name, listener);
  // Ink does so after its first frame: a key pressed between would be echoed into it.
  if (process.stdin.isTTY) process.stdin.setRawMode(true);
  return { close };
}

/** A terminal that was closed is none any more. */
function isGone(): boolean {
  return process.stdout.isTTY === true && !isatty(1);
}

/**
 * Ends by the signal that a closed terminal sends, with nothing written any more: Ink would draw its last frame, and
 * Node 20 gives every terminal back at its exit and crashes where it is gone.
 */
function endHungUp(): void {
  process.removeAllListeners('SIGHUP');
  process.kill(process.pid, 'SIGHUP');
}

export function ringBell(): void {
  process.stdout.write(BELL);
}

/** Sentences outside of the frames, on standard error. They may quote a file or its name, so they are cleaned first. */
export function sayOutside(...sentences: readonly string[]): void {
  for (const sentence of sentences) process.stderr.write(`whichgas: ${safeText(sentence)}\n`);
}
