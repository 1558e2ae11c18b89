/**
 * Two numbers that are the same for every line of a bench, and so betray a misread vernier at once:
 * the midpoint of the two sides, and the difference of two opposite windows.
 */
import { wrapDegrees } from '../angle/wrap.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { FEWEST_FOR_CONSTANTS } from './assumptions.ts';

export interface BenchConstants {
  /** Direction midway between left and right, degrees; null without both sides or with fewer than three lines. */
  readonly midpointDeg: number | null;
  /** How far a line's own midpoint is from it on this bench, arc-minutes: 1.48 times the median distance; 0 without it. */
  readonly midpointSpreadArcmin: number;
  /** Second window minus first minus 180°, arc-minutes; null with one window or fewer than three settings. */
  readonly windowDifferenceArcmin: number | null;
}

/** Standard deviation of a normal distribution over its median distance from the middle. */
const TO_DEVIATION = 1.4826;

/** From all settings of the bench, as medians, which a few misread ones do not move. */
export function benchConstants(bench: Bench): BenchConstants {
  const centrals = [...bench.central, ...bench.tubes.flatMap(({ central }) => central ?? [])];
  const settings = [...centrals, ...lineSettings(bench)];
  const midpoints = settings.flatMap((setting) =>
    setting.kind === 'both-sides' ? [midpointDeg(setting)] : [],
  );
  const differences = settings.flatMap((setting) =>
    sidesOf(setting).flatMap((side) => windowDifference(side) ?? []),
  );
  const middleDeg = circularMedian(midpoints);
  const distances = midpoints.map((each) => 60 * Math.abs(wrapDegrees(each - (middleDeg ?? each))));
  return {
    midpointDeg: middleDeg,
    midpointSpreadArcmin: middleDeg === null ? 0 : TO_DEVIATION * median(distances),
    windowDifferenceArcmin: differences.length >= FEWEST_FOR_CONSTANTS ? median(differences) : null,
  };
}

/** The settings of all lines of a bench, the known ones first. */
export function lineSettings({ known, tubes }: Bench): Setting[] {
  return [...known, ...tubes].flatMap(({ lines }) => lines.flatMap(({ settings }) => settings));
}

/** Direction midway along the smaller arc from right to left, by the first window, degrees. */
export function midpointDeg(setting: Extract<Setting, { kind: 'both-sides' }>): number {
  const right = setting.right[0]!;
  return right + wrapDegrees(setting.left[0]! - right) / 2;
}

/** Second window minus first minus 180°, arc-minutes; null with one window. */
export function windowDifference(windows: readonly number[]): number | null {
  const [first, second] = windows;
  return first === undefined || second === undefined ? null : 60 * wrapDegrees(second - first - 180);
}

/** The windows of each side, degrees: left and right, or the only one. */
export function sidesOf(setting: Setting): readonly (readonly number[])[] {
  return setting.kind === 'both-sides' ? [setting.left, setting.right] : [setting.windows];
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

function circularMedian(directions: readonly number[]): number | null {
  const origin = directions[0];
  if (origin === undefined || directions.length < FEWEST_FOR_CONSTANTS) return null;
  return origin + median(directions.map((direction) => wrapDegrees(direction - origin)));
}
