/** The ways a raw reading is misread. */
import { describe, expect, test } from 'vitest';
import { SLIP_CHANCE } from '../../src/observe/assumptions.ts';
import { logOddsOfFurtherSlip, possibleSlips } from '../../src/observe/slips.ts';
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

  test('nor 06, which would be 60', () => {
    expect(corrections(circle({ scaleDivision: '1°' }), 231.1)).not.toContain(54);
    expect(corrections(circle(), 231.1)).not.toContain(54);
    expect(corrections(circle({ scaleDivision: '1°' }), 231 + 5 / 60)).toContain(45);
  });

  test('with a vernier over a whole degree its part is the minutes, and the slip is one', () => {
    const chanceOf = (bench: Bench, correction: number): number =>
      possibleSlips(bench, 229 + 12 / 60).find((slip) => Math.abs(slip.correction - correction) < 1e-6)!
        .chance;
    expect(chanceOf(circle({ scaleDivision: '1°' }), 9)).toBeCloseTo(SLIP_CHANCE.digitsOfMinutes, 12);
    expect(chanceOf(circle(), 9)).toBeCloseTo(SLIP_CHANCE.digitsOfMinutes + SLIP_CHANCE.digits, 12);
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

/** What is to be added, how often it happens, and what it is called: one size each. */
const told = (bench: Bench, reading: number): readonly [number, number, string][] =>
  possibleSlips(bench, reading)
    .map(({ correction, chance, cause }) => {
      const digits = cause.kind === 'digits' ? ` ${cause.written} for ${cause.meant}` : '';
      return [Number(correction.toFixed(6)), Number(chance.toFixed(9)), `${cause.kind}${digits}`] as const;
    })
    .map((each): [number, number, string] => [...each])
    .sort((a, b) => a[0] - b[0]);

/** Half of the chance goes each way. */
const chanceOf = (slip: keyof Omit<typeof SLIP_CHANCE, 'scaleMarks'>): number => SLIP_CHANCE[slip] / 2;

describe('every slip of a reading, written out', () => {
  test("of 229°43' on a circle divided into 20'", () => {
    expect(told(circle({ scaleDivision: "20'" }), 229 + 43 / 60)).toEqual([
      [-600, chanceOf('tenDegrees'), 'ten-degrees'],
      [-60, chanceOf('degree'), 'degree'],
      [-40, chanceOf('twoDivisions'), 'main-scale'],
      [-30, chanceOf('halfDegree'), 'half-degree'],
      [-20, chanceOf('division'), 'main-scale'],
      [-10, chanceOf('halfDivision'), 'half-division'],
      [-9, SLIP_CHANCE.digitsOfMinutes, 'digits 43 for 34'],
      [10, chanceOf('halfDivision'), 'half-division'],
      [20, chanceOf('division'), 'main-scale'],
      [30, chanceOf('halfDegree'), 'half-degree'],
      [40, chanceOf('twoDivisions'), 'main-scale'],
      [60, chanceOf('degree'), 'degree'],
      [600, chanceOf('tenDegrees'), 'ten-degrees'],
      [63 * 60, SLIP_CHANCE.digitsOfDegrees, 'digits 29 for 92'],
    ]);
  });

  test("a 30' division and half a degree are one, and so are two divisions and a degree", () => {
    const slips = told(circle(), 229 + 33 / 60);
    const half = chanceOf('division') + chanceOf('halfDegree');
    const whole = chanceOf('twoDivisions') + chanceOf('degree');
    for (const sign of [1, -1]) {
      expect(slips.find(([size]) => size === 30 * sign)).toEqual([
        30 * sign,
        expect.closeTo(half, 12),
        'half-degree',
      ]);
      expect(slips.find(([size]) => size === 60 * sign)).toEqual([
        60 * sign,
        expect.closeTo(whole, 12),
        'degree',
      ]);
    }
  });

  test('of a circle read to decimals half degrees are rarer', () => {
    const decimals = circle({ leastCount: '0.1°', scaleDivision: '1°' });
    // Half of a 1° division is half a degree too.
    expect(told(decimals, 229.3).find(([size]) => size === 30)?.[1]).toBeCloseTo(
      chanceOf('halfDegreeOfDecimals') + chanceOf('halfDivision'),
      9,
    );
  });

  test("the vernier's part: 42' on 30' divisions is 12 on the vernier, read for 21", () => {
    expect(told(circle(), 229 + 42 / 60)).toContainEqual([9, SLIP_CHANCE.digits, 'digits 12 for 21']);
    // 29' is 29 on the vernier: 92 is on none.
    expect(told(circle(), 229 + 29 / 60).filter(([, , what]) => what.startsWith('digits'))).toEqual([
      [63 * 60, SLIP_CHANCE.digitsOfDegrees, 'digits 29 for 92'],
    ]);
  });

  test('seconds alone that the vernier does not show are minutes; its own ticks, and whole minutes, are not', () => {
    const isPossible = (seconds: number, bench = circle()) =>
      told(bench, 229 + seconds / 3600).some(([, , what]) => what === 'minutes-as-seconds');
    const fine = circle({ leastCount: '20"', scaleDivision: "20'" });
    expect([0, 1, 43, 59, 60, 61, 90].map((seconds) => isPossible(seconds))).toEqual([
      false,
      true,
      true,
      true,
      false,
      false,
      false,
    ]);
    const coarse = circle({ leastCount: "5'", scaleDivision: '1°' });
    for (const degrees of [0, 1, 7, 33, 181, 229, 359])
      expect(told(coarse, degrees + 60 / 3600).some(([, , what]) => what === 'minutes-as-seconds')).toBe(
        false,
      );
    expect([0.4, 0.6].map((seconds) => isPossible(seconds))).toEqual([false, true]);
    expect([19, 20, 21, 40].map((seconds) => isPossible(seconds, fine))).toEqual([true, false, true, false]);
    expect(told(circle(), 229 + 43 / 3600)).toContainEqual([
      Number((43 - 43 / 60).toFixed(6)),
      SLIP_CHANCE.minutesAsSeconds,
      'minutes-as-seconds',
    ]);
  });

  test('of 1208.5 on a scale: marks that the reading has, digits at every power, a zero that is written', () => {
    const scale = benchOf({ instrument: { method: 'scale', leastCount: 0.5 } });
    const [one, two, five] = SLIP_CHANCE.scaleMarks.map(({ chance }) => chance / 2);
    const marks = told(scale, 1208.5).filter(([, , what]) => what === 'scale-mark');
    expect(marks.filter(([size]) => size > 0)).toEqual([
      [2, two, 'scale-mark'],
      [5, five, 'scale-mark'],
      [10, one, 'scale-mark'],
      [20, two, 'scale-mark'],
      [50, five, 'scale-mark'],
      [100, one, 'scale-mark'],
      [200, two, 'scale-mark'],
      [500, five, 'scale-mark'],
      [1000, one, 'scale-mark'],
    ]);
    expect(
      marks
        .map(([size]) => -size)
        .filter((size) => size > 0)
        .sort((a, b) => a - b),
    ).toEqual(marks.map(([size]) => size).filter((size) => size > 0));
    const digits = told(scale, 1208.5).filter(([, , what]) => what.startsWith('digits'));
    expect(digits).toEqual([
      // One unit is less than three counts, so its digits are not exchanged: 20 for 02, 12 for 21.
      [-180, SLIP_CHANCE.digits, 'digits 20 for 02'],
      [900, SLIP_CHANCE.digits, 'digits 12 for 21'],
    ]);
    const fine = benchOf({ instrument: { method: 'scale', leastCount: 0.1 } });
    expect(told(fine, 1208.5)).toContainEqual([72, SLIP_CHANCE.digits, 'digits 08 for 80']);
    // Nobody writes 08.5 for 8.5.
    expect(told(fine, 8.5).filter(([, , what]) => what.startsWith('digits'))).toEqual([]);
    expect(told(fine, 3).map(([size]) => size)).toEqual([-2, -1, 1, 2]);
  });

  test('a further slip is likelier, a third more so', () => {
    expect([0, 1, 2].map((made) => Math.exp(logOddsOfFurtherSlip(made)))).toEqual([
      1,
      expect.closeTo(2, 12),
      expect.closeTo(3, 12),
    ]);
  });
});
