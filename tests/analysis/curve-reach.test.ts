/** How good a calibration is over its known lines, on curves known by hand. */
import { expect, test } from 'vitest';
import { curveReach } from '../../src/analysis/curve-reach.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { straightCurve } from '../calibrate/straight-curve.ts';

/** A curve of this range whose standard uncertainty is told at each wavelength; null: it gives none there. */
function reachOf(rangeNm: readonly [number, number], uNm: (nm: number) => number | null) {
  const asked: number[] = [];
  const curve: CalibrationCurve = {
    ...straightCurve,
    rangeNm,
    wavelengthAt: (ordinate, variance) => {
      const wavelengthNm = (4000 - ordinate) / 2;
      asked.push(wavelengthNm);
      const u = uNm(wavelengthNm);
      // That of the reading is no part of it.
      return u === null ? null : { wavelengthNm, standardUncertaintyNm: u + variance, extrapolated: false };
    },
  };
  return { reach: curveReach(curve), asked };
}

test('is the worst of places no more than 5 nm apart, both ends among them', () => {
  const { reach, asked } = reachOf([450, 652], (nm) => 0.1 + Math.abs(nm - 500) / 1000);
  expect(reach).toEqual({ fromNm: 450, toNm: 652, worstNm: expect.closeTo(0.252, 12) });
  expect(asked[0]).toBe(450);
  expect(asked.at(-1)).toBe(652);
  expect(asked).toHaveLength(42);
  expect(reachOf([450, 652], (nm) => 0.1 + Math.abs(nm - 600) / 1000).reach!.worstNm).toBeCloseTo(0.25, 12);
});

test('lines 10 nm apart have three places, two of one wavelength have it', () => {
  expect(reachOf([500, 510], () => 0.3).asked).toEqual([500, 505, 510]);
  expect(reachOf([500, 500], () => 0.3).reach).toEqual({ fromNm: 500, toNm: 500, worstNm: 0.3 });
});

test('there is none where the curve gives no wavelength somewhere', () => {
  expect(reachOf([450, 650], (nm) => (nm > 640 ? null : 0.1)).reach).toBeNull();
});
