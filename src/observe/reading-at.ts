/** Where on this bench's own circle or scale an ordinate of the calibration curve is read. */
import { formatAngle } from '../angle/format-angle.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import type { Bench } from '../record/bench.ts';
import { lineSettings } from './bench-constants.ts';
import { directionFrom, lampOrigin, type Origin } from './origin.ts';

/**
 * The reading at which an ordinate (arc-minutes of deviation, or scale units) stands, as a person would write it: to
 * the nearest step of vernier or scale, windows separated by " / ", both sides as "left ... right ...". `origin`: of
 * the lamp or the tube whose line it is. Null where no line or central image tells a direction.
 */
export function readingAt(bench: Bench, ordinate: number, origin: Origin = lampOrigin(bench)): string | null {
  if (bench.method === 'scale') return scaleText(ordinate, bench.leastCount);
  const deviationDeg = ordinate / 60;
  if (bench.method === 'both-sides') return bothSidesText(bench, deviationDeg);
  if (origin.central === null) return null;
  const direction = directionFrom(bench, origin);
  return windowsText(bench, origin.central.windowsDeg, direction * deviationDeg);
}

function scaleText(value: number, leastCount: number): string {
  const decimals = Math.max(0, Math.ceil(-Math.log10(leastCount) - 1e-9));
  return (Math.round(value / leastCount) * leastCount).toFixed(Math.min(decimals, 6));
}

function bothSidesText(bench: Bench, deviationDeg: number): string | null {
  const setting = lineSettings(bench).find((each) => each.kind === 'both-sides');
  if (setting?.kind !== 'both-sides') return null;
  const arcs = setting.left.map((left, window) => wrapDegrees(left - (setting.right[window] ?? left)));
  const middles = arcs.map((arc, window) => (setting.right[window] ?? 0) + arc / 2);
  const turn = (arcs[0] ?? 0) < 0 ? -1 : 1;
  return `left ${windowsText(bench, middles, turn * deviationDeg)} right ${windowsText(bench, middles, -turn * deviationDeg)}`;
}

function windowsText(bench: Bench, originsDeg: readonly number[], offsetDeg: number): string {
  const stepDeg = bench.leastCount / 60;
  const fineness = { leastCountArcmin: bench.leastCount, decimal: bench.decimalCircle ?? false };
  return originsDeg
    .map((origin) => formatAngle(Math.round((origin + offsetDeg) / stepDeg) * stepDeg, fineness))
    .join(' / ');
}
