/**
 * Readings with a decimal mark, on a circle with minutes: decimal degrees, as the format of a record says, or the
 * degrees.minutes that many write? One hand writes one way, so all of them are weighed together.
 */
import type { Circle } from '../angle/circle.ts';
import {
  type DecimalMeaning,
  type DecimalReading,
  decimalMeaning,
  hasDecimals,
} from '../angle/decimal-meaning.ts';
import { quoteText } from '../angle/quote-text.ts';
import { withReadingTexts } from './reading-texts.ts';
import type { BenchRecord } from './schema.ts';

/** What can have been written in one way only must be so many times what can only be the other (common practice, no source). */
const SETTLED = 4;

interface Written {
  readonly text: string;
  readonly place: string;
  /** Null: no mark of the circle either way, as a mean of several takes is. */
  readonly meaning: DecimalMeaning | null;
}

/** By index of the text: those that can only be the one or the other, and those that can be both. */
export interface SortedDecimals {
  readonly minutes: readonly number[];
  readonly degrees: readonly number[];
  readonly either: readonly number[];
}

export interface WeighedDecimals extends SortedDecimals {
  /** Null: they do not say, or contradict each other. */
  readonly habit: DecimalReading | null;
}

/** Null is no mark of the circle either way, as a mean of several takes is; what means the same both ways says nothing. */
export function sortDecimals(meanings: Iterable<readonly [number, DecimalMeaning | null]>): SortedDecimals {
  const [minutes, degrees, either]: [number[], number[], number[]] = [[], [], []];
  for (const [at, meaning] of meanings) {
    if (meaning === null) degrees.push(at);
    else if (meaning.kind === 'either') either.push(at);
    else if (!meaning.alike) (meaning.meant.as === 'minutes' ? minutes : degrees).push(at);
  }
  return { minutes, degrees, either };
}

/** What one hand means by the decimal marks of its readings; what has none, or a vernier reading beside it, says nothing. */
export function weighDecimals(texts: readonly string[], circle: Circle | null): WeighedDecimals {
  const sorted = sortDecimals(
    [...texts.entries()].flatMap(([at, text]) =>
      hasDecimals(text, circle) ? [[at, decimalMeaning(text, circle)] as const] : [],
    ),
  );
  return { habit: habitOf(sorted), ...sorted };
}

function habitOf({ minutes, degrees }: SortedDecimals): DecimalReading | null {
  const isSettled = (one: readonly number[], other: readonly number[]): boolean =>
    one.length > 0 && one.length >= SETTLED * other.length;
  return isSettled(minutes, degrees) ? 'minutes' : isSettled(degrees, minutes) ? 'degrees' : null;
}

export interface SettledDecimals {
  /** Degrees.minutes are written with their signs; decimal degrees stay as they are. */
  readonly record: BenchRecord;
  /** What there is to say about it, and the place of the reading that it speaks of. */
  readonly remark: { readonly place: string; readonly message: string } | null;
}

/** The same record where there is nothing to settle. Its numbers that are no texts are decimal degrees always. */
export function settledDecimals(record: BenchRecord, circle: Circle | null): SettledDecimals {
  const written: Written[] = [];
  withReadingTexts(record, (text, place) => {
    if (hasDecimals(text, circle)) written.push({ text, place, meaning: decimalMeaning(text, circle) });
    return text;
  });
  const found = sortDecimals(written.map(({ meaning }, at) => [at, meaning] as const));
  const habit = habitOf(found);
  const minutes = written[found.minutes[0]!];
  const degrees = written[found.degrees[0]!];
  const either = written[found.either[0]!];
  const all = written.length === 1 ? 'it is' : `all ${written.length} readings with a decimal mark are`;
  if (habit === 'minutes') {
    const meant = meantAs(minutes!, 'minutes');
    const but = degrees === undefined ? '' : ` but ${quoteText(degrees.text)}, which cannot be`;
    const message = `${quoteText(minutes!.text)} is no mark of this circle as decimal degrees, but ${meant} is one: ${all} taken as degrees.minutes${but}; write them with signs, ${meant}, to settle it`;
    const signed = withReadingTexts(record, (text) => signedMinutes(text, circle));
    return { record: signed, remark: { place: minutes!.place, message } };
  }
  if (habit === 'degrees') return { record, remark: null };
  if (minutes !== undefined && degrees !== undefined) {
    const message = `${quoteText(minutes.text)} can only be degrees.minutes (${meantAs(minutes, 'minutes')}) and ${quoteText(degrees.text)} can not: ${all} taken as decimal degrees; write them with signs to settle it`;
    return { record, remark: { place: minutes.place, message } };
  }
  if (either === undefined) return { record, remark: null };
  const message = `${quoteText(either.text)} can be ${meantAs(either, 'degrees')} (decimal degrees) or ${meantAs(either, 'minutes')} (degrees.minutes): ${all} taken as decimal degrees; write them with signs to settle it`;
  return { record, remark: { place: either.place, message } };
}

function signedMinutes(text: string, circle: Circle | null): string {
  const meaning = hasDecimals(text, circle) ? decimalMeaning(text, circle) : null;
  if (meaning === null) return text;
  if (meaning.kind === 'either') return meaning.minutes.text;
  return meaning.meant.as === 'minutes' || meaning.alike ? meaning.meant.text : text;
}

const meantAs = ({ meaning, text }: Written, as: DecimalReading): string =>
  meaning === null ? text : (meaning.kind === 'either' ? meaning[as] : meaning.meant).text;
