import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { logNormalDensity, normalCdf } from '../../src/numeric/normal.ts';
import { largestDifference, python, pythonMissing } from './python.ts';

describe('the standard normal distribution function', () => {
  /** Abramowitz & Stegun, Handbook of Mathematical Functions, tables 26.1 (P) and 26.2 (Q), from memory. */
  test.each([
    [0, 0.5],
    [0.5, 0.69146246127401],
    [1, 0.841344746068543],
    [2, 0.977249868051821],
    [3, 0.99865010196837],
    [-1, 0.158655253931457],
    [-4, 3.16712418331199e-5],
  ])('at %s is the tabulated %s', (z, published) => {
    expect(Math.abs(normalCdf(z) / published - 1)).toBeLessThan(1e-13);
  });

  test('is 0 and 1 far out, and never NaN', () => {
    expect([-40, -1e300, Number.NEGATIVE_INFINITY].map(normalCdf)).toEqual([0, 0, 0]);
    expect([9, 1e300, Number.POSITIVE_INFINITY].map(normalCdf)).toEqual([1, 1, 1]);
  });

  test('rises, and its two tails are alike', () => {
    const z = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(z, fc.double({ min: 1e-6, max: 2, noNaN: true }), (at, step) => {
        expect(normalCdf(at + step)).toBeGreaterThanOrEqual(normalCdf(at));
        expect(Math.abs(normalCdf(at) + normalCdf(-at) - 1)).toBeLessThan(1e-15);
      }),
    );
  });

  test.skipIf(pythonMissing)('agrees with scipy from -37 to 8 to 1e-12 relative', () => {
    // 0.46875 and 4 are where the approximation changes over.
    const edges = [0.46875, 4].flatMap((y) => [y - 1e-9, y, y + 1e-9].map((x) => -x * Math.SQRT2));
    const places = [...Array.from({ length: 901 }, (_, i) => -37 + i / 20), ...edges];
    const reference = python<number[]>(
      'from scipy.special import ndtr\nanswer = [float(ndtr(z)) for z in given]',
      places,
    );
    expect(largestDifference(places.map(normalCdf), reference)).toBeLessThan(1e-12);
  });
});

describe('the logarithm of the normal density', () => {
  test('of the standard normal at its mean is -ln √(2π)', () => {
    expect(logNormalDensity(0, 1)).toBeCloseTo(-0.918938533204673, 14);
  });

  test('sums to 1 over the line for any variance', () => {
    for (const variance of [0.01, 1, 40]) {
      const step = Math.sqrt(variance) / 50;
      let sum = 0;
      for (let i = -500; i <= 500; i += 1) sum += step * Math.exp(logNormalDensity(i * step, variance));
      expect(sum).toBeCloseTo(1, 12);
    }
  });
});
