/** Places looked at in vain, and the shift that all readings share, on a curve known by hand. */
import { describe, expect, test } from 'vitest';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { LOOKED_REACH, READ_WITHIN } from '../../src/identify/assumptions.ts';
import { commonShift } from '../../src/identify/bench/common-shift.ts';
import { isLookedAt, isRead, lookReach } from '../../src/identify/bench/looked-places.ts';
import type { UnknownReading } from '../../src/identify/bench/unknown-reading.ts';
import { straightCurve } from '../calibrate/straight-curve.ts';

const reading = (ordinate: number, totalVariance: number) => ({ ordinate, totalVariance }) as UnknownReading;

describe('a look', () => {
  const readings = [reading(3000, 0.25), reading(3100, 1)];

  test('reaches as far as the worst reading is uncertain, and a little in wavelength', () => {
    expect(lookReach(readings, straightCurve, 3050)).toBeCloseTo(
      LOOKED_REACH.uncertainties * 1 + LOOKED_REACH.nm * 2,
      12,
    );
  });

  test('at a reading is at that reading, by its own uncertainty', () => {
    for (const [off, is] of [
      [0.99 * READ_WITHIN, true],
      [1.01 * READ_WITHIN, false],
    ] as const) {
      expect(isRead(readings, 3000 + 0.5 * off)).toBe(is);
      expect(isRead(readings, 3100 - off)).toBe(is);
    }
  });

  test('that was told as a wavelength goes with the lines where all are shifted, one told as a reading does not', () => {
    const place = { ordinate: 3000, reach: 2 };
    for (const [goesWithLines, covered] of [
      [true, 3010],
      [false, 3000],
    ] as const) {
      const looked = [
        { ordinate: 2900, reach: 2, goesWithLines },
        { ...place, goesWithLines },
      ];
      expect(isLookedAt(looked, covered + 1.9, 10)).toBe(true);
      expect(isLookedAt(looked, covered - 2.1, 10)).toBe(false);
      expect(isLookedAt([], covered, 10)).toBe(false);
    }
  });
});

describe('the common shift', () => {
  type Args = Parameters<typeof commonShift>;
  const curve = { covariance: () => 0.09 } as unknown as CalibrationCurve;
  const shiftOf = (
    offs: readonly number[],
    { explanation = 'plain', shift = 0, variances = offs.map(() => 0.36), unmatched = [] as number[] } = {},
  ) => {
    const readings = offs.map((off, i) => reading(3000 + 100 * i + off, variances[i]!));
    const matched = offs.map((_, i) =>
      unmatched.includes(i) ? null : { ordinate: 3000 + 100 * i, wavelengthNm: 600 - 50 * i },
    );
    const view = { curve, offsetVariance: 0.16, explanation, shift };
    return commonShift(
      { readings } as unknown as Args[0],
      { likelihoods: { view } } as unknown as Args[1],
      matched as unknown as Args[2],
    );
  };

  test('is the mean of readings less lines, with the curve and the central image in its uncertainty', () => {
    const { value, u } = shiftOf([4, 5, 6])!;
    expect(value).toBeCloseTo(5, 12);
    expect(u).toBeCloseTo(Math.sqrt(0.36 / 3 + 0.09 + 0.16), 12);
    expect(shiftOf([4, 5, 6, 90], { unmatched: [3] })).toEqual({ value, u });
  });

  test('weighs each reading by its own variance', () => {
    const { value, u } = shiftOf([4, 7, 7], { variances: [0.1, 0.4, 0.4] })!;
    expect(value).toBeCloseTo((10 * 4 + 2.5 * 7 + 2.5 * 7) / 15, 12);
    expect(u).toBeCloseTo(Math.sqrt(1 / 15 + 0.25), 12);
  });

  test('comes on top of what the view of the bench has already', () => {
    expect(shiftOf([1, 1, 1], { explanation: 'moved', shift: 9 })!.value).toBeCloseTo(10, 12);
  });

  test('is none of two readings, nor where it is within three of its uncertainties', () => {
    const u = Math.sqrt(0.36 / 3 + 0.25);
    for (const sign of [1, -1]) {
      expect(shiftOf([1, 1, 1].map(() => sign * 3.01 * u))).not.toBeNull();
      expect(shiftOf([1, 1, 1].map(() => sign * 2.99 * u))).toBeNull();
    }
    expect(shiftOf([9, 9])).toBeNull();
    expect(shiftOf([9, 9, 9], { unmatched: [1] })).toBeNull();
  });

  test('of a central image misread is what the misreading makes it, however few lines are matched', () => {
    const misread = { explanation: 'central-misread', shift: 30 };
    expect(shiftOf([1, 1, 1], misread)).toEqual({ value: 30, u: Math.sqrt(0.36 / 3 + 0.25) });
    expect(shiftOf([1], { ...misread, unmatched: [0] })).toEqual({ value: 30, u: 0.4 });
  });
});
