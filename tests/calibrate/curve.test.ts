/** The curve that the rest of the program asks. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { prismBasis } from '../../src/calibrate/curve/basis.ts';
import { calibrationCurve } from '../../src/calibrate/curve/calibration-curve.ts';
import { glasses } from '../../src/calibrate/curve/glasses.ts';
import { prismPrior } from '../../src/calibrate/curve/prism-prior.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { sumOf } from '../../src/numeric/sum.ts';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';
import { benchOf, GlassReader, heliumNm, knownLamp, linesAt, recordOf } from './glass-bench.ts';

const curveOf = (reader: GlassReader, wavelengthsNm: readonly number[] = heliumNm): CalibrationCurve =>
  calibrate(
    benchOf(
      recordOf(reader, { known: knownLamp(reader, { lamp: 'helium', lines: linesAt(wavelengthsNm) }) }),
    ),
  ).calibration.curve!;
const curves = glasses.map(({ name }) => curveOf(new GlassReader({ glass: name })));
const share = fc.double({ min: 0, max: 1, noNaN: true });
const curve = fc.constantFrom(...curves);
const wavelengthIn = ([shortest, longest]: readonly [number, number], part: number): number =>
  shortest + part * (longest - shortest);

describe('a prism curve', () => {
  test('is the sum of its functions, and its slope of theirs, however it is worked out', () => {
    const constants = fc.array(fc.double({ min: -500, max: 500, noNaN: true }), {
      minLength: 2,
      maxLength: 5,
    });
    fc.assert(
      fc.property(constants, fc.double({ min: 380, max: 800, noNaN: true }), (of, nm) => {
        const values = prismBasis.at(nm);
        const slopes = prismBasis.slopeAt(nm);
        expect(prismBasis.curveAt(of, nm)).toBeCloseTo(
          sumOf(of, (c, k) => c * values[k]!),
          9,
        );
        expect(prismBasis.curveSlopeAt(of, nm)).toBeCloseTo(
          sumOf(of, (c, k) => c * slopes[k]!),
          9,
        );
      }),
    );
  });

  test('asked for the wavelength of its own ordinate gives the wavelength back', () => {
    fc.assert(
      fc.property(curve, share, (of, part) => {
        const nm = wavelengthIn(of.domainNm, part);
        expect(Math.abs(of.wavelengthAt(of.ordinateAt(nm), 0)!.wavelengthNm - nm)).toBeLessThan(1e-6);
      }),
    );
  });

  test('falls from violet to red over all of its domain, and its slope is its derivative', () => {
    fc.assert(
      fc.property(curve, share, (of, part) => {
        const nm = wavelengthIn([of.domainNm[0] + 1, of.domainNm[1] - 1], part);
        const difference = (of.ordinateAt(nm + 0.01) - of.ordinateAt(nm - 0.01)) / 0.02;
        expect(of.slopeAt(nm)).toBeLessThan(0);
        expect(of.slopeAt(nm) / difference).toBeCloseTo(1, 5);
      }),
    );
  });

  test('says nothing of ordinates that it does not reach', () => {
    for (const of of curves) {
      const [shortest, longest] = of.domainNm;
      expect(of.wavelengthAt(of.ordinateAt(shortest) + 1, 1)).toBeNull();
      expect(of.wavelengthAt(of.ordinateAt(longest) - 1, 1)).toBeNull();
    }
  });

  test('marks as extrapolated exactly what lies outside the known lines', () => {
    const of = curveOf(new GlassReader(), [667.82, 587.56, 501.57, 471.31, 447.15]);
    const extrapolated = (nm: number) => of.wavelengthAt(of.ordinateAt(nm), 1)!.extrapolated;
    expect([446, 448, 600, 667, 669].map(extrapolated)).toEqual([true, false, false, false, true]);
    expect(of.rangeNm).toEqual([447.15, 667.82]);
  });

  test('has an uncertainty that grows outside the known lines and with the variance of the reading', () => {
    const of = curveOf(new GlassReader(), [587.56, 501.57, 492.19, 471.31]);
    const uArcmin = (nm: number) => Math.sqrt(of.covariance(nm, nm));
    expect(uArcmin(640)).toBeGreaterThan(uArcmin(580));
    expect(uArcmin(700)).toBeGreaterThan(uArcmin(640));
    expect(uArcmin(410)).toBeGreaterThan(uArcmin(480));
    const u = (variance: number) => of.wavelengthAt(of.ordinateAt(550), variance)!.standardUncertaintyNm;
    expect(u(0)).toBeGreaterThan(0);
    expect(u(4)).toBeGreaterThan(u(1));
  });

  test('has a covariance that is symmetric and bounded by the variances', () => {
    fc.assert(
      fc.property(curve, share, share, (of, a, b) => {
        const [first, second] = [wavelengthIn(of.rangeNm, a), wavelengthIn(of.rangeNm, b)];
        const joint = of.covariance(first, second);
        expect(Math.abs(joint - of.covariance(second, first))).toBeLessThan(1e-9);
        expect(joint ** 2).toBeLessThanOrEqual(
          of.covariance(first, first) * of.covariance(second, second) + 1e-9,
        );
      }),
    );
  });

  test('that turns back between the known lines is refused', () => {
    const covariance = new Array<number>(prismBasis.size ** 2).fill(0);
    const bent = { mean: [3000, 5, 200, 0, 0], covariance };
    const straight = { mean: [3000, 200, 5, 0, 0], covariance };
    expect(calibrationCurve(prismBasis, bent, [400, 700], 'arcmin')).toBeNull();
    expect(calibrationCurve(prismBasis, straight, [400, 700], 'arcmin')).not.toBeNull();
  });
});

describe('what is known of prisms before the first reading', () => {
  const places = [400, 450, 500, 550, 600, 650, 700];

  test.each(glasses.map(({ name }) => name))('%s lies within it, level and shape', (name) => {
    const { mean, covariance } = prismPrior('each-line', null);
    const reader = new GlassReader({ glass: name });
    const sd = (
      f: (nm: number) => readonly number[],
      at: readonly number[],
      weights: readonly number[],
    ): number => {
      const combined = new Float64Array(prismBasis.size);
      at.forEach((nm, i) => {
        f(nm).forEach((value, k) => {
          combined[k] = combined[k]! + weights[i]! * value;
        });
      });
      let sum = 0;
      for (let i = 0; i < combined.length; i += 1) {
        for (let j = 0; j < combined.length; j += 1) {
          sum += combined[i]! * covariance[i * combined.length + j]! * combined[j]!;
        }
      }
      return Math.sqrt(sum);
    };
    const expected = (nm: number) => prismBasis.at(nm).reduce((sum, value, k) => sum + value * mean[k]!, 0);
    for (const nm of places) {
      const off = reader.deviationArcmin(nm) - expected(nm);
      expect(Math.abs(off)).toBeLessThan(2.5 * sd(prismBasis.at, [nm], [1]));
    }
    const rise = reader.deviationArcmin(400) - reader.deviationArcmin(700);
    const riseOff = rise - (expected(400) - expected(700));
    expect(Math.abs(riseOff)).toBeLessThan(2.5 * sd(prismBasis.at, [400, 700], [1, -1]));
  });

  test('two lines of a flint prism already give the wavelengths between them within their uncertainty', () => {
    for (const { name } of glasses) {
      const reader = new GlassReader({ glass: name });
      const of = curveOf(reader, [667.82, 447.15]);
      for (const nm of [480, 520, 560, 600, 640]) {
        const { wavelengthNm, standardUncertaintyNm } = of.wavelengthAt(reader.deviationArcmin(nm), 0.1)!;
        expect(Math.abs(wavelengthNm - nm) / standardUncertaintyNm).toBeLessThan(2.5);
        expect(standardUncertaintyNm).toBeLessThan(25);
      }
    }
  });
});
