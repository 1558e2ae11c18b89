/**
 * What is known of a prism before the first reading: the curves of the catalogue glasses, of blends of two of
 * them, and of apex angles about 60°, summed up as a normal distribution of the constants of `prismBasis`.
 */
import {
  DISPERSION_SD,
  FIXED_RATIO_WIDTHS,
  MIDDLE_DISPERSION,
  PRISM_LEVEL,
  RATIO_WIDTHS,
  SCALE_KINDS,
  SCALE_SPAN,
  WIDER_AT_FIRST,
} from '../assumptions.ts';
import { PRISM_CONSTANTS } from './basis.ts';
import { catalogueTrend } from './catalogue-trend.computed.ts';
import type { GaussianConstants } from './gaussian-curve.ts';

/** A normal distribution of curve constants, those of `prismBasis`, before anything is read. */
export type CurvePrior = GaussianConstants;

function ratioAt(trend: readonly number[], c1: number): number {
  return trend[0]! + trend[1]! * c1 + trend[2]! * c1 * c1;
}

/** `widths[k]`: relative width of c_{k+2} about `ratios[k]`·c1. */
function priorFrom(
  level: { mean: number; sd: number },
  dispersion: { atMeanLevel: number; perLevel: number; sd: number },
  ratios: readonly number[],
  widths: readonly number[],
  c1: number,
): CurvePrior {
  const n = PRISM_CONSTANTS;
  // Each row: the constant as a linear function of n independent standard normal numbers.
  const root = new Float64Array(n * n);
  root[0] = level.sd;
  root[n] = dispersion.perLevel * level.sd;
  root[n + 1] = dispersion.sd;
  const mean = [level.mean, dispersion.atMeanLevel, 0, 0, 0];
  for (let k = 2; k < n; k += 1) {
    const ratio = ratios[k - 2]!;
    for (let column = 0; column < 2; column += 1) root[k * n + column] = ratio * root[n + column]!;
    root[k * n + k] = Math.abs(c1) * widths[k - 2]!;
    mean[k] = ratio * mean[1]!;
  }
  const covariance: number[] = [];
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      let sum = 0;
      for (let k = 0; k < n; k += 1) sum += root[i * n + k]! * root[j * n + k]!;
      covariance.push(sum);
    }
  }
  return { mean, covariance };
}

/**
 * Prior of a prism's deviation curve, arc-minutes. `dispersionArcmin` is a first estimate of c1, where the
 * trends of the higher constants are read off; null before there is one: then they are left wider.
 */
export function prismPrior(prism: 'each-line' | 'fixed', dispersionArcmin: number | null): CurvePrior {
  const { levelTrend, ratioTrends, c1Range } = catalogueTrend;
  const c1 = Math.min(c1Range[1], Math.max(c1Range[0], dispersionArcmin ?? MIDDLE_DISPERSION));
  const widths = prism === 'fixed' ? FIXED_RATIO_WIDTHS : RATIO_WIDTHS;
  const dispersion = {
    atMeanLevel: levelTrend[0]! + levelTrend[1]! * PRISM_LEVEL.mean,
    perLevel: levelTrend[1]!,
    sd: DISPERSION_SD[prism],
  };
  return priorFrom(
    PRISM_LEVEL,
    dispersion,
    ratioTrends.map((trend) => ratioAt(trend, c1)),
    dispersionArcmin === null ? widths.map((width) => WIDER_AT_FIRST * width) : widths,
    c1,
  );
}

/**
 * Priors of an arbitrary scale, one for each kind, with their chances: level and rise unknown (the readings give the
 * order of magnitude, `spread` their range), shape that of the kind.
 */
export function scalePriors(
  middle: number,
  spread: number,
  rise: number | null,
): { readonly chance: number; readonly prior: CurvePrior }[] {
  const { ratioTrends } = catalogueTrend;
  const size = Math.max(spread, 1e-9);
  return SCALE_KINDS.map(({ chance, ratios, widths }) => ({
    chance,
    prior: priorFrom(
      { mean: middle, sd: SCALE_SPAN.level * size },
      { atMeanLevel: 0, perLevel: 0, sd: SCALE_SPAN.rise * size },
      ratios ?? ratioTrends.map((trend) => ratioAt(trend, MIDDLE_DISPERSION)),
      widths,
      rise ?? size,
    ),
  }));
}
