/** The places where somebody looked in vain: as a reading or as a wavelength, and those that say nothing. */
import { describe, expect, test } from 'vitest';
import { lookedPlaces, lookReach } from '../../src/identify/bench/looked-places.ts';
import type { TubeReadings } from '../../src/identify/bench/tube-readings.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import { benchOf, type PlainRecord } from '../calibrate/glass-bench.ts';
import { handCurve, handReading } from './hand-made.ts';

const readings = [handReading(0, 2920)];
/** 1.5 nm of 2' each, and three times 0.5'. */
const REACH = 4.5;

function placesOf(notSeen: readonly PlainRecord[]) {
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: ["100°00'"],
    known: { lamp: 'helium', lines: [{ wavelengthNm: 587.56, readings: ["150°00'"] }] },
    unknown: { lines: [{ readings: ["148°40'"] }], notSeen },
  });
  const tube: Pick<TubeReadings, 'origin' | 'readings'> = { origin: lampOrigin(bench), readings };
  return lookedPlaces(bench, bench.tubes[0]!, { ...tube, offsetVariance: 0 }, handCurve);
}

describe('a place', () => {
  test('told as a reading is where it was read, one told as a wavelength goes with the lines', () => {
    expect(lookReach(readings, handCurve, 2800)).toBe(REACH);
    // 46°40' from the central image is 2800'; 650 nm is at 2700'.
    expect(placesOf([{ reading: "146°40'" }, { wavelengthNm: 650 }])).toEqual([
      { ordinate: expect.closeTo(2800, 9), reach: REACH, goesWithLines: false },
      { ordinate: 2700, reach: REACH, goesWithLines: true },
    ]);
  });

  test('within reach of another is that one', () => {
    const ordinates = (reading: string) =>
      placesOf([{ reading: "146°40'" }, { reading }]).map(({ ordinate }) => Math.round(ordinate));
    expect(ordinates("146°44'")).toEqual([2800]);
    expect(ordinates("146°36'")).toEqual([2800]);
    expect(ordinates("146°45'")).toEqual([2800, 2805]);
  });

  test('within reach of a line that was read says nothing', () => {
    expect(placesOf([{ reading: "148°44'" }])).toEqual([]);
    expect(placesOf([{ reading: "148°45'" }])).toHaveLength(1);
    // 540 nm is the line that was read; 538 nm is 4' from it, 537 nm 6'.
    expect(placesOf([{ wavelengthNm: 538 }])).toEqual([]);
    expect(placesOf([{ wavelengthNm: 537 }])).toHaveLength(1);
  });

  test('at which the curve has no place is none', () => {
    const bench = benchOf({
      instrument: { method: 'central', leastCount: "1'" },
      known: { lamp: 'helium', lines: [{ wavelengthNm: 587.56, readings: ["150°00'"] }] },
      unknown: {
        lines: [{ readings: ["148°40'"] }],
        notSeen: [{ reading: "146°40'" }, { wavelengthNm: 650 }],
      },
    });
    const tube = { origin: lampOrigin(bench), readings, offsetVariance: 0 };
    // Without a central image a reading is no ordinate.
    expect(lookedPlaces(bench, bench.tubes[0]!, tube, handCurve)).toHaveLength(1);
    const nowhere = { ...handCurve, ordinateAt: () => Number.NaN };
    expect(lookedPlaces(bench, bench.tubes[0]!, tube, nowhere)).toEqual([]);
  });
});
