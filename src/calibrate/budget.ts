/** The uncertainty budget of one reading: each source with its formula and the numbers in it (JCGM 100:2008). */

import { type CentralImage, NEXT_TICK_CHANCE } from '../observe/observation.ts';
import type { Bench } from '../record/bench.ts';
import type { BudgetItem, CalibrationCurve } from './types.ts';

export function uncertaintyBudget(
  bench: Bench,
  central: CentralImage | null,
  settingVariance: number,
  curve: CalibrationCurve | null,
): BudgetItem[] {
  const circle = bench.method !== 'scale';
  const unit = circle ? "'" : ' units';
  const number = (value: number): string => Number(value.toPrecision(3)).toString();
  const sides = bench.method === 'both-sides' ? 2 : 1;
  const share = 1 / Math.sqrt(sides * bench.windows);
  const items: BudgetItem[] = [
    {
      name: circle ? 'resolution of the vernier' : 'resolution of the scale',
      standardUncertainty: bench.leastCount * Math.sqrt(1 / 12) * share,
      formula: `least count/√12${share < 1 ? `/√${sides * bench.windows}` : ''} = ${number(bench.leastCount)}${unit}/√12${share < 1 ? `/√${sides * bench.windows}` : ''}`,
      sharedByAllLines: false,
    },
    {
      name: 'one tick to either side',
      standardUncertainty: bench.leastCount * Math.sqrt(NEXT_TICK_CHANCE) * share,
      formula: `√${NEXT_TICK_CHANCE}·least count: one reading in fifty is a tick off`,
      sharedByAllLines: false,
    },
    {
      // A prism that stays where it is, as that of a scale does, is not set anew for a line.
      name:
        circle && bench.prism === 'each-line'
          ? 'setting the cross-hairs, and the prism to minimum deviation'
          : 'setting the cross-hairs',
      standardUncertainty: Math.sqrt(settingVariance / sides),
      formula: `scatter of one setting, pooled over repeats and calibration residuals${sides === 2 ? ', /√2 for two sides' : ''}`,
      sharedByAllLines: false,
    },
  ];
  if (bench.method === 'central' && central) {
    items.push({
      name: 'central image',
      standardUncertainty: Math.sqrt(central.resolutionVariance + central.settingShare * settingVariance),
      formula: `√(resolution² + setting²/${Math.round(1 / central.settingShare)}); cancels where lamp and tube share the reading`,
      sharedByAllLines: true,
    });
  }
  if (curve) {
    const middle = (curve.rangeNm[0] + curve.rangeNm[1]) / 2;
    items.push({
      name: 'calibration curve',
      standardUncertainty: Math.sqrt(Math.max(0, curve.covariance(middle, middle))),
      formula: `√(f'Cf) at ${middle.toFixed(0)} nm, C the covariance of the curve's constants`,
      sharedByAllLines: true,
    });
  }
  return items;
}
