/** Editing the line being typed. */
import { safeShortText } from '../present/safe-text.ts';
import { most } from '../record/limits.ts';
import { say } from './commit.ts';
import { type Entry, type ScreenState, unasked } from './state.ts';

/** The longest text that is typed for a record is a note. */
const LONGEST_LINE = most.noteCharacters;

/** Typed after a reading was asked about or refused, a digit begins the reading that takes its place. */
const BEGINS_READING = /^\d/;
/** A wavelength typed first, whose reading is still to come. */
const WAVELENGTH = /^\s*\d{3,4}([.,]\d+)?\s*(nm)?\s*$/i;
/** A line that is still to be gone on with: `546.07 =`, `229 21 /`. */
const UNFINISHED = /[=/]\s*$/;

function isBegunAnew({ purpose, text, caret, query, refusal }: Entry, typed: string): boolean {
  const isWords = ['note', 'label', 'save-as', 'report'].includes(purpose.kind);
  if (isWords || !BEGINS_READING.test(typed)) return false;
  if (query !== null) return true;
  return refusal !== null && caret === text.length && !UNFINISHED.test(text) && !WAVELENGTH.test(text);
}

export function insertText(state: ScreenState, text: string): ScreenState {
  const entry = isBegunAnew(state.entry, text) ? { ...state.entry, text: '', caret: 0 } : state.entry;
  const room = LONGEST_LINE - entry.text.length;
  if (text.length > room)
    return say(
      state,
      `The line holds ${LONGEST_LINE} characters; "${safeShortText(text, 40)}" had no room in it.`,
      'doubt',
    );
  const typed = entry.text.slice(0, entry.caret) + text + entry.text.slice(entry.caret);
  return { ...state, entry: retyped(entry, typed, entry.caret + text.length), notice: null };
}

export function erase(state: ScreenState, forward: boolean): ScreenState {
  const { entry } = state;
  const from = forward ? entry.caret : before(entry);
  if (!forward && entry.caret === 0) {
    // Backspace at the start goes back to the part before: the other window, the other side.
    const part = entry.parts.at(-1);
    if (part === undefined || entry.text !== '') return state;
    return { ...state, entry: { ...retyped(entry, part, part.length), parts: entry.parts.slice(0, -1) } };
  }
  const to = forward ? after(entry) : entry.caret;
  return { ...state, entry: retyped(entry, entry.text.slice(0, from) + entry.text.slice(to), from) };
}

/** The place before the character at the left of the caret: half a character is none. */
function before({ text, caret }: Entry): number {
  const last = [...text.slice(0, caret)].at(-1) ?? '';
  return caret - last.length;
}

function after({ text, caret }: Entry): number {
  const [next = ''] = text.slice(caret);
  return caret + next.length;
}

/** Takes the text away; what it was for, and the parts already taken, stay. */
export function clearLine(state: ScreenState): ScreenState {
  return { ...state, entry: retyped(state.entry, '', 0), notice: null };
}

function retyped(entry: Entry, text: string, caret: number): Entry {
  const chosenDecimals = text === '' ? null : entry.chosenDecimals;
  return { ...unasked(entry), text, caret, chosenDecimals };
}

/** Moving in the text is editing it: what was asked about it is asked again at Enter. */
export function moveCaret(state: ScreenState, to: 'left' | 'right' | 'start' | 'end'): ScreenState {
  const { entry } = state;
  const caret = { left: before(entry), right: after(entry), start: 0, end: entry.text.length }[to];
  return { ...state, entry: { ...unasked(entry), caret } };
}
