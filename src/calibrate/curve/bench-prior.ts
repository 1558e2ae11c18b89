/** What is expected of a bench's curve before its known lines are looked at one by one. */
import type { ScatterPrior } from '../../observe/setting-scatter.ts';
import type { Bench } from '../../record/bench.ts';
import type { KnownReading } from '../assign/known-reading.ts';
import { KNOWN_DISPERSION, SCALE_SPAN, STRAY_RANGE } from '../assumptions.ts';
import { prismBasis } from './basis.ts';
import type { GaussianConstants } from './gaussian-curve.ts';
import {
  type CurvePoint,
  type CurvePosterior,
  curvePosterior,
  mixedConstants,
  mixedPosterior,
} from './posterior.ts';
import { type CurvePrior, prismPrior, scalePriors } from './prism-prior.ts';

function span(readings: readonly KnownReading[]): { low: number; high: number } {
  const ordinates = readings.map(({ observation }) => observation.ordinate);
  return { low: Math.min(...ordinates), high: Math.max(...ordinates) };
}

/** Priors of the curve's constants, with their chances; `dispersion`: a first estimate of c1, or null before there is one. */
function benchPriors(
  bench: Bench,
  readings: readonly KnownReading[],
  dispersion: number | null,
): { readonly chance: number; readonly prior: CurvePrior }[] {
  if (bench.method !== 'scale') return [{ chance: 1, prior: prismPrior(bench.prism, dispersion) }];
  const { low, high } = span(readings);
  return scalePriors((low + high) / 2, high - low + SCALE_SPAN.counts * bench.leastCount, dispersion);
}

/** One prior that holds all kinds of curves there are: their mean and covariance. */
export function benchPrior(
  bench: Bench,
  readings: readonly KnownReading[],
  dispersion: number | null,
): CurvePrior {
  const priors = benchPriors(bench, readings, dispersion);
  return mixedConstants(
    priors.map(({ prior }) => prior),
    priors.map(({ chance }) => chance),
  );
}

/** A reading that has nothing to do with its line may lie anywhere over this range of ordinates. */
export function strayRange(bench: Bench, readings: readonly KnownReading[]): number {
  if (bench.method !== 'scale') return STRAY_RANGE.circleArcmin;
  const { low, high } = span(readings);
  return STRAY_RANGE.scaleSpans * (high - low) + STRAY_RANGE.scaleCounts * bench.leastCount;
}

/** c1 of a curve found, if it is known by then. */
function dispersionOf({ mean, covariance }: GaussianConstants): number | null {
  const dispersion = mean[1]!;
  const u = Math.sqrt(covariance[prismBasis.size + 1]!);
  return u > KNOWN_DISPERSION * Math.abs(dispersion) ? null : dispersion;
}

/** First with a wide prior, then with the one that belongs to the curve found; kinds of curves are summed over. */
export function benchPosterior(
  bench: Bench,
  readings: readonly KnownReading[],
  points: readonly CurvePoint[],
  scatter: ScatterPrior,
): CurvePosterior {
  const first = curvePosterior(prismBasis, benchPrior(bench, readings, null), points, scatter);
  const runs = benchPriors(bench, readings, dispersionOf(first.constants)).map(({ chance, prior }) => {
    const posterior = curvePosterior(prismBasis, prior, points, scatter);
    return {
      log: Math.log(chance) + posterior.logEvidence,
      variance: posterior.settingVariance,
      ...posterior,
    };
  });
  return runs.length === 1 ? runs[0]! : mixedPosterior(prismBasis, runs);
}
