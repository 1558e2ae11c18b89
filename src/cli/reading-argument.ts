/** A reading typed as one text: `228°52'`, windows `A / B`, sides `left A right B`, a number on a scale. */
import type { Circle } from '../angle/circle.ts';
import { decimalMeaning, meantText } from '../angle/decimal-meaning.ts';
import { quoteText } from '../angle/quote-text.ts';
import { sixtiethsAsMinutes } from '../angle/unify-signs.ts';
import type { Method } from '../record/bench.ts';
import { withWindowTexts } from '../record/reading-texts.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';
import { decimalNumber } from './decimal-number.ts';

/** The text as the record writes a reading; what it means on the instrument is checked where records are. */
export function readingValue(text: string, method: Method): ReadingValue {
  // What is no decimal number stays text and is refused with its own sentence.
  if (method === 'scale') return decimalNumber(text) ?? text;
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

/**
 * What the decimals of a reading mean is said, or asked where both habits can have written it: the reading with a text of one meaning for each number with a decimal mark.
 * @param said takes a sentence for each that was settled
 * @param asked takes a sentence for each that can mean two things; the reading is then not to be used
 */
export function settledReading(
  value: ReadingValue,
  circle: Circle | null,
  said: (sentence: string) => void,
  asked: (sentence: string) => void,
): ReadingValue {
  return withWindowTexts(value, '', (text) => {
    const meaning = decimalMeaning(text, circle);
    if (meaning === null) return text;
    const typed = quoteText(text);
    if (meaning.kind === 'one') {
      said(`${typed} is taken as ${meantText(meaning.meant)}`);
      return meaning.meant.text;
    }
    const { degrees, minutes } = meaning;
    asked(
      `${typed} can be ${meantText(degrees)} or ${meantText(minutes)} on this circle; write ${degrees.text} or ${minutes.text}`,
    );
    return text;
  });
}
