/** The curve that all ask, of a basis that anybody can work out: straight, or bent with its vertex where it is put. */
import { describe, expect, test } from 'vitest';
import { ASKED_NM } from '../../src/calibrate/assumptions.ts';
import type { CurveBasis } from '../../src/calibrate/curve/basis.ts';
import { calibrationCurve } from '../../src/calibrate/curve/calibration-curve.ts';
import type { GaussianConstants } from '../../src/calibrate/curve/gaussian-curve.ts';
import { sumOf } from '../../src/numeric/sum.ts';

const dot = (one: readonly number[], other: readonly number[]): number =>
  sumOf(one, (value, k) => value * other[k]!);

/** c0 + c1·x + c2·x², x in hundreds of nm from 550 nm. */
const basis: CurveBasis = {
  name: 'parabola',
  abscissa: 'x',
  constants: ['c0', 'c1', 'c2'],
  size: 3,
  at: (nm) => [1, (nm - 550) / 100, ((nm - 550) / 100) ** 2],
  slopeAt: (nm) => [0, 0.01, (2 * (nm - 550)) / 1e4],
  curveAt: (constants, nm) => dot(constants, basis.at(nm)),
  curveSlopeAt: (constants, nm) => dot(constants, basis.slopeAt(nm)),
};
const RANGE = [450, 650] as const;
const curveOf = (mean: readonly number[], variance = 0.04) =>
  calibrationCurve(
    basis,
    {
      mean: [...mean],
      covariance: [variance, 0, 0, 0, variance, 0, 0, 0, 0],
    } as unknown as GaussianConstants,
    RANGE,
    'arcmin',
  );
/** Falling, with its vertex at this wavelength. */
const bent = (vertexNm: number) => {
  const x = (vertexNm - 550) / 100;
  return curveOf([3000, -20, 10 / x]);
};

describe('a straight curve', () => {
  const curve = curveOf([3000, -200, 0])!;

  test('goes as far as any line can be read', () => {
    const [shortest, longest] = curve.domainNm;
    expect(shortest).toBeLessThanOrEqual(ASKED_NM.shortest);
    expect(shortest).toBeGreaterThan(ASKED_NM.shortest - ASKED_NM.step);
    expect(longest).toBeGreaterThanOrEqual(ASKED_NM.longest);
    expect(longest).toBeLessThan(ASKED_NM.longest + ASKED_NM.step);
  });

  test('gives ordinates, slopes and wavelengths', () => {
    expect(curve.ordinateAt(600)).toBeCloseTo(2900, 9);
    expect(curve.slopeAt(600)).toBeCloseTo(-2, 12);
    expect(curve.wavelengthAt(2900, 0.2)).toEqual({
      wavelengthNm: expect.closeTo(600, 8),
      // 0.04 of the level, 0.01 of the slope at half a hundred nm, and the reading; 2' to a nm.
      standardUncertaintyNm: expect.closeTo(Math.sqrt(0.25) / 2, 9),
      extrapolated: false,
    });
    expect(curve.covariance(600, 500)).toBeCloseTo(0.04 - 0.25 * 0.04, 12);
  });

  test('is extrapolated beyond the known lines on either side', () => {
    const extrapolated = (nm: number) => curve.wavelengthAt(curve.ordinateAt(nm), 0)!.extrapolated;
    expect([449.9, 450.1, 649.9, 650.1].map(extrapolated)).toEqual([true, false, false, true]);
  });

  test('has no wavelength beyond its ends', () => {
    const [shortest, longest] = curve.domainNm;
    expect(curve.wavelengthAt(curve.ordinateAt(shortest) + 0.01, 0)).toBeNull();
    expect(curve.wavelengthAt(curve.ordinateAt(longest) - 0.01, 0)).toBeNull();
    expect(curve.wavelengthAt(curve.ordinateAt(shortest) - 0.01, 0)).not.toBeNull();
    expect(curve.wavelengthAt(curve.ordinateAt(longest) + 0.01, 0)).not.toBeNull();
  });

  test('that rises does the same', () => {
    const rising = curveOf([3000, 200, 0])!;
    expect(rising.wavelengthAt(3100, 0)!.wavelengthNm).toBeCloseTo(600, 8);
    expect(rising.wavelengthAt(rising.ordinateAt(rising.domainNm[1]) + 0.01, 0)).toBeNull();
    expect(rising.wavelengthAt(rising.ordinateAt(rising.domainNm[0]) - 0.01, 0)).toBeNull();
  });
});

describe('a bent curve', () => {
  test('ends short of where it turns', () => {
    const long = bent(701)!;
    expect(long.domainNm[1]).toBe(700);
    expect(long.domainNm[0]).toBeLessThanOrEqual(ASKED_NM.shortest);
    const short = bent(399)!;
    expect(short.domainNm[0]).toBe(400);
    expect(short.domainNm[1]).toBeGreaterThanOrEqual(ASKED_NM.longest);
    for (const nm of [401, 450, 560, 640, 699]) {
      expect(long.wavelengthAt(long.ordinateAt(nm), 0)!.wavelengthNm).toBeCloseTo(nm, 6);
      expect(short.wavelengthAt(short.ordinateAt(nm), 0)!.wavelengthNm).toBeCloseTo(nm, 6);
    }
  });

  test('that turns within the known lines, or is level, is none', () => {
    expect(bent(650.1)).not.toBeNull();
    expect(bent(649.5)).toBeNull();
    expect(bent(650)).toBeNull();
    expect(bent(449.9)).not.toBeNull();
    expect(bent(450.5)).toBeNull();
    expect(bent(560)).toBeNull();
    expect(curveOf([3000, 0, 0])).toBeNull();
  });

  test('has no negative variance of rounding', () => {
    expect(curveOf([3000, -200, 0], -1e-18)!.covariance(550, 550)).toBe(0);
    expect(curveOf([3000, -200, 0], 0.04)!.covariance(450, 650)).toBeCloseTo(0, 12);
    expect(curveOf([3000, -200, 0], 0.04)!.covariance(400, 700)).toBeLessThan(0);
  });
});
