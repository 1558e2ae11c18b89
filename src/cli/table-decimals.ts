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
  meantText,
} from '../angle/decimal-meaning.ts';
import { quoteText } from '../angle/quote-text.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';
import type { DraftRecord } from './record-from-rows.ts';
import { UserError } from './user-error.ts';

type Draft = DraftRecord['draft'];

interface Weighed {
  readonly text: string;
  readonly place: string;
  readonly meaning: DecimalMeaning;
}

/**
 * The draft with degrees.minutes written out; decimal degrees stay as they were typed, which is what they mean in a
 * record. Throws UserError where both habits can have written the table, unless `chosen` says which. `placeOf`: the cell
 * behind a place of the record; `say` takes one sentence for the table.
 */
export function settledTable(
  draft: Draft,
  circle: Circle | null,
  chosen: DecimalReading | null,
  placeOf: (place: string) => string,
  say: (sentence: string) => void,
): Draft {
  const weighed: Weighed[] = [];
  withTexts(draft, (text, place) => {
    const meaning = decimalMeaning(text, circle);
    if (meaning !== null) weighed.push({ text, place, meaning });
    return text;
  });
  if (weighed.length === 0) return draft;
  const only = (as: DecimalReading) =>
    weighed.find(({ meaning }) => meaning.kind === 'one' && meaning.meant.as === as);
  const open = weighed.find(({ meaning }) => meaning.kind === 'either');
  const [degrees, minutes] = [only('degrees'), only('minutes')];
  const settled =
    chosen ??
    (degrees === undefined
      ? minutes === undefined
        ? null
        : 'minutes'
      : minutes === undefined
        ? 'degrees'
        : null);
  if (open !== undefined && settled === null) throw bothWays(open, placeOf(open.place), degrees, minutes);
  const asOf = ({ meaning }: Weighed): DecimalReading =>
    meaning.kind === 'one' && chosen === null ? meaning.meant.as : (settled ?? 'degrees');
  const shown = open ?? weighed[0]!;
  const reason = chosen === null ? (settled === 'minutes' ? minutes : degrees) : undefined;
  const because =
    reason === undefined || reason === shown ? '' : `, as ${quoteText(reason.text)} can only be`;
  const as = asOf(shown);
  say(
    `${weighed.length === 1 ? 'the reading' : `${weighed.length} readings`} with a decimal mark ${weighed.length === 1 ? 'is' : 'are'} taken as ${DECIMAL_READING_NAMES[as]}${because}: ${quoteText(shown.text)} is ${textAs(shown, as)}; --decimals ${as === 'degrees' ? 'minutes' : 'degrees'} takes them the other way`,
  );
  const byPlace = new Map(weighed.map((each) => [each.place, each]));
  return withTexts(draft, (text, place) => {
    const each = byPlace.get(place);
    return each === undefined || asOf(each) === 'degrees' ? text : textAs(each, 'minutes');
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
  return meaning.meant.as === as ? meaning.meant.text : text;
}

/** The draft with every text of a reading replaced by what `change` makes of it. */
function withTexts(draft: Draft, change: (text: string, place: string) => string): Draft {
  const window = (value: string | number, place: string) =>
    typeof value === 'string' ? change(value, place) : value;
  const side = (value: SideValue, place: string): SideValue =>
    Array.isArray(value)
      ? [window(value[0], `${place}[0]`), window(value[1], `${place}[1]`)]
      : window(value as string | number, place);
  const reading = (value: ReadingValue, place: string): ReadingValue =>
    typeof value === 'object' && 'left' in value
      ? { left: side(value.left, `${place}.left`), right: side(value.right, `${place}.right`) }
      : side(value, place);
  const owners = <Owner extends Draft['known'][number] | Draft['unknown'][number]>(
    list: readonly Owner[],
    name: string,
  ): Owner[] =>
    list.map((owner, at) => ({
      ...owner,
      lines: owner.lines.map((line, lineAt) => ({
        ...line,
        readings: line.readings.map((value, repeat) =>
          reading(value, `${name}[${at}].lines[${lineAt}].readings[${repeat}]`),
        ),
      })),
    }));
  return {
    ...draft,
    ...(draft.central === undefined
      ? {}
      : { central: draft.central.map((value, at) => side(value, `central[${at}]`)) }),
    known: owners(draft.known, 'known'),
    unknown: owners(draft.unknown, 'unknown'),
  };
}
