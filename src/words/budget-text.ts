/** The terms of an uncertainty budget in words, with the formula and the numbers in it. */
import type { BudgetTerm, CalibrationNumbers } from '../calibrate/types.ts';
import { NEXT_TICK_CHANCE, SCALE_ORIGIN_COUNTS } from '../observe/assumptions.ts';
import { finestStep, lampStep } from '../observe/reading-step.ts';
import { errorShares } from '../observe/reading-variance.ts';
import type { Bench } from '../record/bench.ts';

/** `resolution of the vernier`. */
export function budgetName({ source }: BudgetTerm, bench: Bench): string {
  const circle = bench.method !== 'scale';
  switch (source) {
    case 'resolution':
      return circle ? 'resolution of the vernier' : 'resolution of the scale';
    case 'next-tick':
      return 'one tick to either side';
    case 'setting':
      // A prism that stays where it is, as that of a scale does, is not set anew for a line.
      return circle && bench.prism === 'each-line'
        ? 'setting the cross-hairs, and the prism to minimum deviation'
        : 'setting the cross-hairs';
    case 'central-image':
      return circle ? 'central image' : 'zero of the scale between lamp and tube';
    case 'curve':
      return 'calibration curve';
  }
}

/** How a term of the bench's budget comes about. */
export function budgetFormula(
  term: BudgetTerm,
  bench: Bench,
  { settingScatter }: CalibrationNumbers,
): string {
  const unit = bench.method === 'scale' ? ' scale units' : "'";
  const number = (value: number): string => Number(value.toPrecision(3)).toString();
  const averaged = (bench.method === 'both-sides' ? 2 : 1) * bench.windows;
  const divided = averaged > 1 ? `/√${averaged}` : '';
  const step = lampStep(bench);
  const isRounded = step !== bench.leastCount;
  const stepName = isRounded ? 'step of the readings' : 'least count';
  const why = isRounded
    ? `: the known lines are read at multiples of it, coarser than the least count of ${number(bench.leastCount)}${unit}`
    : '';
  switch (term.source) {
    case 'resolution':
      return `${stepName}/√12${divided} = ${number(step)}${unit}/√12${divided}${why}`;
    case 'next-tick':
      return `√${NEXT_TICK_CHANCE}·${stepName}${divided}: one reading in fifty is a tick off`;
    case 'setting': {
      const { settingShare } = errorShares(bench);
      const scatter = settingScatter === null ? '' : ` ${number(settingScatter)}${unit}`;
      const pooled = `scatter of one setting${scatter}, pooled over repeats and calibration residuals`;
      return settingShare === 1
        ? pooled
        : `√${number(settingShare)}·${pooled}; the second side averages out a part of it`;
    }
    case 'central-image':
      if (bench.method === 'scale')
        return `${SCALE_ORIGIN_COUNTS}·${finestStep(bench) === bench.leastCount ? 'least count' : 'step of the readings'}: another lamp before the slit, and the play of the drum`;
      return term.at === null
        ? 'central image read again for the tube, or lines on its other side'
        : `√(resolution² + setting²/${Math.round(1 / term.at)}); cancels where lamp and tube share the reading`;
    case 'curve':
      return `√(f'Cf) at ${(term.at ?? 0).toFixed(0)} nm, C the covariance of the curve's constants`;
  }
}
