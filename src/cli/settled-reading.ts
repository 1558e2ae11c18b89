/** A reading given as one argument: what its decimals mean is said, or asked where both habits can have written it. */
import type { Circle } from '../angle/circle.ts';
import { decimalMeaning, meantText } from '../angle/decimal-meaning.ts';
import { quoteText } from '../angle/quote-text.ts';
import { withWindowTexts } from '../record/reading-texts.ts';
import type { ReadingValue } from '../record/schema.ts';

/**
 * The reading with a text of one meaning for each number with a decimal mark.
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
