/** A second window that says nothing: copied from one reading to the next, or the first one read once more. */
import type { Circle } from '../angle/circle.ts';
import { formatAngle, formatDeviation } from '../angle/format-angle.ts';
import { repeatToleranceArcmin } from '../angle/least-count.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import { sidesOf } from '../observe/bench-constants.ts';
import type { Setting } from '../record/bench.ts';
import { readCentral, readSetting } from '../record/read-setting.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';
import type { BenchForm } from './form.ts';
import type { InstrumentShape } from './instrument.ts';

/** What two opposite windows showed, degrees. */
export type WindowPair = readonly [number, number];

const WINDOWS_AGAIN =
  'Read both windows again; with one window only, the record says so on stage 1 before the first reading.';

/** The pairs of all readings written down; none on an instrument with one window. */
export function windowPairs(form: BenchForm, shape: InstrumentShape): readonly WindowPair[] {
  if (shape.windows !== 2) return [];
  const central = [...(form.central ?? []), ...form.unknown.flatMap((tube) => tube.central ?? [])];
  const lists = [
    ...form.known.flatMap(({ lines, check = [] }) => [...lines, ...check]),
    ...(form.check ?? []),
  ];
  const readings = [...lists, ...form.unknown.flatMap(({ lines }) => lines)].flatMap((line) => line.readings);
  return [
    ...central.map((reading) => readCentral(reading as SideValue, shape)),
    ...readings.map((reading) => readSetting(reading as ReadingValue, shape)),
  ].flatMap((read) => (read.ok ? pairsOf(read.setting) : []));
}

export function pairsOf(setting: Setting): readonly WindowPair[] {
  return sidesOf(setting).flatMap(([first, second]) =>
    first === undefined || second === undefined ? [] : [[first, second] as const],
  );
}

/** One sentence where all pairs before and those of the setting have a second window of no use; else null. */
export function secondWindowDoubt(
  setting: Setting,
  before: readonly WindowPair[],
  circle: Circle | null,
): string | null {
  const pairs = [...before, ...pairsOf(setting)];
  if (circle === null || pairs.length < 2) return null;
  const toleranceDeg = repeatToleranceArcmin(circle.leastCountArcmin) / 60;
  const [[firstBegan, secondBegan]] = pairs as [WindowPair];
  const moved = (at: 0 | 1, from: number): number =>
    Math.max(...pairs.map((pair) => Math.abs(wrapDegrees(pair[at] - from))));
  if (pairs.every(([first, second]) => Math.abs(wrapDegrees(second - first)) <= toleranceDeg))
    return `The second window shows the same as the first in all ${pairs.length} readings, and opposite windows are 180° apart: it is the first one read once more. ${WINDOWS_AGAIN}`;
  if (moved(1, secondBegan) * 60 < circle.leastCountArcmin && moved(0, firstBegan) > toleranceDeg)
    return `The second window has stayed at ${formatAngle(secondBegan, circle)} while the first moved by ${formatDeviation(moved(0, firstBegan), circle)}: it was not read. ${WINDOWS_AGAIN}`;
  return null;
}
