/** Where on this bench's own circle or scale an ordinate of the calibration curve is read. */
import { formatAngle } from '../angle/format-angle.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { centralImage } from './observation.ts';

/**
 * The reading as a person would write it, to the nearest step of vernier or scale, windows separated by " / ", both sides as "left ... right ...";
 * null where the bench has no line or central image from which directions could be told.
 */
export function readingAt(bench: Bench, ordinate: number): string | null {
  if (bench.method === 'scale') return scaleText(ordinate, bench.leastCount);
  const deviationDeg = ordinate / 60;
  return bench.method === 'central' ? oneSideText(bench, deviationDeg) : bothSidesText(bench, deviationDeg);
}

function scaleText(value: number, leastCount: number): string {
  const decimals = Math.max(0, Math.ceil(-Math.log10(leastCount) - 1e-9));
  return (Math.round(value / leastCount) * leastCount).toFixed(Math.min(decimals, 6));
}

function oneSideText(bench: Bench, deviationDeg: number): string | null {
  const central = centralImage(bench, bench.central);
  if (central === null) return null;
  const side = usualSide(bench, central.windowsDeg[0] ?? 0);
  return windowsText(bench, central.windowsDeg, side * deviationDeg);
}

/** The side on which most lines of the bench were read; towards larger readings while there are none. */
function usualSide(bench: Bench, centralDeg: number): 1 | -1 {
  const sides = allSettings(bench).flatMap((setting) =>
    setting.kind === 'one-side'
      ? [Math.sign(wrapDegrees((setting.windows[0] ?? centralDeg) - centralDeg))]
      : [],
  );
  return sides.reduce((sum, side) => sum + side, 0) < 0 ? -1 : 1;
}

function bothSidesText(bench: Bench, deviationDeg: number): string | null {
  const setting = allSettings(bench).find((each) => each.kind === 'both-sides');
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

function allSettings(bench: Bench): Setting[] {
  return [...bench.known, ...bench.tubes].flatMap(({ lines }) => lines.flatMap(({ settings }) => settings));
}
