/** A reading typed as one text: `228°52'`, windows `A / B`, sides `left A right B`, a number on a scale. */
import { sixtiethsAsMinutes } from '../angle/unify-signs.ts';
import type { Method } from '../record/bench.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';
import { decimalNumber } from './decimal-number.ts';

/** The text as the record writes a reading; what it means on the instrument is checked where records are. */
export function readingValue(text: string, method: Method): ReadingValue {
  if (method === 'scale') return scaleValue(text);
  const sides = /^\s*left\b(.*)\bright\b(.*)$/is.exec(text);
  if (sides !== null) return { left: sideValue(sides[1] ?? ''), right: sideValue(sides[2] ?? '') };
  return sideValue(text);
}

/** One side: a reading, or the two windows of it. */
export function sideValue(text: string): SideValue {
  const windows = sixtiethsAsMinutes(text)
    .split('/')
    .map((window) => window.trim());
  return windows.length === 2 ? [windows[0] ?? '', windows[1] ?? ''] : text.trim();
}

/** What is no decimal number stays text and is refused with its own sentence. */
function scaleValue(text: string): string | number {
  return decimalNumber(text) ?? text;
}
