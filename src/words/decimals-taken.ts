/** How all decimal marks of a record were understood, where two meanings are open. */
import { DECIMAL_READING_NAMES, type DecimalReading } from '../angle/decimal-meaning.ts';
import { percentText } from '../numeric/percent-text.ts';

/** One of the readings with both its meanings, and how many there are. */
interface DecimalMarks {
  readonly example: { readonly text: string; readonly degrees: string; readonly minutes: string };
  readonly count: number;
}

/** `inMinutes`: the probability of degrees.minutes; `taken`: what the record is computed with. */
export function decimalsTaken(
  { example, count }: DecimalMarks,
  inMinutes: number,
  taken: DecimalReading,
): string {
  const meant = (as: DecimalReading) => `${example[as]} (${DECIMAL_READING_NAMES[as]})`;
  const [other, probability] =
    taken === 'minutes' ? (['degrees', inMinutes] as const) : (['minutes', 1 - inMinutes] as const);
  const chance = percentText(probability, 'over ', 'under ');
  return `${example.text} is taken as ${meant(taken)} rather than ${meant(other)}, and so are all ${count} readings with a decimal mark: by the digits and the known lines the chance of that is ${chance}; write all of them with signs to settle it`;
}

/** Left over beside `signedCount` readings with degrees and minutes: what they are taken for, as by the format of a record. */
export function decimalsLeft({ example, count }: DecimalMarks, signedCount: number): string {
  const meant = (as: DecimalReading) => `${example[as]} (${DECIMAL_READING_NAMES[as]})`;
  const all = count === 1 ? '' : `, and so are all ${count} readings with a decimal mark`;
  const beside = signedCount === 1 ? 'a reading' : `${signedCount} readings`;
  return `${example.text} is taken as ${meant('degrees')}, not as ${meant('minutes')}${all}, beside ${beside} with degrees and minutes; write all of them with signs to settle it`;
}
