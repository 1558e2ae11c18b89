/** What is expected of a bench's curve before its known lines are looked at one by one. */

import type { ScatterPrior } from '../../observe/setting-scatter.ts';
import type { Bench } from '../../record/bench.ts';
import type { KnownReading } from '../assign/known-reading.ts';
import { prismBasis } from './basis.ts';
import type { GaussianConstants } from './gaussian-curve.ts';
import { type CurvePoint, type CurvePosterior, curvePosterior } from './posterior.ts';
import { type CurvePrior, prismPrior, scalePrior } from './prism-prior.ts';

/** The curve's dispersion is known well enough for its own prior from this relative uncertainty on. */
const KNOWN_DISPERSION = 0.3;

function span(readings: readonly KnownReading[]): { low: number; high: number } {
  const ordinates = readings.map(({ observation }) => observation.ordinate);
  return { low: Math.min(...ordinates), high: Math.max(...ordinates) };
}

/** Prior of the curve's constants; `dispersion`: a first estimate of c1, or null before there is one. */
export function benchPrior(
  bench: Bench,
  readings: readonly KnownReading[],
  dispersion: number | null,
): CurvePrior {
  if (bench.method !== 'scale') return prismPrior(bench.prism, dispersion);
  const { low, high } = span(readings);
  return scalePrior((low + high) / 2, high - low + 10 * bench.leastCount, dispersion);
}

/** A reading that has nothing to do with its line may lie anywhere over this range of ordinates. */
export function strayRange(bench: Bench, readings: readonly KnownReading[]): number {
  if (bench.method !== 'scale') return 600;
  const { low, high } = span(readings);
  return 1.5 * (high - low) + 20 * bench.leastCount;
}

/** The prior that belongs to a curve found: to its dispersion, if that is known by then. */
export function priorBelongingTo(
  bench: Bench,
  readings: readonly KnownReading[],
  { mean, covariance }: GaussianConstants,
): CurvePrior {
  const dispersion = mean[1]!;
  const u = Math.sqrt(covariance[prismBasis.size + 1]!);
  return benchPrior(bench, readings, u > KNOWN_DISPERSION * Math.abs(dispersion) ? null : dispersion);
}

/** First with a wide prior, then with the one that belongs to the curve found. */
export function benchPosterior(
  bench: Bench,
  readings: readonly KnownReading[],
  points: readonly CurvePoint[],
  scatter: ScatterPrior,
): CurvePosterior {
  const first = curvePosterior(prismBasis, benchPrior(bench, readings, null), points, scatter);
  const prior = priorBelongingTo(bench, readings, first.constants);
  return curvePosterior(prismBasis, prior, points, scatter);
}
