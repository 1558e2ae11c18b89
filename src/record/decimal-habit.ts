/**
 * Readings of a record with a decimal mark, on a circle with minutes: decimal degrees, as the format says, or the
 * degrees.minutes that many write? One hand writes one way, so the record is weighed as a whole.
 */
import type { Circle } from '../angle/circle.ts';
import {
  type DecimalMeaning,
  type DecimalReading,
  decimalMeaning,
  hasDecimals,
} from '../angle/decimal-meaning.ts';
import { quoteText } from '../angle/quote-text.ts';
import { placeIn } from './place-in.ts';
import type { BenchRecord, ReadingValue } from './schema.ts';

export interface DecimalHabit {
  readonly habit: DecimalReading;
  /** What there is to say about it, and the place of the reading that it speaks of. */
  readonly remark: { readonly place: string; readonly message: string } | null;
}

interface Written {
  readonly text: string;
  readonly place: string;
  /** Null: no mark of the circle either way, as a mean of several takes is. */
  readonly meaning: DecimalMeaning | null;
}

/**
 * Degrees.minutes where some reading can only be that and none can only be decimal degrees. Numbers of the record that
 * are no texts are decimal degrees always.
 */
export function decimalHabit(record: BenchRecord, circle: Circle | null): DecimalHabit {
  const written = readingsOf(record).flatMap(([text, place]): Written[] =>
    hasDecimals(text, circle) ? [{ text, place, meaning: decimalMeaning(text, circle) }] : [],
  );
  const only = (as: DecimalReading) =>
    written.filter(({ meaning }) => meaning?.kind === 'one' && !meaning.alike && meaning.meant.as === as);
  const either = written.find(({ meaning }) => meaning?.kind === 'either');
  const minutes = only('minutes');
  const isDegrees = only('degrees').length > 0 || written.some(({ meaning }) => meaning === null);
  if (minutes.length > 0 && !isDegrees) return { habit: 'minutes', remark: asMinutes(written, minutes[0]!) };
  const open = either !== undefined && !isDegrees ? either : null;
  return { habit: 'degrees', remark: open && eitherWay(written, open) };
}

function asMinutes(written: readonly Written[], shown: Written) {
  const many = written.length === 1 ? 'it is' : `all ${written.length} readings with a decimal mark are`;
  const meant = shown.meaning?.kind === 'one' ? shown.meaning.meant.text : '';
  const message = `${quoteText(shown.text)} is no mark of this circle as decimal degrees, but ${meant} is one: ${many} taken as degrees.minutes; write them with signs, ${meant}, to settle it`;
  return { place: shown.place, message };
}

function eitherWay(written: readonly Written[], { text, place, meaning }: Written) {
  if (meaning?.kind !== 'either') return null;
  const many = written.length === 1 ? 'it is' : `all ${written.length} readings with a decimal mark are`;
  const message = `${quoteText(text)} can be ${meaning.degrees.text} (decimal degrees) or ${meaning.minutes.text} (degrees.minutes): ${many} taken as decimal degrees; write them with signs to settle it`;
  return { place, message };
}

/** Every text of a reading, with its place. */
function readingsOf(record: BenchRecord): (readonly [text: string, place: string])[] {
  const texts = (value: ReadingValue, place: string): (readonly [string, string])[] => {
    if (typeof value === 'string') return [[value, place]];
    if (typeof value === 'number') return [];
    const parts = Array.isArray(value) ? value.flat() : [value.left, value.right].flat();
    return parts.flatMap((part) => (typeof part === 'string' ? [[part, place] as const] : []));
  };
  const all = (values: readonly ReadingValue[] | undefined, place: string) =>
    (values ?? []).flatMap((value, at) => texts(value, `${place}[${at}]`));
  const lines = (
    list: readonly { readonly readings: readonly ReadingValue[] }[] | undefined,
    place: string,
  ) => (list ?? []).flatMap(({ readings }, at) => all(readings, `${place}[${at}].readings`));
  return [
    ...all(record.central, 'central'),
    ...record.known.flatMap((lamp, at) => {
      const place = placeIn('known', record.known, at);
      return [...lines(lamp.lines, `${place}.lines`), ...lines(lamp.check, `${place}.check`)];
    }),
    ...lines(record.check, 'check'),
    ...record.unknown.flatMap((tube, at) => {
      const place = placeIn('unknown', record.unknown, at);
      const notSeen = (tube.notSeen ?? []).flatMap(({ reading }, i) =>
        reading === undefined ? [] : texts(reading, `${place}.notSeen[${i}].reading`),
      );
      return [...all(tube.central, `${place}.central`), ...lines(tube.lines, `${place}.lines`), ...notSeen];
    }),
  ];
}
