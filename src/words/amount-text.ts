/** Small amounts of the ordinate in sentences. */
import type { OrdinateUnit } from '../calibrate/types.ts';

/** `0.4'`; of a scale, whose divisions may be of any size, two digits: `0.013 scale units`. */
export function amountText(amount: number, unit: OrdinateUnit): string {
  return unit === 'scale' ? `${Number(amount.toPrecision(2))} scale units` : `${amount.toFixed(1)}'`;
}
