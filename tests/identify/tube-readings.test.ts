/** A tube's lines as readings: which ones, how uncertain, and what is common to them all. */
import { describe, expect, test } from 'vitest';
import { tubeReadings } from '../../src/identify/bench/tube-readings.ts';
import { benchConstants } from '../../src/observe/bench-constants.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import type { Bench } from '../../src/record/bench.ts';
import { benchOf, type PlainRecord } from '../calibrate/glass-bench.ts';
import { resolution, rounding } from '../observe/by-hand.ts';

const SETTING = 0.36;

function readingsOf(lines: readonly PlainRecord[], more: PlainRecord = {}) {
  const bench: Bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: ["100°00'"],
    known: { lamp: 'helium', lines: [{ wavelengthNm: 587.56, readings: ["150°00'"] }] },
    unknown: { lines, ...more },
  });
  const state = { origin: lampOrigin(bench), constants: benchConstants(bench), settingVariance: SETTING };
  return tubeReadings(bench, bench.tubes[0]!, state);
}

describe('the lines of a tube', () => {
  test('in use are readings, in the order of the record', () => {
    const { readings } = readingsOf([
      { readings: ["150°10'"] },
      { readings: ["151°10'"], use: false },
      { readings: ["149°10'"] },
    ]);
    expect(readings.map(({ line, ordinate }) => [line.index, ordinate])).toEqual([
      [0, expect.closeTo(3010, 9)],
      [2, expect.closeTo(2950, 9)],
    ]);
  });

  test('read once have half a count of rounding; the hand and the next tick are what is bell-shaped', () => {
    const [reading] = readingsOf([{ readings: ["150°10'"] }]).readings;
    expect(reading!.halfCount).toBe(0.5);
    expect(reading!.totalVariance).toBeCloseTo(resolution(1) + SETTING, 12);
    expect(reading!.variance).toBeCloseTo(SETTING, 12);
    expect(reading!.varianceTerms).toEqual([
      { source: 'resolution', variance: expect.closeTo(rounding(1), 12) },
      { source: 'next-tick', variance: expect.closeTo(0.02, 12) },
      { source: 'setting', variance: expect.closeTo(SETTING, 12) },
    ]);
    // What it may have been if it is misread: among them a whole degree.
    expect(reading!.alternatives.map(({ correction }) => Math.round(Math.abs(correction)))).toContain(60);
  });

  test('read more often are bell-shaped altogether', () => {
    const [reading] = readingsOf([{ readings: ["150°10'", "150°11'"] }]).readings;
    expect(reading).toMatchObject({ halfCount: 0, ordinate: expect.closeTo(3010.5, 9) });
    expect(reading!.variance).toBe(reading!.totalVariance);
    expect(reading!.totalVariance).toBeLessThan(resolution(1) + SETTING);
  });
});

describe('what all of them share', () => {
  test('is nothing where they count from the image of the lamp, on its side', () => {
    const { origin, offsetVariance } = readingsOf([{ readings: ["150°10'"] }]);
    expect(origin.isOwn).toBe(false);
    expect(offsetVariance).toBe(0);
  });

  test('is twice the error of that image on the other side', () => {
    expect(readingsOf([{ readings: ["50°00'"] }]).offsetVariance).toBeCloseTo(
      4 * (resolution(1) + SETTING),
      12,
    );
  });

  test('are both images where the tube has its own, and the readings count from that', () => {
    const { readings, origin, offsetVariance } = readingsOf([{ readings: ["150°10'"] }], {
      central: ["100°05'"],
    });
    expect(origin.isOwn).toBe(true);
    expect(readings[0]!.ordinate).toBeCloseTo(3005, 9);
    expect(offsetVariance).toBeCloseTo(2 * (resolution(1) + SETTING), 12);
  });
});

test('without a central image there is nothing to count from', () => {
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    known: { lamp: 'helium', lines: [{ wavelengthNm: 587.56, readings: ["150°00'"] }] },
    unknown: { lines: [{ readings: ["150°10'"] }] },
  });
  const state = { origin: lampOrigin(bench), constants: benchConstants(bench), settingVariance: SETTING };
  expect(tubeReadings(bench, bench.tubes[0]!, state)).toMatchObject({ readings: [], offsetVariance: 0 });
});
