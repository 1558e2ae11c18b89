/** Readings written down to a coarser step than the instrument reads. */
import { formatCount } from '../angle/format-angle.ts';
import type { Bench } from '../record/bench.ts';

/** Code of the warning that says so. */
export const ROUNDED_READINGS = 'rounded-readings';

/** `step`: arc-minutes, or scale units. `whose`: `the known lines`, the label of a tube. */
export function roundedSentence(
  { method, leastCount, decimalCircle }: Bench,
  whose: string,
  step: number,
): string {
  const text = (amount: number): string =>
    method === 'scale'
      ? `${Number(amount.toFixed(6))}`
      : formatCount({ leastCountArcmin: amount, decimal: decimalCircle ?? false });
  return `${whose}: all readings are multiples of ${text(step)}, on an instrument that reads ${text(leastCount)}: they are taken as rounded to that, and their uncertainty is larger. Is its least count ${text(step)}? Then enter that; if not, write down all that it shows.`;
}
