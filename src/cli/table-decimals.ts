/**
 * Readings of a spreadsheet with a decimal mark, on a circle with minutes: decimal degrees or degrees.minutes? One hand
 * writes one way, so the whole table is weighed: what only one habit can have written there settles the rest.
 */
import type { Circle } from '../angle/circle.ts';
import {
  DECIMAL_READING_NAMES,
  type DecimalMeaning,
  type DecimalReading,
  decimalMeaning,
  hasDecimals,
  meantText,
} from '../angle/decimal-meaning.ts';
import { quoteText } from '../angle/quote-text.ts';
import { sortDecimals } from '../record/decimal-habit.ts';
import { type ReadingsHolder, withReadingTexts } from '../record/reading-texts.ts';
import { UserError } from './user-error.ts';

interface Weighed {
  readonly text: string;
  readonly place: string;
  readonly meaning: DecimalMeaning;
}

/**
 * The draft with degrees.minutes written out; decimal degrees stay as they were typed, with their sign where they could
 * be degrees.minutes: what they mean must not hang on the others. Throws UserError where both habits can have written the table, unless `chosen` says which. `placeOf`: the cell
 * behind a place of the record; `say` takes one sentence for the table.
 */
export function settledTable(
  draft: ReadingsHolder,
  circle: Circle | null,
  chosen: DecimalReading | null,
  placeOf: (place: string) => string,
  say: (sentence: string) => void,
): ReadingsHolder {
  const weighed: Weighed[] = [];
  withReadingTexts(draft, (text, place) => {
    const meaning = decimalMeaning(text, circle);
    if (meaning !== null) weighed.push({ text, place, meaning });
    return text;
  });
  if (weighed.length === 0) return draft;
  const found = sortDecimals(weighed.map(({ meaning }, at) => [at, meaning] as const));
  const [open, degrees, minutes] = [found.either, found.degrees, found.minutes].map(
    ([at]) => weighed[at ?? -1],
  );
  const isOneHabit = (degrees === undefined) !== (minutes === undefined);
  const habit = isOneHabit ? (degrees === undefined ? 'minutes' : 'degrees') : null;
  const settled = chosen ?? habit;
  if (open !== undefined && settled === null) throw bothWays(open, placeOf(open.place), degrees, minutes);
  const asOf = ({ meaning }: Weighed): DecimalReading =>
    meaning.kind === 'one' && !meaning.alike && chosen === null ? meaning.meant.as : (settled ?? 'degrees');
  const shown = open ?? weighed[0]!;
  const reason = chosen === null ? (settled === 'minutes' ? minutes : degrees) : undefined;
  const because =
    reason === undefined || reason === shown ? '' : `, as ${quoteText(reason.text)} can only be`;
  const as = asOf(shown);
  const [all, are] = weighed.length === 1 ? ['the reading', 'is'] : [`${weighed.length} readings`, 'are'];
  say(
    `${all} with a decimal mark ${are} taken as ${DECIMAL_READING_NAMES[as]}${because}: ${quoteText(shown.text)} is ${textAs(shown, as)}; --decimals ${as === 'degrees' ? 'minutes' : 'degrees'} takes them the other way`,
  );
  return withReadingTexts(draft, (text, place) => {
    const meaning = decimalMeaning(text, circle);
    if (meaning === null) return text;
    const each = { text, place, meaning };
    if (asOf(each) === 'minutes') return textAs(each, 'minutes');
    const isOpen = meaning.kind === 'either' || (!meaning.alike && meaning.meant.as === 'minutes');
    return isOpen && hasDecimals(text, circle) ? `${text}°` : text;
  });
}

function bothWays(
  { text, meaning }: Weighed,
  place: string,
  degrees: Weighed | undefined,
  minutes: Weighed | undefined,
): UserError {
  const ways =
    meaning.kind === 'either' ? `${meantText(meaning.degrees)} or ${meantText(meaning.minutes)}` : '';
  const mixed =
    degrees !== undefined && minutes !== undefined
      ? `, and the table has both: ${quoteText(degrees.text)} and ${quoteText(minutes.text)}`
      : '';
  return new UserError(
    `${place}: ${quoteText(text)} can be ${ways} on this circle${mixed}; --decimals degrees or --decimals minutes says which`,
  );
}

/** The reading with its signs. What the circle has no mark for in the other way stays as it is typed. */
function textAs({ text, meaning }: Weighed, as: DecimalReading): string {
  if (meaning.kind === 'either') return meaning[as].text;
  return meaning.meant.as === as || meaning.alike ? meaning.meant.text : text;
}
