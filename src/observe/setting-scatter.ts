/** What is known of the scatter of setting the cross-hairs before the calibration residuals speak. */

import { logSum } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import type { Bench } from '../record/bench.ts';
import { SETTING_OF_THE_LINE } from './assumptions.ts';
import type { Observation } from './observation.ts';
import { roundingVariance } from './reading-variance.ts';

/** A grid of variances of one setting, unit², with normalised logarithms of weights. */
export interface ScatterPrior {
  readonly grid: readonly { readonly variance: number; readonly logWeight: number }[];
}

/** Half width of the log-normal prior, in ln: a factor of two either way. */
const WIDTH = 0.68;
const GRID_STEPS = [-2.1, -1.4, -0.7, 0, 0.7, 1.4, 2.1, 2.8];

/**
 * Usual scatter of one setting, in the ordinate's unit. A vernier: common practice, no source. Scales, drums and circles
 * that are read to a decimal of a degree without a vernier are set and estimated to about one least count (the benches
 * in tests/reference/benches: 0.3 to 3 least counts on twelve scales, 0.4 to 2 on seven such circles).
 */
export function usualScatter({ method, leastCount, decimalCircle }: Bench): number {
  if (method === 'scale') return leastCount;
  return 0.68 + (decimalCircle === true ? 0.75 : 0.11) * leastCount;
}

/**
 * Log-normal about the usual scatter, a factor of two either way; repeats of one setting sharpen it. Repeats that
 * differ by more than any setting scatters are left to the slips.
 */
export function scatterPrior(bench: Bench, observations: readonly Observation[]): ScatterPrior {
  const usual = usualScatter(bench);
  const resolution = roundingVariance(bench.leastCount);
  const logs = GRID_STEPS.map((step) => {
    const variance = (usual * Math.exp(step * WIDTH)) ** 2;
    const repeats = observations.map((observation) =>
      repeatsLogLikelihood(observation, variance, resolution),
    );
    return { variance, log: -0.5 * step * step + repeats.reduce((sum, log) => sum + log, 0) };
  });
  const total = logSum(logs.map((entry) => entry.log));
  return { grid: logs.map(({ variance, log }) => ({ variance, logWeight: log - total })) };
}

function repeatsLogLikelihood(observation: Observation, variance: number, resolution: number): number {
  const count = observation.repeats.length;
  if (count < 2) return 0;
  const sides = observation.parts.some((part) => part.side !== null) ? 2 : 1;
  const single = ((1 - SETTING_OF_THE_LINE) * variance + resolution) / sides;
  const mean = observation.repeats.reduce((sum, value) => sum + value, 0) / count;
  const log = observation.repeats.reduce(
    (sum, value) =>
      sum + ((count - 1) / count) * logNormalDensity(value - mean, (single * (count - 1)) / count),
    0,
  );
  return Math.max(log, -12 * count);
}
