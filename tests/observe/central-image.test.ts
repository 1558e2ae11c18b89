/** The mean of the central readings, which of them are part of it, and what its variance is: by hand. */
import { describe, expect, test } from 'vitest';
import { repeatToleranceArcmin } from '../../src/angle/least-count.ts';
import {
  agreeingCentrals,
  apartArcmin,
  centralImage,
  centralVariance,
} from '../../src/observe/central-image.ts';
import type { Bench, Setting } from '../../src/record/bench.ts';
import { resolution } from './by-hand.ts';

const bench = { leastCount: 1 } as Bench;
/** Central readings so many arc-minutes from 100°, one window each or two. */
const at = (...arcmin: (number | readonly [number, number])[]): Setting[] =>
  arcmin.map((each) => ({
    kind: 'one-side',
    windows: (typeof each === 'number' ? [each] : each).map((minutes, i) => 100 + 180 * i + minutes / 60),
  }));
const tolerance = repeatToleranceArcmin(1);
const leftOutOf = (of: Bench, settings: readonly Setting[]): number =>
  settings.length - agreeingCentrals(of, settings).length;

describe('central readings that agree', () => {
  test('are those within the tolerance of another of them, of three on', () => {
    const [near, far] = [tolerance, tolerance + 1];
    expect(leftOutOf(bench, at(0, 0, near))).toBe(0);
    expect(leftOutOf(bench, at(0, 0, far))).toBe(1);
    expect(agreeingCentrals(bench, at(0, far, 0))).toEqual(at(0, 0));
    // A chain holds together, however long.
    expect(leftOutOf(bench, at(0, near, 2 * near))).toBe(0);
    expect(leftOutOf(bench, at(2 * near, 0, near))).toBe(0);
    expect(leftOutOf(bench, at(0, far))).toBe(0);
  });

  test('are more than half, or nobody knows which are right', () => {
    expect(leftOutOf(bench, at(0, 0, 60, 60))).toBe(0);
    expect(leftOutOf(bench, at(0, 0, 0, 60, 60))).toBe(2);
    expect(leftOutOf(bench, at(0, 60, 120))).toBe(0);
  });

  test('agree in both windows', () => {
    expect(leftOutOf(bench, at([0, 0], [0, 0], [0, 60]))).toBe(1);
    expect(leftOutOf(bench, at([0, 0], [0, 0], [1, 1]))).toBe(0);
  });

  test('across 0° as anywhere', () => {
    const through: Setting[] = [0, 359.99, 0.01].map((deg) => ({ kind: 'one-side', windows: [deg] }));
    expect(leftOutOf(bench, through)).toBe(0);
    expect(centralImage(bench, through)!.windowsDeg[0]).toBeCloseTo(0, 9);
  });
});

describe('the central image', () => {
  test('is none without a reading', () => {
    expect(centralImage(bench, [])).toBeNull();
    expect(centralImage(bench, [{ kind: 'both-sides', left: [1], right: [2] }])).toBeNull();
  });

  test('is the mean of each window, of the readings that agree', () => {
    const { windowsDeg } = centralImage(bench, at([0, 1], [2, 2], [1, 3], [60, 60]))!;
    expect(windowsDeg).toEqual([expect.closeTo(100 + 1 / 60, 9), expect.closeTo(280 + 2 / 60, 9)]);
  });

  test('of one reading knows nothing of repeats', () => {
    expect(centralImage(bench, at(3))).toMatchObject({
      settingShare: 1,
      repeatsVariance: 0,
      resolutionVariance: expect.closeTo(resolution(1), 12),
    });
  });

  test('of three readings 2 apart has a variance of the mean of 4/3 (GUM 4.2.3), and a third of the settings', () => {
    const image = centralImage(bench, at(0, 2, 4))!;
    // Squares 4 + 0 + 4, by 3·2.
    expect(image.repeatsVariance).toBeCloseTo(8 / 6, 6);
    expect(image.settingShare).toBeCloseTo(1 / 3, 12);
    // They differ by more than a count, so rounding averages out.
    expect(image.resolutionVariance).toBeCloseTo(resolution(1) / 3, 12);
    expect(centralImage(bench, at(0, 1, 1))!.resolutionVariance).toBeCloseTo(resolution(1), 12);
    expect(centralImage(bench, at([0, 0], [1, 1]))!.resolutionVariance).toBeCloseTo(resolution(1) / 2, 12);
  });

  test('is as uncertain as readings are on this bench, or as its repeats show where they show more', () => {
    const image = centralImage(bench, at(0, 2, 4))!;
    expect(centralVariance(image, 0.3)).toBeCloseTo(8 / 6, 6);
    expect(centralVariance(image, 9)).toBeCloseTo(resolution(1) / 3 + 3, 9);
  });
});

test('two images are as far apart as their windows are in the mean, with the sign of the later one', () => {
  expect(apartArcmin([100, 280], [100 + 4 / 60, 280 + 2 / 60])).toBeCloseTo(3, 9);
  expect(apartArcmin([0.01], [359.99])).toBeCloseTo(-1.2, 9);
});
