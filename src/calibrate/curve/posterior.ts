/** The constants of a curve given how each known line is understood, with the scatter of setting unknown. */
import { logSum, normalised } from '../../numeric/log-sum.ts';
import { logNormalDensity } from '../../numeric/normal.ts';
import { sumOf } from '../../numeric/sum.ts';
import type { ErrorShares } from '../../observe/reading-variance.ts';
import { readingVariance } from '../../observe/reading-variance.ts';
import type { ScatterPrior } from '../../observe/setting-scatter.ts';
import type { CurveBasis } from './basis.ts';
import { type GaussianConstants, learned, predicted } from './gaussian-curve.ts';
import type { CurvePrior } from './prism-prior.ts';

/** One reading to learn from. */
export interface CurvePoint extends ErrorShares {
  readonly wavelengthNm: number;
  /** nm² */
  readonly wavelengthVariance: number;
  readonly ordinate: number;
}

export interface CurvePosterior {
  readonly basis: CurveBasis;
  /** Mean and covariance over everything unknown, the scatter of setting included. */
  readonly constants: GaussianConstants;
  readonly logEvidence: number;
  /** Mean variance of one setting of the cross-hairs, unit². */
  readonly settingVariance: number;
}

/** Variance of a point apart from the curve's: resolution, setting, and the wavelength's own. */
export function pointVariance(point: CurvePoint, settingVariance: number, slope: number): number {
  return readingVariance(point, settingVariance) + point.wavelengthVariance * slope * slope;
}

/**
 * Bayesian linear regression on the grid of scatters (Gelman et al., Bayesian Data Analysis, 3rd ed., chapter 14;
 * the mixture over the grid gives the Student-like widening that few lines call for).
 */
export function curvePosterior(
  basis: CurveBasis,
  prior: CurvePrior,
  points: readonly CurvePoint[],
  scatter: ScatterPrior,
): CurvePosterior {
  const values = points.map((point) => basis.at(point.wavelengthNm));
  const slopes = points.map((point) => basis.slopeAt(point.wavelengthNm));
  const runs = scatter.grid.map(({ variance, logWeight }) => {
    let constants: GaussianConstants = prior;
    let log = logWeight;
    points.forEach((point, i) => {
      const f = values[i]!;
      const slope = point.wavelengthVariance > 0 ? predicted(constants, slopes[i]!).ordinate : 0;
      const own = pointVariance(point, variance, slope);
      const expected = predicted(constants, f);
      log += logNormalDensity(point.ordinate - expected.ordinate, expected.variance + own);
      constants = learned(constants, f, point.ordinate, own);
    });
    return { constants, log, variance };
  });
  return mixedPosterior(basis, runs);
}

/** The curve as learned at one point of a grid of scatters. */
export interface PosteriorRun {
  readonly constants: GaussianConstants;
  /** ln of the grid point's weight and of the evidence. */
  readonly log: number;
  /** Of one setting, unit². */
  readonly variance: number;
}

/** A grid of scatters summed over. */
export function mixedPosterior(basis: CurveBasis, runs: readonly PosteriorRun[]): CurvePosterior {
  const weights = normalised(runs.map((run) => run.log));
  return {
    basis,
    constants: mixedConstants(
      runs.map((run) => run.constants),
      weights,
    ),
    logEvidence: logSum(runs.map((run) => run.log)),
    settingVariance: sumOf(runs, (run, i) => weights[i]! * run.variance),
  };
}

/** Mean and covariance of a mixture (law of total covariance). */
export function mixedConstants(
  parts: readonly GaussianConstants[],
  weights: readonly number[],
): GaussianConstants {
  const n = parts[0]!.mean.length;
  const mean = parts[0]!.mean.map(() => 0);
  const covariance = parts[0]!.covariance.map(() => 0);
  parts.forEach((part, i) => {
    for (let k = 0; k < n; k += 1) mean[k] = mean[k]! + weights[i]! * part.mean[k]!;
  });
  parts.forEach((part, i) => {
    for (let row = 0; row < n; row += 1) {
      for (let column = 0; column < n; column += 1) {
        const offset = (part.mean[row]! - mean[row]!) * (part.mean[column]! - mean[column]!);
        covariance[row * n + column] =
          covariance[row * n + column]! + weights[i]! * (part.covariance[row * n + column]! + offset);
      }
    }
  });
  return { mean, covariance };
}
