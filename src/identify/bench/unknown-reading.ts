/** A reading of the unknown tube, ready for comparison with lines. */
import { normalCdf } from '../../numeric/normal.ts';
import { NEXT_TICK_CHANCE } from '../../observe/assumptions.ts';
import type { Observation } from '../../observe/observation.ts';
import type { VarianceTerm } from '../../observe/reading-variance.ts';
import type { ReadingAlternative } from '../../observe/slip-hypotheses.ts';
import type { BenchLine } from '../../record/bench.ts';

export interface UnknownReading {
  readonly line: BenchLine;
  readonly observation: Observation;
  readonly ordinate: number;
  /** Half width of the rectangular part of the error; 0 where several readings are averaged. */
  readonly halfCount: number;
  /** Variance of the bell-shaped part. */
  readonly variance: number;
  /** All of the reading's own variance. */
  readonly totalVariance: number;
  /** The terms of which that is the sum. */
  readonly varianceTerms: readonly VarianceTerm[];
  /** What it may have been, if a raw reading behind it is a slip. */
  readonly alternatives: readonly ReadingAlternative[];
}

/** Chance of the next tick on one side. */
const NEXT_TICK = NEXT_TICK_CHANCE / 2;

/** Density of a reading that is `off` from where a line stands, for further variance of that line's place. */
export function readingDensity(reading: UnknownReading, off: number, furtherVariance: number): number {
  const sd = Math.sqrt(reading.variance + furtherVariance);
  const half = reading.halfCount;
  if (half === 0) return Math.exp((-0.5 * off * off) / (sd * sd)) / (sd * 2.5066282746310002);
  // Rectangles blurred by a normal error, one for its own tick and one for the tick on either side.
  const below = normalCdf((off - half) / sd);
  const above = normalCdf((off + half) / sd);
  const farBelow = normalCdf((off - 3 * half) / sd);
  const farAbove = normalCdf((off + 3 * half) / sd);
  const sides = below - farBelow + (farAbove - above);
  return ((1 - 2 * NEXT_TICK) * (above - below) + NEXT_TICK * sides) / (2 * half);
}

/** How far a reading can lie from its line before the density is nothing. */
export function readingReach(reading: UnknownReading, furtherVariance: number): number {
  return 3 * reading.halfCount + 5 * Math.sqrt(reading.variance + furtherVariance);
}
