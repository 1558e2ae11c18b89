/** The ways a raw reading is misread. */
import { describe, expect, test } from 'vitest';
import { possibleSlips } from '../../src/observe/slips.ts';
import type { Bench } from '../../src/record/bench.ts';
import { causeText } from '../../src/words/slip-text.ts';
import { benchOf, type PlainRecord } from '../calibrate/glass-bench.ts';

const circle = (parts: PlainRecord = {}): Bench =>
  benchOf({ instrument: { method: 'central', leastCount: "1'", scaleDivision: "30'", ...parts } });
/** Kinds by the correction that mends them, arc-minutes. */
const corrections = (bench: Bench, reading: number): number[] =>
  possibleSlips(bench, reading)
    .map(({ correction }) => correction)
    .sort((a, b) => a - b);
const kindOf = (bench: Bench, reading: number, correction: number): string | undefined =>
  possibleSlips(bench, reading).find((slip) => Math.abs(slip.correction - correction) < 1e-6)?.cause.kind;

describe('on a circle', () => {
  test('one and two divisions, half a degree, a degree and ten degrees, either way', () => {
    expect(corrections(circle({ scaleDivision: "20'" }), 229)).toEqual(
      expect.arrayContaining([-600, -60, -40, -30, -20, 20, 30, 40, 60, 600]),
    );
  });

  test('the digits of the minutes in the wrong order: 34 for 43', () => {
    expect(kindOf(circle(), 229 + 34 / 60, 9)).toBe('digits');
    expect(kindOf(circle(), 229 + 43 / 60, -9)).toBe('digits');
  });

  test('but not where that would be no minute at all: 28 is not 82', () => {
    expect(
      possibleSlips(circle({ scaleDivision: '1°' }), 231 + 28 / 60).every(
        ({ correction }) => correction !== 54,
      ),
    ).toBe(true);
  });

  test('nor where the digits are alike', () => {
    const minutes = possibleSlips(circle({ scaleDivision: '1°' }), 222 + 33 / 60).filter(
      ({ cause }) => cause.kind === 'digits',
    );
    expect(minutes).toEqual([]);
  });

  test('the digits of the vernier part: 12 read for 21 beside 30′', () => {
    expect(kindOf(circle(), 229 + 42 / 60, 9)).toBe('digits');
  });

  test('the digits of the degrees: 229 for 292', () => {
    expect(kindOf(circle(), 229.25, 63 * 60)).toBe('digits');
  });

  test('minutes written as seconds', () => {
    expect(kindOf(circle(), 229 + 43 / 3600, 43 - 43 / 60)).toBe('minutes-as-seconds');
    expect(possibleSlips(circle(), 229.5).some(({ cause }) => cause.kind === 'minutes-as-seconds')).toBe(
      false,
    );
  });

  test('seconds that a vernier of 30″ shows are seconds, others are minutes', () => {
    const fine = circle({ leastCount: '30"', scaleDivision: "20'" });
    expect(kindOf(fine, 218 + 36 / 3600, 36 - 36 / 60)).toBe('minutes-as-seconds');
    expect(
      possibleSlips(fine, 218 + 30 / 3600).some(({ cause }) => cause.kind === 'minutes-as-seconds'),
    ).toBe(false);
  });

  test('kinds of one size are one hypothesis, with the chance of all of them, named by the likeliest', () => {
    const sizes = corrections(circle(), 229);
    expect(new Set(sizes.map((size) => size.toFixed(3))).size).toBe(sizes.length);
    const slips = possibleSlips(circle(), 229);
    const degree = slips.find(({ correction }) => correction === 60)!;
    const coarse = possibleSlips(circle({ scaleDivision: "20'" }), 229).find(
      ({ correction }) => correction === 60,
    )!;
    expect(causeText(circle(), degree.cause)).toBe('one degree missed');
    expect(degree.chance).toBeGreaterThan(coarse.chance);
  });

  test('together they are rare, and each is possible', () => {
    for (const reading of [0, 12.5, 229 + 43 / 60, 359 + 59 / 60]) {
      const chances = possibleSlips(circle(), reading).map(({ chance }) => chance);
      expect(Math.min(...chances)).toBeGreaterThan(0);
      expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeLessThan(0.15);
    }
  });
});

describe('on a scale', () => {
  const scale = benchOf({ instrument: { method: 'scale', leastCount: 0.1 } });

  test('marks missed, and digits in the wrong order', () => {
    expect(corrections(scale, 834.2)).toEqual(expect.arrayContaining([-100, -10, -1, 1, 10, 100]));
    expect(kindOf(scale, 834.2, 9)).toBe('digits');
  });

  test('marks stand at ones, twos and fives', () => {
    for (const size of [2, 5, 20, 50, 200, 500]) {
      expect(kindOf(scale, 834.2, size)).toBe('scale-mark');
      expect(kindOf(scale, 834.2, -size)).toBe('scale-mark');
    }
    expect(kindOf(scale, 834.2, 40)).toBeUndefined();
  });

  test('no more marks than the reading has, nor so few that scatter explains them', () => {
    const marks = possibleSlips(scale, 34).filter(({ cause }) => cause.kind === 'scale-mark');
    expect(Math.max(...marks.map(({ correction }) => correction))).toBe(20);
    const coarse = benchOf({ instrument: { method: 'scale', leastCount: 5 } });
    expect(corrections(coarse, 834).filter((size) => Math.abs(size) < 10)).toEqual([]);
  });
});
