/** The prism's apex angle with its uncertainty, as every output prints it. */
import { roundWithUncertainty } from '../numeric/round-uncertainty.ts';
import { apexUncertaintyDeg } from '../observe/apex-angle.ts';
import { usualScatter } from '../observe/setting-scatter.ts';
import type { Bench } from '../record/bench.ts';
import { deviationText } from './quantity-text.ts';

/** `60°00' ± 2.0'`, `60°00', taken as exact`; "" where it is not known. `settingScatter`: arc-minutes, of the bench. */
export function apexText(bench: Bench, settingScatter: number | null): string {
  if (bench.apexAngle === null) return '';
  const { valueDeg } = bench.apexAngle;
  const value = deviationText(valueDeg, bench);
  const uDeg = apexUncertaintyDeg(bench, (settingScatter ?? usualScatter(bench)) ** 2);
  if (uDeg === null || uDeg === 0) return `${value}, taken as exact`;
  return `${value} ± ${roundWithUncertainty(valueDeg * 60, uDeg * 60).u}'`;
}
