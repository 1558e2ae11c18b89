/** What is known of the scatter of setting the cross-hairs before the calibration residuals speak. */
import { logSum } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import { mean, sum, sumOf } from '../numeric/sum.ts';
import type { Bench } from '../record/bench.ts';
import * as assumed from './assumptions.ts';
import type { Observation } from './observation.ts';
import { finestStep } from './reading-step.ts';
import { roundingVariance } from './reading-variance.ts';

/** A grid of variances of one setting, unit², with normalised logarithms of weights. */
export interface ScatterPrior {
  readonly grid: readonly { readonly variance: number; readonly logWeight: number }[];
}

/** Usual scatter of one setting, in the ordinate's unit; where all is rounded, of an instrument that reads no finer. */
export function usualScatter(bench: Bench): number {
  const { fixedArcmin, vernier, decimals, scale } = assumed.USUAL_SCATTER;
  const step = finestStep(bench);
  if (bench.method === 'scale') return scale * step;
  return fixedArcmin + (bench.decimalCircle === true ? decimals : vernier) * step;
}

/**
 * Log-normal about the usual scatter, a factor of two either way; repeats of one setting sharpen it. Repeats that
 * differ by more than any setting scatters are left to the slips.
 */
export function scatterPrior(bench: Bench, observations: readonly Observation[]): ScatterPrior {
  const usual = usualScatter(bench);
  const logs = assumed.SCATTER_STEPS.map((step) => {
    const variance = (usual * Math.exp(step * assumed.SCATTER_WIDTH)) ** 2;
    const repeats = observations.map((observation) => repeatsLogLikelihood(observation, variance));
    return { variance, log: -0.5 * step * step + sum(repeats) };
  });
  const total = logSum(logs.map((entry) => entry.log));
  return { grid: logs.map(({ variance, log }) => ({ variance, logWeight: log - total })) };
}

function repeatsLogLikelihood(observation: Observation, variance: number): number {
  const count = observation.repeats.length;
  if (count < 2) return 0;
  const sides = observation.parts.some((part) => part.side !== null) ? 2 : 1;
  const resolution = roundingVariance(observation.step);
  const single = ((1 - assumed.SETTING_OF_THE_LINE) * variance + resolution) / sides;
  const middle = mean(observation.repeats);
  const log = sumOf(
    observation.repeats,
    (value) => ((count - 1) / count) * logNormalDensity(value - middle, (single * (count - 1)) / count),
  );
  return Math.max(log, assumed.LEAST_OF_A_REPEAT * count);
}
