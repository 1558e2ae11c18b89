/** The bench's own scale as the horizontal axis of a figure: circle readings, deviations or scale units. */
import { formatAngle, formatDeviation } from '../../../angle/format-angle.ts';
import { directionFrom, lampOrigin, tubeOrigin } from '../../../observe/origin.ts';
import type { Bench } from '../../../record/bench.ts';

export interface BenchScale {
  readonly title: string;
  /** Place on the scale of an ordinate (arc-minutes of deviation, or scale units). */
  placeOf(ordinate: number): number;
  /** What the scale shows at a place. */
  textAt(place: number): string;
  /** Round places between two places, about `count` of them. */
  ticks(from: number, to: number, count: number): number[];
}

const circleStepsDeg = [1, 2, 5, 10, 15, 20, 30, 60, 120, 300, 600].map((arcmin) => arcmin / 60);
const decimalSteps = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];

/**
 * The scale on which the tube was read: of the circle where its central image is known, else of deviations.
 */
export function benchScale(bench: Bench, tubeIndex: number): BenchScale {
  if (bench.method === 'scale') {
    return {
      title: 'scale reading',
      placeOf: (ordinate) => ordinate,
      textAt: (place) => String(Number(place.toFixed(6))),
      ticks: (from, to, count) => roundPlaces(from, to, count, decimalSteps),
    };
  }
  const ticks = (from: number, to: number, count: number) => roundPlaces(from, to, count, circleStepsDeg);
  const tube = bench.tubes[tubeIndex];
  const origin = tube === undefined ? lampOrigin(bench) : tubeOrigin(bench, tube);
  const zero = origin.central?.windowsDeg[0];
  if (zero === undefined) {
    return {
      title: 'deviation',
      placeOf: (ordinate) => ordinate / 60,
      // A tick on a whole minute needs no seconds, for which there is no room.
      textAt: (place) => formatDeviation(place, isWholeMinute(place) ? 1 : bench.leastCount),
      ticks,
    };
  }
  const side = directionFrom(bench, origin);
  return {
    title: 'reading of the circle',
    placeOf: (ordinate) => zero + (side * ordinate) / 60,
    textAt: (place) => formatAngle(place, isWholeMinute(place) ? 1 : bench.leastCount),
    ticks,
  };
}

const isWholeMinute = (deg: number): boolean => Math.abs(60 * deg - Math.round(60 * deg)) < 1e-6;

/** Multiples of the smallest of the steps that gives at most `count` of them. */
export function roundPlaces(from: number, to: number, count: number, steps = circleStepsDeg): number[] {
  const step = steps.find((candidate) => (to - from) / candidate <= count) ?? (to - from) / count;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => (first + at) * step);
}
