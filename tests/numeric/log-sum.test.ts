import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { logAdd, logDifference, logSum, normalised } from '../../src/numeric/log-sum.ts';

const impossible = Number.NEGATIVE_INFINITY;

describe('sums of probabilities by their logarithms', () => {
  test('nothing, and only impossible things, sum to zero', () => {
    expect(logSum([])).toBe(impossible);
    expect(logSum([impossible, impossible])).toBe(impossible);
    expect(logAdd(impossible, impossible)).toBe(impossible);
  });

  test('what is impossible adds nothing', () => {
    expect(logAdd(impossible, -3)).toBe(-3);
    expect(logAdd(-3, impossible)).toBe(-3);
    expect(logSum([impossible, -3])).toBe(-3);
  });

  test.each([-1e5, 0, 1e5])('neither overflows nor vanishes around %s', (level) => {
    expect(logAdd(level, level)).toBeCloseTo(level + Math.LN2, 10);
    expect(logSum([level, level, level, level])).toBeCloseTo(level + Math.log(4), 10);
    expect(logAdd(level, level - 800)).toBe(level);
  });

  test('agree with the plain sum where that can be formed', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 1 }), (logs) => {
        const plain = Math.log(logs.reduce((sum, log) => sum + Math.exp(log), 0));
        expect(Math.abs(logSum(logs) - plain)).toBeLessThan(1e-12);
        expect(Math.abs(logs.reduce(logAdd, impossible) - plain)).toBeLessThan(1e-12);
      }),
    );
  });
});

describe('what is left of one probability without another', () => {
  test.each([0, -1e5, 1e5])('around %s', (level) => {
    expect(logDifference(level + Math.log(3), level)).toBeCloseTo(level + Math.LN2, 9);
    expect(logDifference(level, impossible)).toBe(level);
    expect(logDifference(level, level)).toBe(impossible);
    expect(logDifference(level, level + 1)).toBe(impossible);
  });
});

describe('probabilities from weights', () => {
  test('sum to 1 and keep their ratios, however small the weights', () => {
    const [first, second] = normalised([-5000, -5000 + Math.log(3), impossible]);
    expect(first).toBeCloseTo(0.25, 12);
    expect(second).toBeCloseTo(0.75, 12);
  });

  test('do not exist when every weight is zero', () => {
    expect(() => normalised([])).toThrow(RangeError);
    expect(() => normalised([impossible])).toThrow(RangeError);
  });
});
