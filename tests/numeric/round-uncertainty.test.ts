import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decimalsForUncertainty, roundWithUncertainty } from '../../src/numeric/round-uncertainty.ts';

/**
 * Rule and the first two examples: Particle Data Group, Review of Particle Physics, Introduction, section 5.3
 * (of the three leading digits, 100 to 354 are given to two, 355 to 949 to one, 950 to 999 become 1000 to two), from memory.
 */
const table: readonly (readonly [value: number, u: number, text: string])[] = [
  [0.827, 0.119, '0.83 ± 0.12'],
  [0.827, 0.367, '0.8 ± 0.4'],
  [14.674, 0.964, '14.7 ± 1.0'],
  [5, 0.354, '5.00 ± 0.35'],
  [5, 0.355, '5.0 ± 0.4'],
  [5, 0.949, '5.0 ± 0.9'],
  [5, 0.95, '5.0 ± 1.0'],
  [5, 9.49, '5 ± 9'],
  [5, 9.5, '5 ± 10'],
  [5, 0.1, '5.00 ± 0.10'],
  [1234, 354, '1230 ± 350'],
  [1234, 355, '1200 ± 400'],
  [1234, 950, '1200 ± 1000'],
  [-0.827, 0.119, '-0.83 ± 0.12'],
  [-1234, 355, '-1200 ± 400'],
  [640.4213, 0.0019, '640.4213 ± 0.0019'],
];

describe('value and uncertainty with matching decimals', () => {
  test.each(table)('%s ± %s is written %s', (value, u, text) => {
    expect(roundWithUncertainty(value, u).text).toBe(text);
  });

  test('nothing is left of a value far below its uncertainty, not even a sign', () => {
    expect(roundWithUncertainty(-0.001, 1.2).value).toBe('0.0');
    expect(roundWithUncertainty(-3, 355).value).toBe('0');
  });

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('an uncertainty of %s is refused', (u) => {
    expect(() => decimalsForUncertainty(u)).toThrow(RangeError);
  });

  test.each([Number.NaN, Number.NEGATIVE_INFINITY])('a value of %s is refused', (value) => {
    expect(() => roundWithUncertainty(value, 1)).toThrow(RangeError);
  });

  test('rounding costs less than 15 % of the uncertainty, and moves the value by less than 15 % of it too', () => {
    const size = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
    const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(value, size, (v, u) => {
        const rounded = roundWithUncertainty(v, u);
        expect(Math.abs(Number(rounded.u) / u - 1)).toBeLessThan(0.15);
        expect(Math.abs(Number(rounded.value) - v)).toBeLessThan(u * 0.15);
      }),
    );
  });

  test('value and uncertainty end at the same decimal', () => {
    const decimals = (text: string): number => text.split('.')[1]?.length ?? 0;
    fc.assert(
      fc.property(
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        fc.double({ min: 1e-4, max: 50, noNaN: true }),
        (v, u) => {
          const rounded = roundWithUncertainty(v, u);
          expect(decimals(rounded.value)).toBe(decimals(rounded.u));
        },
      ),
    );
  });
});
