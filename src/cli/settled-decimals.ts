/** A reading given as one argument: what its decimals mean is said, or asked where both habits can have written it. */
import type { Circle } from '../angle/circle.ts';
import { decimalMeaning, meantText } from '../angle/decimal-meaning.ts';
import { quoteText } from '../angle/quote-text.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';

/**
 * The reading with a text of one meaning for each number with a decimal mark.
 * @param said takes a sentence for each that was settled
 * @param asked takes a sentence for each that can mean two things; the reading is then not to be used
 */
export function settledDecimals(
  value: ReadingValue,
  circle: Circle | null,
  said: (sentence: string) => void,
  asked: (sentence: string) => void,
): ReadingValue {
  const window = (text: string | number): string | number => {
    const meaning = typeof text === 'string' ? decimalMeaning(text, circle) : null;
    if (meaning === null) return text;
    const typed = quoteText(String(text));
    if (meaning.kind === 'one') {
      said(`${typed} is taken as ${meantText(meaning.meant)}`);
      return meaning.meant.text;
    }
    const { degrees, minutes } = meaning;
    asked(
      `${typed} can be ${meantText(degrees)} or ${meantText(minutes)} on this circle; write ${degrees.text} or ${minutes.text}`,
    );
    return text;
  };
  const side = (given: SideValue): SideValue =>
    Array.isArray(given) ? [window(given[0]), window(given[1])] : window(given as string | number);
  return typeof value === 'object' && 'left' in value
    ? { left: side(value.left), right: side(value.right) }
    : side(value);
}
