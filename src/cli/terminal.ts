/** The three standard streams as the commands use them. */
import { colouredEmphasis, type Emphasis, plain, terminalEmphasis } from '../present/emphasis.ts';
import { jsonLine, safeShortText, safeText } from '../present/safe-text.ts';

const eraseLine = '\r\x1b[2K';
let progressShown = false;

/** One line, or a block of lines, of results. */
export function print(text: string): void {
  hideProgress();
  process.stdout.write(`${text}\n`);
}

export function printJson(value: unknown): void {
  print(jsonLine(value));
}

/** No sentence of ours comes near; what it quotes may. */
const longestSentence = 600;

/** One sentence on standard error. It may quote a file or an argument, so it is cleaned and kept short. */
export function complain(sentence: string): void {
  hideProgress();
  process.stderr.write(`whichgas: ${safeShortText(sentence, longestSentence)}\n`);
}

/** True when a person sits at both ends, so that the bench screen can run. */
export function hasTerminal(): boolean {
  return process.stdin.isTTY === true && process.stdout.isTTY === true;
}

/** Bold, faint and colours on a terminal that takes them; nothing in a pipe or where NO_COLOR asks for none. */
export function emphasis(): Emphasis {
  const { NO_COLOR, FORCE_COLOR, TERM, COLORTERM } = process.env;
  const forced = FORCE_COLOR !== undefined && FORCE_COLOR !== '0';
  const wanted = process.stdout.isTTY === true && FORCE_COLOR !== '0' && TERM !== 'dumb';
  if (NO_COLOR || !(forced || wanted)) return plain;
  return /^(truecolor|24bit)$/.test(COLORTERM ?? '') ? colouredEmphasis : terminalEmphasis;
}

/** A counter on standard error for long lists; silent where standard error is not a terminal. */
export function showProgress(done: number, total: number, name: string): void {
  if (process.stderr.isTTY !== true || total < 10) return;
  process.stderr.write(`${eraseLine}${done}/${total} ${safeText(name).slice(0, 60)}`);
  progressShown = true;
}

/** Takes the counter off the screen; everything that is printed does so first. */
export function hideProgress(): void {
  if (progressShown) process.stderr.write(eraseLine);
  progressShown = false;
}
