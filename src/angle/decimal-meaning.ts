/**
 * `229.17` read on a circle with minutes: decimal degrees (229°10') from a calculator, or degrees.minutes (229°17') as
 * many write them? Both habits are common (common practice, no source); what only one of them can have written on this
 * circle is settled by the circle.
 */
import type { Circle } from './circle.ts';
import { formatAngle } from './format-angle.ts';
import { parseTerm, type Sexagesimal } from './parse-term.ts';
import { unifySigns } from './unify-signs.ts';

/** What the digits behind the decimal mark count: hundredths of a degree, or minutes (and seconds). */
export type DecimalReading = 'degrees' | 'minutes';

/** One way to understand such a number. */
export interface MeantAngle {
  readonly as: DecimalReading;
  /** Degrees; a mark of the circle. */
  readonly degrees: number;
  /** The reading with its signs, which has one meaning only: `229°17'`. */
  readonly text: string;
}

export type DecimalMeaning =
  /** Only one habit can have written it on this circle; `alike`: or both, and mean the same by it. */
  | { readonly kind: 'one'; readonly meant: MeantAngle; readonly alike?: true }
  /** Both can. */
  | { readonly kind: 'either'; readonly degrees: MeantAngle; readonly minutes: MeantAngle };

export const DECIMAL_READING_NAMES: Readonly<Record<DecimalReading, string>> = {
  degrees: 'decimal degrees',
  minutes: 'degrees.minutes',
};

/** `229°10' (decimal degrees)`. */
export function meantText({ as, text }: MeantAngle): string {
  return `${text} (${DECIMAL_READING_NAMES[as]})`;
}

/**
 * What a number with a decimal point or comma can mean on a circle. Null where that is no question: another text, whole
 * degrees, a circle without minutes, and a number that no habit can have written there.
 * @param text a whole angle, or main scale + vernier, of which the main scale is weighed
 */
export function decimalMeaning(text: string, circle: Circle | null): DecimalMeaning | null {
  const written = withDecimals(text, circle);
  if (circle === null || written === null) return null;
  const { mainText, main, vernier } = written;
  const rest = vernier.length === 0 ? '' : ` + ${vernier[0]!.trim()}`;
  const marks = rest === '' ? circle : { ...circle, leastCountArcmin: circle.scaleDivisionArcmin };
  const meant = (as: DecimalReading, degrees: number | null): MeantAngle | null =>
    degrees === null || degrees > 360 ? null : { as, degrees, text: formatAngle(degrees, marks) + rest };
  const degrees = meant('degrees', asDecimals(main.term, marks.leastCountArcmin));
  const minutes = meant('minutes', asMinutes(mainText, main.term, marks.leastCountArcmin));
  if (degrees === null) return minutes === null ? null : { kind: 'one', meant: minutes };
  // Half degrees are marks by their numbers: `231.5 + 28` is as plain as a reading can be.
  const isExact = Math.abs(degrees.degrees - (main.term.degrees ?? 0)) < 1e-9;
  if (minutes === null) return rest !== '' && isExact ? null : { kind: 'one', meant: degrees };
  return Math.abs(minutes.degrees - degrees.degrees) < 1e-9
    ? { kind: 'one', meant: degrees, alike: true }
    : { kind: 'either', degrees, minutes };
}

/** Is the text one number with a decimal mark (no main scale + vernier), on a circle with minutes? */
export function hasDecimals(text: string, circle: Circle | null): boolean {
  return withDecimals(text, circle)?.vernier.length === 0;
}

function withDecimals(text: string, circle: Circle | null) {
  if (circle === null || circle.decimal || text.length > 100) return null;
  const [mainText = '', ...vernier] = unifySigns(text).split('+');
  const main = parseTerm(mainText.trim());
  if (!main.ok || !main.term.bare || main.term.decimals === 0 || vernier.length > 1) return null;
  return Number.isInteger(main.term.degrees) ? null : { mainText, main, vernier };
}

/** The mark, in degrees, whose decimals were written, rounded or cut off after the last digit; null without one. */
function asDecimals({ degrees: value, decimals }: Sexagesimal, stepArcmin: number): number | null {
  if (value === null) return null;
  const step = stepArcmin / 60;
  const digit = 10 ** -decimals;
  const nearest = Math.round(value / step) * step;
  if (Math.abs(nearest - value) <= digit / 2 + 1e-9) return nearest;
  const above = Math.ceil(value / step) * step;
  return above - value < digit - 1e-9 ? above : null;
}

/** Two digits of minutes, two more of seconds where the vernier shows them; a last zero may have been dropped. */
function asMinutes(text: string, { degrees: value }: Sexagesimal, stepArcmin: number): number | null {
  const [whole, behind = ''] = text.trim().split('.');
  if (value === null || whole === undefined || behind === '') return null;
  const digits = behind.padEnd(4, '0');
  const minutes = Number(digits.slice(0, 2));
  const seconds = Number(digits.slice(2, 4));
  if (minutes >= 60 || seconds >= 60 || Number(digits.slice(4)) > 0) return null;
  const steps = (minutes + seconds / 60) / stepArcmin;
  return Math.abs(steps - Math.round(steps)) < 1e-6 ? Number(whole) + minutes / 60 + seconds / 3600 : null;
}
