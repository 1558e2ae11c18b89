/** Editing the line being typed. */
import type { Entry, ScreenState } from './state.ts';

const LONGEST_LINE = 200;

/** Typed after a reading was asked about, a digit begins the reading that takes its place. */
const BEGINS_READING = /^[\d.]/;

export function insertText(state: ScreenState, text: string): ScreenState {
  const isAnew = state.entry.query !== null && BEGINS_READING.test(text);
  const entry = isAnew ? { ...state.entry, text: '', caret: 0 } : state.entry;
  const typed = (entry.text.slice(0, entry.caret) + text + entry.text.slice(entry.caret)).slice(
    0,
    LONGEST_LINE,
  );
  const caret = Math.min(entry.caret + text.length, typed.length);
  return { ...state, entry: retyped(entry, typed, caret), notice: null };
}

export function erase(state: ScreenState, forward: boolean): ScreenState {
  const { entry } = state;
  const from = forward ? entry.caret : entry.caret - 1;
  if (from < 0) {
    // Backspace at the start goes back to the part before: the other window, the other side.
    const part = entry.parts.at(-1);
    if (part === undefined || entry.text !== '') return state;
    return { ...state, entry: { ...retyped(entry, part, part.length), parts: entry.parts.slice(0, -1) } };
  }
  return { ...state, entry: retyped(entry, entry.text.slice(0, from) + entry.text.slice(from + 1), from) };
}

/** Takes the text away; what it was for, and the parts already taken, stay. */
export function clearLine(state: ScreenState): ScreenState {
  return { ...state, entry: retyped(state.entry, '', 0), notice: null };
}

function retyped(entry: Entry, text: string, caret: number): Entry {
  return { ...entry, text, caret, query: null, suggestion: null, refusal: null };
}

/** Moving in the text is editing it: what was asked about it is asked again at Enter. */
export function moveCaret(state: ScreenState, to: 'left' | 'right' | 'start' | 'end'): ScreenState {
  const { entry } = state;
  const places = { left: entry.caret - 1, right: entry.caret + 1, start: 0, end: entry.text.length };
  const caret = Math.max(0, Math.min(places[to], entry.text.length));
  return { ...state, entry: { ...entry, caret, query: null, suggestion: null } };
}
