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
import { formatAngle } from '../angle/format-angle.ts';
import { quoteText } from '../angle/quote-text.ts';
import { unifySigns } from '../angle/unify-signs.ts';
import { DIGIT_ARCMIN, FEWEST_OPEN, MARKS_IN_DECIMALS, SETTLED } from './assumptions.ts';
import { withReadingTexts, withReadingValues } from './reading-texts.ts';
import type { BenchRecord } from './schema.ts';

/** Code of the warning that says how the decimal marks of a record were taken. */
export const DECIMALS = 'decimals';

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
    const message = `${quoteText(minutes!.text)} is no mark of this circle as decimal degrees, but ${meant} is one: ${all} taken as degrees.minutes${but}; write all of them with signs, ${meant}, to settle it`;
    const signed = withReadingTexts(record, (text) => signedMinutes(text, circle));
    return { record: signed, remark: { place: minutes!.place, message } };
  }
  // Enough of them, all estimated by eye: nobody's minutes are 25 and 50 alone.
  const areQuarters =
    written.length >= FEWEST_OPEN && written.every(({ text }) => isQuarter({ value: text }));
  if (habit === 'degrees' || areQuarters) return { record, remark: null };
  if (minutes !== undefined && degrees !== undefined) {
    const message = `${quoteText(minutes.text)} can only be degrees.minutes (${meantAs(minutes, 'minutes')}) and ${quoteText(degrees.text)} can not: ${all} taken as decimal degrees; write all of them with signs to settle it`;
    return { record, remark: { place: minutes.place, message } };
  }
  if (either === undefined) return { record, remark: null };
  const message = `${quoteText(either.text)} can be ${meantAs(either, 'degrees')} (decimal degrees) or ${meantAs(either, 'minutes')} (degrees.minutes): ${all} taken as decimal degrees; write all of them with signs to settle it`;
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

/** A record whose decimal marks may all be those of degrees.minutes, though they were taken as decimal degrees. */
export interface OpenDecimals {
  /** The record with them as degrees.minutes, written with signs. */
  readonly asMinutes: BenchRecord;
  /** Are they all numbers? The format of a record says that a number is decimal degrees. */
  readonly areNumbers: boolean;
  readonly count: number;
  /** Readings beside them that are written with degrees and minutes, as `231°17'`. */
  readonly signedCount: number;
  /** Too few for the digits to say anything. */
  readonly areFew: boolean;
  /** One of them, its place, and both its meanings. */
  readonly example: {
    readonly text: string;
    readonly place: string;
    readonly degrees: string;
    readonly minutes: string;
  };
  /**
   * ln of how much likelier the digits are from degrees.minutes than from decimal degrees; the densities of known lines
   * are to be compared in arc-minutes.
   */
  readonly logDigits: number;
}

/**
 * Null where nothing is open: a circle without minutes, a reading that cannot be degrees.minutes, nothing but quarters
 * of a degree, the same meaning both ways, or texts that `settledDecimals` has settled.
 */
export function openDecimals(record: BenchRecord, circle: Circle | null): OpenDecimals | null {
  if (circle === null || settledDecimals(record, circle).record !== record) return null;
  const found: { value: string | number; place: string; meaning: DecimalMeaning | null }[] = [];
  let signedCount = 0;
  withReadingValues(record, (value, place) => {
    const text = String(value);
    if (hasMinutes(text)) signedCount++;
    if (hasDecimals(text, circle)) found.push({ value, place, meaning: decimalMeaning(text, circle) });
    return value;
  });
  const canBeMinutes = ({ meaning }: { meaning: DecimalMeaning | null }) =>
    meaning?.kind === 'either' || meaning?.alike === true || meaning?.meant.as === 'minutes';
  if (!found.every(canBeMinutes) || found.every(isQuarter)) return null;
  const first =
    found.find(({ meaning }) => meaning?.kind === 'one' && !meaning.alike) ??
    found.find(({ meaning }) => meaning?.kind === 'either');
  if (first === undefined) return null;
  const text = String(first.value);
  return {
    asMinutes: withReadingValues(record, (value) => {
      const signed = signedMinutes(String(value), circle);
      return signed === String(value) ? value : signed;
    }),
    areNumbers: found.every(({ value }) => typeof value === 'number'),
    count: found.length,
    signedCount,
    areFew: found.length < FEWEST_OPEN,
    example: {
      text,
      place: first.place,
      degrees: formatAngle(degreesOf(text), circle),
      minutes: signedMinutes(text, circle),
    },
    logDigits: logOfDigits(found, circle.leastCountArcmin),
  };
}

const degreesOf = (value: string | number): number => Number(String(value).replace(',', '.'));

/** Halves and quarters of a degree are what is estimated by eye: 25 and 50 alone are no minutes of a hand that reads a circle. */
const isQuarter = ({ value }: { value: string | number }): boolean => (degreesOf(value) * 4) % 1 === 0;

/** Degrees and minutes with their signs, or a space or colon between them. */
const hasMinutes = (text: string): boolean => /^\s*\d+\s*[°:\s]\s*\d/.test(unifySigns(text));

/**
 * Degrees.minutes are marks of the circle, each as likely as the next; decimal degrees are any hundredth, or marks too.
 * A known line counts whole, since its place is foretold by the curve; of others those of one degree stand together.
 */
function logOfDigits(
  found: readonly {
    readonly value: string | number;
    readonly place: string;
    readonly meaning: DecimalMeaning | null;
  }[],
  leastCountArcmin: number,
): number {
  const known = found.filter(({ place }) => place.startsWith('known'));
  const others = found.filter(({ place }) => !place.startsWith('known'));
  const degrees = new Set(others.map(({ value }) => Math.trunc(degreesOf(value))));
  const asAny =
    known.length * Math.log(leastCountArcmin / DIGIT_ARCMIN) +
    others.length * Math.log(Math.max(1, leastCountArcmin)) +
    degrees.size * Math.log(1 / DIGIT_ARCMIN);
  const areMarks = found.every(({ meaning }) => meaning?.kind === 'either' || meaning?.alike === true);
  return areMarks
    ? -Math.log(MARKS_IN_DECIMALS + (1 - MARKS_IN_DECIMALS) * Math.exp(-asAny))
    : asAny - Math.log(1 - MARKS_IN_DECIMALS);
}
