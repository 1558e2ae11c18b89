/** What all lines of a bench share: the middle between the two sides, and the difference of two windows. */
import { describe, expect, test } from 'vitest';
import { benchConstants, midpointDeg, windowDifference } from '../../src/observe/bench-constants.ts';
import { benchOf, type PlainRecord } from '../calibrate/glass-bench.ts';

const sides = (left: string, right: string): PlainRecord => ({ readings: [{ left, right }] });
const both = (...lines: PlainRecord[]) =>
  benchOf({
    instrument: { method: 'both-sides', leastCount: "1'" },
    unknown: { lines },
  });

describe('the middle between the two sides', () => {
  test('is the median of the lines, across the zero of the circle too', () => {
    const lines = [sides("50°10'", "309°50'"), sides("49°06'", "310°58'"), sides("51°00'", "309°06'")];
    // Middles: 0°00', 0°02', 0°03'.
    const { midpointDeg: middle, midpointSpreadArcmin } = benchConstants(both(...lines));
    const wrapped = ((middle! + 180) % 360) - 180;
    expect(60 * wrapped).toBeCloseTo(2, 9);
    // Distances 2, 0, 1: their median 1' is 0.6745 standard deviations of a normal law.
    expect(midpointSpreadArcmin).toBeCloseTo(1 / 0.6745, 3);
  });

  test('of an even number of lines is the mean of the two in the middle', () => {
    const lines = [0, 2, 4, 20].map((up) => sides(`50°${String(10 + up).padStart(2, '0')}'`, "309°50'"));
    // Middles: 0', 1', 2', 10'.
    expect(60 * (((benchConstants(both(...lines)).midpointDeg! + 180) % 360) - 180)).toBeCloseTo(1.5, 9);
  });

  test('is not known from two lines', () => {
    const lines = [sides("50°10'", "309°50'"), sides("49°06'", "310°58'")];
    expect(benchConstants(both(...lines))).toMatchObject({ midpointDeg: null, midpointSpreadArcmin: 0 });
  });

  test('of one setting lies on the smaller arc', () => {
    expect(midpointDeg({ kind: 'both-sides', left: [100], right: [40] })).toBe(70);
    expect(midpointDeg({ kind: 'both-sides', left: [40], right: [100] })).toBe(70);
    expect(midpointDeg({ kind: 'both-sides', left: [10], right: [350] })).toBe(360);
  });
});

describe('the difference of two opposite windows', () => {
  const pairs = (...readings: [string, string][]) =>
    benchOf({
      instrument: { method: 'central', leastCount: "1'", windows: 2 },
      central: [readings[0]!],
      unknown: { lines: readings.slice(1).map((pair) => ({ readings: [pair] })) },
    });

  test('from 180° is that of most readings, the central image among them', () => {
    const bench = pairs(["181°04'", "1°06'"], ["230°10'", "50°12'"], ["231°00'", "51°32'"]);
    expect(benchConstants(bench).windowDifferenceArcmin).toBeCloseTo(2, 9);
  });

  test('is not known from two readings, nor with one window', () => {
    expect(
      benchConstants(pairs(["181°04'", "1°06'"], ["230°10'", "50°12'"])).windowDifferenceArcmin,
    ).toBeNull();
    expect(windowDifference([229.5])).toBeNull();
    expect(windowDifference([229.5, 49.25])).toBeCloseTo(-15, 9);
    expect(windowDifference([0.1, 179.9])).toBeCloseTo(-12, 9);
  });
});
