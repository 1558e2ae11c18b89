/** The direction of the central image, from which deviations are counted. */
import { repeatToleranceArcmin } from '../angle/least-count.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import { mean, sumOf } from '../numeric/sum.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { stepOf } from './reading-step.ts';
import { type ErrorShares, readingVariance, repeatsResolution } from './reading-variance.ts';

/** Mean direction of the central image; its errors are common to every line that counts from it. */
export interface CentralImage extends ErrorShares {
  /** Mean direction, degrees, for each window. */
  readonly windowsDeg: readonly number[];
  /** Variance of the mean as its own repeats show it, arcmin² (GUM 4.2.3); 0 of a single reading. */
  readonly repeatsVariance: number;
  /** To what the coarsest of its readings was written down, arc-minutes: the least count if not rounded. */
  readonly step: number;
}

type OneSide = Extract<Setting, { kind: 'one-side' }>;

/** Whole minutes of arc in degrees are no exact numbers. */
const ROUNDING_ARCMIN = 1e-6;

/**
 * Central readings without those that lie apart from most of three or more: they are misread, and no part of a mean.
 * Readings belong together where each is within the usual tolerance of repeats of another.
 */
export function agreeingCentrals(bench: Bench, settings: readonly Setting[]): readonly Setting[] {
  const takes = settings.filter((setting) => setting.kind === 'one-side');
  if (takes.length < 3) return settings;
  const tolerance = repeatToleranceArcmin(stepOf(bench, takes)) + ROUNDING_ARCMIN;
  const areNear = (one: readonly number[], other: readonly number[]): boolean =>
    one.every(
      (reading, window) => Math.abs(60 * wrapDegrees(reading - (other[window] ?? reading))) <= tolerance,
    );
  const together = new Set<Setting>();
  const left = new Set<OneSide>(takes);
  for (const start of takes) {
    if (!left.delete(start)) continue;
    const group = [start];
    for (const member of group) {
      for (const other of left) {
        if (!areNear(member.windows, other.windows)) continue;
        left.delete(other);
        group.push(other);
      }
    }
    if (group.length > takes.length / 2) for (const member of group) together.add(member);
  }
  return together.size > 0 ? settings.filter((setting) => together.has(setting)) : settings;
}

/** The central image from its repeats (circular mean of directions that lie close together); null without any. */
export function centralImage(bench: Bench, settings: readonly Setting[]): CentralImage | null {
  const takes = agreeingCentrals(bench, settings).filter((setting) => setting.kind === 'one-side');
  const first = takes[0];
  if (!first) return null;
  const windowsDeg = first.windows.map(
    (origin, window) =>
      origin + mean(takes.map((take) => wrapDegrees((take.windows[window] ?? origin) - origin))),
  );
  const offs = takes.map((take) => 60 * wrapDegrees((take.windows[0] ?? 0) - (first.windows[0] ?? 0)));
  const spread = Math.max(...offs) - Math.min(...offs);
  const step = stepOf(bench, takes);
  return {
    windowsDeg,
    step,
    resolutionVariance: repeatsResolution(step, takes.length, spread) / windowsDeg.length,
    settingShare: 1 / takes.length,
    repeatsVariance: takes.length < 2 ? 0 : meanVariance(offs),
  };
}

/** Experimental variance of the mean of some values (GUM 4.2.3). */
function meanVariance(values: readonly number[]): number {
  const middle = mean(values);
  const squares = sumOf(values, (value) => (value - middle) ** 2);
  return squares / (values.length * (values.length - 1));
}

/** Variance of the direction, arcmin²: what is known of readings on this bench, or more where its repeats show more. */
export function centralVariance(image: CentralImage, settingVariance: number): number {
  return Math.max(readingVariance(image, settingVariance), image.repeatsVariance);
}

/** By how much two directions of the central image differ, arc-minutes: mean of the windows. */
export function apartArcmin(oldDeg: readonly number[], anewDeg: readonly number[]): number {
  return mean(anewDeg.map((direction, window) => 60 * wrapDegrees(direction - (oldDeg[window] ?? 0))));
}
