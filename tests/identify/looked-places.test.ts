/** Places looked at in vain: how far a look reaches, and what it says nothing of. */
import { describe, expect, test } from 'vitest';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { LOOKED_REACH, READ_WITHIN } from '../../src/identify/assumptions.ts';
import { isLookedAt, isRead, lookedPlaces, lookReach } from '../../src/identify/bench/looked-places.ts';
import type { TubeReadings } from '../../src/identify/bench/tube-readings.ts';
import type { UnknownReading } from '../../src/identify/bench/unknown-reading.ts';
import type { Bench, UnknownTube } from '../../src/record/bench.ts';

/** Half a unit a nm, against the wavelength. */
const curve = {
  domainNm: [400, 700],
  ordinateAt: (nm: number) => 1000 - nm / 2,
  slopeAt: () => -0.5,
  wavelengthAt: (ordinate: number) => ({ wavelengthNm: 2 * (1000 - ordinate) }),
} as unknown as CalibrationCurve;
const readingsAt = (...ordinates: readonly number[]): UnknownReading[] =>
  ordinates.map((ordinate) => ({ ordinate, totalVariance: 0.25 }) as UnknownReading);

/** So far does a look reach where a reading's u is 0.5. */
const reach = LOOKED_REACH.uncertainties * 0.5 + LOOKED_REACH.nm * 0.5;

/** What looks at these wavelengths leave. */
function placesOf(wavelengthsNm: readonly number[], readings: readonly UnknownReading[]): number[] {
  const notSeen = wavelengthsNm.map((wavelengthNm) => ({ kind: 'wavelength', wavelengthNm }));
  return lookedPlaces(
    {} as Bench,
    { notSeen } as unknown as UnknownTube,
    { origin: { central: null }, readings } as unknown as TubeReadings,
    curve,
  ).map(({ ordinate }) => ordinate);
}

describe('a look', () => {
  test('reaches as far as a hand errs, by the worst reading of the tube, and a little spectrum', () => {
    expect(lookReach(readingsAt(700), curve, 700)).toBeCloseTo(reach, 12);
    const worse = [...readingsAt(700), { ordinate: 710, totalVariance: 4 } as UnknownReading];
    expect(lookReach(worse, curve, 700)).toBeCloseTo(reach + LOOKED_REACH.uncertainties * 1.5, 12);
  });

  test.each([
    [0.99, true],
    [1.01, false],
  ])('covers a line %s times its reach away: %s', (factor, isCovered) => {
    for (const side of [-1, 1]) {
      const line = 700 + side * factor * reach;
      expect(isLookedAt([{ ordinate: 700, reach, goesWithLines: false }], line, 0)).toBe(isCovered);
    }
  });

  test('at a wavelength goes with the lines where all are shifted, one at a reading stays', () => {
    expect(isLookedAt([{ ordinate: 700, reach: 1, goesWithLines: true }], 725, 25)).toBe(true);
    expect(isLookedAt([{ ordinate: 700, reach: 1, goesWithLines: true }], 700, 25)).toBe(false);
    expect(isLookedAt([{ ordinate: 700, reach: 1, goesWithLines: false }], 700, 25)).toBe(true);
  });

  test('within reach of another is that one, and of a reading says nothing', () => {
    expect(placesOf([600, 600 + 2 * 0.99 * reach], readingsAt(900))).toEqual([700]);
    expect(placesOf([600, 600 + 2 * 1.01 * reach], readingsAt(900))).toHaveLength(2);
    expect(placesOf([600], readingsAt(700 + 0.99 * reach))).toEqual([]);
    expect(placesOf([600], readingsAt(700 + 1.01 * reach))).toEqual([700]);
  });
});

test.each([
  [0.99, true],
  [1.01, false],
])('a line %s times so many u from a reading is read: %s', (factor, found) => {
  expect(isRead(readingsAt(700), 700 + factor * READ_WITHIN * 0.5)).toBe(found);
  expect(isRead(readingsAt(700), 700 - factor * READ_WITHIN * 0.5)).toBe(found);
  expect(isRead([], 700)).toBe(false);
});
