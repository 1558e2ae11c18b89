/**
 * THE variance of a reading: what an ordinate may be off by, as one list of terms. The variance that the computation
 * uses is the sum of the terms that the budget prints (JCGM 100:2008, 4.3.7, 5.1.2, F.2.2.1).
 */
import type { Bench } from '../record/bench.ts';
import { NEXT_TICK_CHANCE, SETTING_OF_THE_LINE } from './assumptions.ts';

/** How far each source of error gets into a mean of readings. */
export interface ErrorShares {
  /** Of vernier or scale, the next tick included, unit². */
  readonly resolutionVariance: number;
  /** The variance of one setting of the cross-hairs counts this many times. */
  readonly settingShare: number;
}

export type ErrorSource = 'resolution' | 'next-tick' | 'setting';

export interface VarianceTerm {
  readonly source: ErrorSource;
  /** In the ordinate's unit, squared. */
  readonly variance: number;
}

const ROUNDING = 1 / 12;

/** Variance of rounding to the nearest count, unit²: rectangular (GUM 4.3.7). */
export function roundingVariance(leastCount: number): number {
  return leastCount ** 2 * ROUNDING;
}

/** Variance of one reading of a vernier or scale, unit²: of rounding, and the next tick as a small wide part. */
export function resolutionVariance(leastCount: number): number {
  return leastCount ** 2 * (ROUNDING + NEXT_TICK_CHANCE);
}

/**
 * Resolution of the mean of repeats, unit². Repeats that agree within a count share one rounding error (GUM F.2.2.1);
 * scattered ones average it out. `spread`: largest minus smallest.
 */
export function repeatsResolution(leastCount: number, repeats: number, spread: number): number {
  const single = resolutionVariance(leastCount);
  return spread > leastCount * 1.001 ? single / repeats : single;
}

/**
 * How the errors get into the mean of some repeats of one line on this bench; `spread`: of the repeats' ordinates;
 * `step`: to which they were written down. Both sides and both windows are averaged in each repeat.
 */
export function errorShares(bench: Bench, repeats = 1, spread = 0, step = bench.leastCount): ErrorShares {
  const sides = bench.method === 'both-sides' ? 2 : 1;
  return {
    resolutionVariance: repeatsResolution(step, repeats, spread) / (sides * bench.windows),
    settingShare: SETTING_OF_THE_LINE + (1 - SETTING_OF_THE_LINE) / (sides * repeats),
  };
}

/** The terms of a reading's variance. `settingVariance`: of one setting of the cross-hairs, unit². */
export function varianceTerms(
  { resolutionVariance, settingShare }: ErrorShares,
  settingVariance: number,
): VarianceTerm[] {
  const ofResolution = (part: number): number => (resolutionVariance * part) / (ROUNDING + NEXT_TICK_CHANCE);
  return [
    { source: 'resolution', variance: ofResolution(ROUNDING) },
    { source: 'next-tick', variance: ofResolution(NEXT_TICK_CHANCE) },
    { source: 'setting', variance: settingShare * settingVariance },
  ];
}

/** The sum of those terms, unit²; asked for very often. */
export function readingVariance(shares: ErrorShares, settingVariance: number): number {
  return shares.resolutionVariance + shares.settingShare * settingVariance;
}
