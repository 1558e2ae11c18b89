/** The likeliest explanations once more, with the errors of a prism that is never quite at minimum deviation. */

import { type ScatterPrior, scatterBesideExcess } from '../../observe/setting-scatter.ts';
import type { Bench } from '../../record/bench.ts';
import type { KnownReading } from '../assign/known-reading.ts';
import { showsExcess } from '../assign/line-hypotheses.ts';
import type { Explained } from '../assign/weigh-assignment.ts';
import { priorBelongingTo } from './bench-prior.ts';
import { predicted, startingConstants } from './gaussian-curve.ts';
import { excessPerDegreeSquaredArcmin } from './minimum-deviation.ts';
import { type CurvePoint, type CurvePosterior, mixedPosterior, pointVariance } from './posterior.ts';
import { learnedSkewed } from './skewed-errors.ts';

/** Explanations computed so: the best, and those not further behind, in ln. */
const COMPUTED = { most: 6, farBehind: 8 } as const;
/** Usual setting of the prism off the minimum, degrees of incidence: while it is turned the line seems to stand still. */
const USUAL_MISSET_DEG = 0.6;
/** Excess against the usual, three points of a log-normal distribution (Gauss-Hermite), a factor of two either way. */
const EXCESS_GRID = [
  { times: Math.exp(-Math.sqrt(3) * 0.7), logWeight: Math.log(1 / 6) },
  { times: 1, logWeight: Math.log(2 / 3) },
  { times: Math.exp(Math.sqrt(3) * 0.7), logWeight: Math.log(1 / 6) },
] as const;
/**
 * A reading's uncertainty holds this much of the squared mean excess. The variance would hold twice; but much of it is
 * a long tail, and ±u and ±2u are to hold two thirds and 95 % of the readings (judged by the score).
 */
const IN_UNCERTAINTY = 1.2;
/** Only the curvature of the deviation depends on it, and that weakly. */
const ANY_APEX_DEG = 60;

/** On a bench where no excess shows they are left as they are. */
export function withLeaningErrors(
  bench: Bench,
  readings: readonly KnownReading[],
  found: readonly Explained[],
): readonly Explained[] {
  if (!showsExcess(bench) || found.length === 0) return found;
  const sorted = [...found].sort((a, b) => b.log - a.log).slice(0, COMPUTED.most);
  const scatter = scatterBesideExcess(
    bench,
    readings.map(({ observation }) => observation),
  );
  return sorted
    .filter(({ log }) => log > sorted[0]!.log - COMPUTED.farBehind)
    .map((entry) => {
      const posterior = leaningPosterior(bench, readings, entry, scatter);
      return { ...entry, posterior, log: entry.log + posterior.logEvidence - entry.posterior.logEvidence };
    });
}

/** Mean excess of a reading, arc-minutes; settings that are averaged share of it what they share of the scatter. */
function usualExcess({ ordinate, settingShare }: CurvePoint): number {
  const perSquareDegree = excessPerDegreeSquaredArcmin(ANY_APEX_DEG, ordinate / 60);
  return perSquareDegree * USUAL_MISSET_DEG ** 2 * Math.sqrt(settingShare);
}

/** `entry`: with its curve as symmetric errors make it. */
function leaningPosterior(
  bench: Bench,
  readings: readonly KnownReading[],
  { choices, points, posterior: { basis, constants } }: Explained,
  scatter: ScatterPrior,
): CurvePosterior {
  const start = startingConstants(priorBelongingTo(bench, readings, constants));
  // A line already taken for one off the minimum has its excess; set-aside lines are no points.
  const isOff = choices
    .filter((choice) => choice.wavelengthNm !== null)
    .map((choice) => choice.excess !== null);
  const lines = points
    .map((point, i) => ({
      point,
      values: basis.at(point.wavelengthNm),
      slope: predicted(constants, basis.slopeAt(point.wavelengthNm)).ordinate,
      usualExcess: isOff[i] ? 0 : usualExcess(point),
    }))
    // In the order of the spectrum: the result is not to depend on the order in which lines were written down.
    .sort((a, b) => a.point.ordinate - b.point.ordinate);
  const meanSquare = lines.reduce((sum, { usualExcess }) => sum + usualExcess ** 2, 0) / lines.length;
  const runs = scatter.grid.flatMap(({ variance, logWeight }) =>
    EXCESS_GRID.map(({ times, logWeight: logExcessWeight }) => {
      const { constants: run, log } = learnedSkewed(
        start,
        lines.map(({ point, values, slope, usualExcess }) => ({
          values,
          ordinate: point.ordinate,
          variance: pointVariance(point, variance, slope),
          meanExcess: times * usualExcess,
        })),
      );
      return {
        constants: run,
        log: log + logWeight + logExcessWeight,
        variance: variance + IN_UNCERTAINTY * times ** 2 * meanSquare,
      };
    }),
  );
  return mixedPosterior(basis, runs);
}
