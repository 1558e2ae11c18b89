import { sum } from './sum.ts';
/** Arithmetic mean; NaN of nothing. */
export function mean(values: readonly number[]): number {
  return sum(values) / values.length;
}
