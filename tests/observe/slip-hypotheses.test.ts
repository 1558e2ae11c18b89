/** What a line's reading may have been: each slip with its odds, written out from the definition. */
import { describe, expect, test } from 'vitest';
import type { BenchConstants } from '../../src/observe/bench-constants.ts';
import { observe } from '../../src/observe/observation.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import { readingAlternatives } from '../../src/observe/slip-hypotheses.ts';
import { possibleSlips } from '../../src/observe/slips.ts';
import type { Bench } from '../../src/record/bench.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { logNormal, rounding } from './by-hand.ts';

const settingVariance = 0.5;
const none: BenchConstants = { midpointDeg: null, midpointSpreadArcmin: 0, windowDifferenceArcmin: null };

/** Half a degree either way, 1 in 100, is a division of 30' too, 8 in 1000. */
const logHalfDegree = Math.log((0.01 + 0.008) / 2);

/** A difference scatters as `variance` says, or in one of a hundred cases lies anywhere within a degree. */
const tolerant = (off: number, variance: number): number =>
  Math.log(0.99 * Math.exp(logNormal(off, variance)) + 0.01 / 60);

function benchWith(readings: readonly unknown[], instrument: object = { method: 'central' }): Bench {
  const isCentral = (instrument as { method: string }).method === 'central';
  const windows = (instrument as { windows?: number }).windows;
  return benchOf({
    instrument: { leastCount: "1'", ...instrument },
    ...(isCentral ? { central: [windows === 2 ? ["181°00'", "1°00'"] : "181°00'"] } : {}),
    known: { lamp: 'mercury', lines: [{ wavelengthNm: 546.07, readings }] },
    unknown: [],
  });
}

function alternatives(bench: Bench, constants: BenchConstants = none) {
  const { settings } = bench.known[0]!.lines[0]!;
  const observation = observe(bench, settings, lampOrigin(bench).central)!;
  return readingAlternatives(bench, settings, observation, constants, settingVariance);
}

const halfDegrees = (found: ReturnType<typeof alternatives>) =>
  found.filter(({ cause }) => cause.kind === 'half-degree');

describe('of a single reading', () => {
  test('every possible slip has its prior odds and moves the ordinate as the side says', () => {
    for (const [reading, sign] of [
      ["229°40'", 1],
      ["132°20'", -1],
    ] as const) {
      const bench = benchWith([reading]);
      const found = alternatives(bench);
      const { windows } = bench.known[0]!.lines[0]!.settings[0] as { windows: readonly number[] };
      const slips = possibleSlips(bench, windows[0]!);
      expect(found).toHaveLength(slips.length);
      for (const [at, { cause, correction, chance }] of slips.entries()) {
        expect(found[at]).toMatchObject({ cause, readingCorrection: correction });
        expect(found[at]!.correction).toBeCloseTo(sign * correction, 9);
        expect(found[at]!.logOdds).toBeCloseTo(Math.log(chance), 9);
      }
    }
  });
});

describe('of repeats', () => {
  const scatter = settingVariance + rounding(1);
  const ofPair = (difference: number): number => tolerant(difference / 2, scatter);

  test('one that stands half a degree off says so itself', () => {
    const found = halfDegrees(alternatives(benchWith(["229°40'", "230°10'"])));
    // Either may be the misread one: two values about their mean are one difference.
    const undone = ofPair(0) - ofPair(30);
    for (const [repeat, correction] of [
      [0, 30],
      [1, -30],
    ]) {
      const one = found.find(
        ({ part, readingCorrection }) => part.repeat === repeat && readingCorrection === correction,
      )!;
      expect(one.logOdds).toBeCloseTo(logHalfDegree + undone, 9);
      expect(one.correction).toBeCloseTo(correction! / 2, 9);
    }
    // The other way they would be a degree apart, which is no likelier than half of one.
    const away = found.find(({ part, readingCorrection }) => part.repeat === 0 && readingCorrection === -30)!;
    expect(away.logOdds).toBeCloseTo(logHalfDegree + ofPair(60) - ofPair(30), 9);
  });

  test('that agree speak against a slip of one of them, and what is hopeless is not followed', () => {
    const found = alternatives(benchWith(["229°40'", "229°40'", "229°40'"]));
    const off = 30;
    const each = (values: readonly number[]): number => {
      const mean = values.reduce((a, b) => a + b) / 3;
      return values.map((value) => (2 / 3) * tolerant(value - mean, scatter)).reduce((a, b) => a + b);
    };
    const expected = each([off, 0, 0]) - each([0, 0, 0]);
    for (const one of halfDegrees(found)) expect(one.logOdds).toBeLessThan(expected + 1e-9);
    for (const { logOdds } of found) expect(logOdds).toBeGreaterThanOrEqual(-14);
    // -14 is no further than that: a slip as common as half a degree is still followed.
    expect(halfDegrees(found).length > 0).toBe(logHalfDegree + expected >= -14);
    expect(found.length).toBeLessThan(3 * possibleSlips(benchWith(["229°40'"]), 229 + 40 / 60).length);
  });
});

describe('of both sides', () => {
  const both = (left: string, right: string) => benchWith([{ left, right }], { method: 'both-sides' });
  const middle = { ...none, midpointDeg: 181, midpointSpreadArcmin: 0 };
  const variance = settingVariance / 2 + rounding(1);

  test('a middle that is that of the other lines speaks against a slip of one side', () => {
    const found = alternatives(both("229°40'", "132°20'"), middle);
    const slip = found.find(({ cause, part }) => cause.kind === 'half-degree' && part.side === 'left')!;
    expect(slip.logOdds).toBeCloseTo(logHalfDegree + tolerant(15, variance) - tolerant(0, variance), 9);
    expect(found.some(({ cause }) => cause.kind === 'one-side')).toBe(false);
  });

  test('one that is not speaks for it, and for one side wrong by whatever makes it so', () => {
    const found = alternatives(both("230°10'", "132°20'"), middle);
    const off = 15;
    const ofLeft = found.find(
      ({ cause, part, readingCorrection }) =>
        cause.kind === 'half-degree' && part.side === 'left' && readingCorrection === -30,
    )!;
    expect(ofLeft.logOdds).toBeCloseTo(logHalfDegree + tolerant(0, variance) - tolerant(off, variance), 9);
    const ofRight = found.find(
      ({ cause, part, readingCorrection }) =>
        cause.kind === 'half-degree' && part.side === 'right' && readingCorrection === -30,
    )!;
    expect(ofRight.logOdds).toBeCloseTo(ofLeft.logOdds, 9);
    const oneSide = found.filter(({ cause }) => cause.kind === 'one-side');
    expect(oneSide.map(({ part }) => part.side)).toEqual(['left', 'right']);
    for (const each of oneSide) {
      expect(each.readingCorrection).toBeCloseTo(-2 * off, 9);
      expect(each.correction).toBeCloseTo(-2 * off * each.part.weight, 9);
      expect(each.logOdds).toBeCloseTo(Math.log(0.01 / 60) - tolerant(off, variance), 9);
    }
  });

  test('a middle that wanders on this bench says less', () => {
    const wandering = { ...middle, midpointSpreadArcmin: 6 };
    const found = alternatives(both("230°10'", "132°20'"), wandering);
    const slip = found.find(
      ({ cause, part, readingCorrection }) =>
        cause.kind === 'half-degree' && part.side === 'left' && readingCorrection === -30,
    )!;
    expect(slip.logOdds).toBeCloseTo(logHalfDegree + tolerant(0, 36) - tolerant(15, 36), 9);
  });

  test.each([
    ["229°43'", false],
    ["229°44'", true],
  ])('a middle off by half of what %s has too much: one side wrong is %s', (left, isNamed) => {
    const off = (Number(left.slice(4, 6)) - 40) / 2;
    expect(Math.log(0.01 / 60) - tolerant(off, variance) >= Math.log(0.05)).toBe(isNamed);
    const found = alternatives(both(left, "132°20'"), middle);
    expect(found.some(({ cause }) => cause.kind === 'one-side')).toBe(isNamed);
  });

  test('of several repeats only the one whose middle is off, and its first window', () => {
    const bench = benchWith(
      [
        { left: ["229°40'", "49°40'"], right: ["132°20'", "312°20'"] },
        { left: ["230°10'", "50°10'"], right: ["132°20'", "312°20'"] },
      ],
      { method: 'both-sides', windows: 2 },
    );
    const oneSide = alternatives(bench, middle).filter(({ cause }) => cause.kind === 'one-side');
    expect(oneSide.map(({ part }) => [part.repeat, part.side, part.window])).toEqual([
      [1, 'left', 0],
      [1, 'right', 0],
    ]);
  });
});

describe('of two windows', () => {
  const two = (first: string, second: string) =>
    benchWith([[first, second]], { method: 'central', windows: 2 });
  const windows = { ...none, windowDifferenceArcmin: 2 };
  const variance = 4 * rounding(1);

  test('a difference that is not that of the other lines says which window to undo, and how', () => {
    const found = halfDegrees(alternatives(two("229°40'", "50°12'"), windows));
    const expected = logHalfDegree + tolerant(0, variance) - tolerant(30, variance);
    const best = found.filter(({ logOdds }) => logOdds > 0);
    expect(best.map(({ part, readingCorrection }) => [part.window, readingCorrection])).toEqual([
      [0, 30],
      [1, -30],
    ]);
    for (const one of best) {
      expect(one.logOdds).toBeCloseTo(expected, 9);
      expect(Math.abs(one.correction)).toBeCloseTo(15, 9);
    }
  });

  test('says nothing where the usual difference is not known', () => {
    for (const { logOdds } of halfDegrees(alternatives(two("229°40'", "50°12'"))))
      expect(logOdds).toBeCloseTo(logHalfDegree, 9);
  });
});
