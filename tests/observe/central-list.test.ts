/** What the readings of one central list may have been: weights, directions and variances written out by hand. */
import { describe, expect, test } from 'vitest';
import type { BenchConstants } from '../../src/observe/bench-constants.ts';
import { chanceOfMisread, misreadOfOneList, versionsOf } from '../../src/observe/central-list.ts';
import { possibleSlips } from '../../src/observe/slips.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { logNormal, resolution } from './by-hand.ts';

const settingVariance = 0.5;
const none: BenchConstants = { midpointDeg: null, midpointSpreadArcmin: 0, windowDifferenceArcmin: null };

function listOf(central: readonly unknown[], constants = none) {
  const windows = Array.isArray(central[0]) ? 2 : 1;
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'", windows },
    central,
    unknown: [],
  });
  const knowledge = { constants, settingVariance };
  return {
    bench,
    versions: versionsOf(bench, bench.central, 'tube', knowledge),
    chance: chanceOfMisread(bench, bench.central, knowledge),
    misread: misreadOfOneList(bench, bench.central, knowledge),
  };
}

/** Nineteen of twenty readings scatter as settings do, one as widely as repeats lie apart at the most: 10'. */
function byHand(windows = 1) {
  const narrow = (settingVariance + resolution(1)) / windows;
  const wide = narrow + 5 ** 2;
  const densities = (off: number) =>
    [0.95 * Math.exp(logNormal(off, narrow)), 0.05 * Math.exp(logNormal(off, wide))] as const;
  return {
    narrow,
    scatter: (off: number) => Math.log(densities(off)[0] + densities(off)[1]),
    variance: (off: number) => {
      const [ofNarrow, ofWide] = densities(off);
      return (ofNarrow * narrow + ofWide * wide) / (ofNarrow + ofWide);
    },
  };
}

/** ln weight of a list whose readings lie so far from their mean, its direction averaged over. */
function logOf(offs: readonly number[], windows = 1): number {
  const { scatter, variance } = byHand(windows);
  const ofMean = offs.map(variance).reduce((a, b) => a + b) / offs.length ** 2;
  return offs.map(scatter).reduce((a, b) => a + b) + Math.log(2 * Math.PI * ofMean) / 2;
}

describe('as written', () => {
  test.each([
    [["181°04'"], [0]],
    [
      ["181°04'", "181°04'"],
      [0, 0],
    ],
    [
      ["181°03'", "181°04'", "181°08'"],
      [-2, -1, 3],
    ],
  ])('%j', (central, offs) => {
    const [first] = listOf(central).versions;
    const { variance } = byHand();
    expect(first).toMatchObject({ misread: [], isLost: false, correctionArcmin: expect.closeTo(0, 9) });
    expect(first!.log).toBeCloseTo(logOf(offs), 9);
    expect(first!.variance).toBeCloseTo(offs.map(variance).reduce((a, b) => a + b) / offs.length ** 2, 9);
    const mean = 181 + (4 + (offs.length === 3 ? 1 : 0)) / 60;
    expect(first!.windowsDeg).toEqual([expect.closeTo(mean, 9)]);
  });

  test('nothing without readings', () => {
    const { versions, chance, misread } = listOf([]);
    expect([versions, chance, misread]).toEqual([[], 0, null]);
  });
});

describe('of a single reading', () => {
  const reading = 181 + 4 / 60;
  const { bench, versions, chance } = listOf(["181°04'"]);
  const slips = possibleSlips(bench, reading);
  const unnamed = 0.004 / 240;

  test('each slip is a version with its chance, and the reading may stand for nothing; likeliest first, 16 at most', () => {
    const weights = [
      ...slips.map(({ correction, chance: prior }) => ({ correction, log: Math.log(prior) + logOf([0]) })),
      { correction: null, log: Math.log(unnamed) },
    ].sort((a, b) => b.log - a.log);
    expect(versions.length - 1).toBe(Math.min(16, weights.length));
    for (const [at, version] of versions.slice(1).entries()) {
      expect(version.log).toBeCloseTo(weights[at]!.log, 9);
      expect(version.misread).toHaveLength(1);
      expect(version.misread[0]).toMatchObject({ readBy: 'tube', readingDeg: expect.closeTo(reading, 9) });
      if (version.isLost) {
        expect(version).toMatchObject({ correctionArcmin: 0, variance: expect.closeTo(byHand().narrow, 9) });
        expect(version.misread[0]!.corrected).toBeNull();
        continue;
      }
      const { readingDeg, cause } = version.misread[0]!.corrected!;
      const slip = slips.find(
        (each) => each.cause === cause || Math.abs(each.correction - version.correctionArcmin) < 1e-6,
      )!;
      expect(version.correctionArcmin).toBeCloseTo(slip.correction, 6);
      expect(readingDeg).toBeCloseTo(reading + slip.correction / 60, 6);
      expect(version.windowsDeg[0]).toBeCloseTo(reading + slip.correction / 60, 6);
    }
  });

  test('the chance that it is misread is that of all of them', () => {
    const sound = Math.exp(logOf([0]));
    const misread = slips.map((slip) => slip.chance * sound).reduce((a, b) => a + b) + unnamed;
    expect(chance).toBeCloseTo(misread / (sound + misread), 9);
  });
});

describe('of two readings half a degree apart', () => {
  test('either may be the misread one, and the mean moves by half of it', () => {
    const { versions, chance } = listOf(["181°04'", "181°34'"]);
    const likely = versions.slice(1, 3);
    // Half a degree is a division too: 0.009.
    for (const version of likely) {
      expect(version.log).toBeCloseTo(Math.log(0.009) + logOf([0, 0]), 9);
      expect(version.variance).toBeCloseTo(byHand().variance(0) / 2, 9);
    }
    expect(likely.map(({ correctionArcmin }) => correctionArcmin).sort((a, b) => a - b)).toEqual([
      expect.closeTo(-15, 6),
      expect.closeTo(15, 6),
    ]);
    expect(chance).toBeGreaterThan(0.999);
  });

  test('of many readings none is looked at', () => {
    const many = (count: number) =>
      listOf(Array.from({ length: count }, (_, i) => `181°0${4 + (i % 2)}'`)).versions.length;
    expect(many(61)).toBe(1);
    expect(many(60)).toBeGreaterThan(1);
  });
});

describe('of three, one far off', () => {
  test('what it was is no part of what is misread in the mean, but of the chance', () => {
    const { versions, chance } = listOf(["181°04'", "181°04'", "181°34'"]);
    expect(versions[0]).toMatchObject({ misread: [], correctionArcmin: expect.closeTo(0, 9) });
    expect(versions[0]!.log).toBeCloseTo(Math.log(0.009) + logOf([0, 0, 0]), 9);
    expect(chance).toBeGreaterThan(0.999);
  });

  test('the list tells what it was; of one window also that nobody knows', () => {
    expect(listOf(["181°04'", "181°04'", "181°34'"]).misread).toMatchObject({
      corrected: { readingDeg: expect.closeTo(181 + 4 / 60, 9), cause: { kind: 'half-degree' } },
    });
    expect(listOf(["181°04'", "181°05'", "181°49'"]).misread).toMatchObject({
      readingDeg: expect.closeTo(181 + 49 / 60, 9),
      corrected: null,
    });
    expect(listOf(["181°04'", "181°05'", "181°04'", "181°49'", "180°19'"]).misread).toBeNull();
  });
});

describe('of two windows', () => {
  const usual = { ...none, windowDifferenceArcmin: 2 };
  const agree = (difference: number): number => logNormal(difference - 2, 4 * resolution(1));

  test('their difference weighs every version', () => {
    const { versions } = listOf([["181°04'", "1°07'"]], usual);
    expect(versions[0]!.log).toBeCloseTo(agree(3) + logOf([0], 2), 9);
    const unknown = listOf([["181°04'", "1°07'"]]);
    expect(unknown.versions[0]!.log).toBeCloseTo(logOf([0], 2), 9);
  });

  test('a slip of one window moves the mean by half, and the difference by all of it', () => {
    const { versions } = listOf([["181°04'", "1°36'"]], usual);
    const [, ...others] = versions;
    const best = others.filter(({ log }) => Math.abs(log - others[0]!.log) < 1e-9);
    expect(best.map(({ correctionArcmin }) => correctionArcmin).sort((a, b) => a - b)).toEqual([
      expect.closeTo(-15, 6),
      expect.closeTo(15, 6),
    ]);
    expect(best[0]!.log).toBeCloseTo(Math.log(0.009) + agree(2) + logOf([0], 2), 9);
  });

  test('a named slip of a reading left out is told', () => {
    const { misread } = listOf(
      [
        ["181°04'", "1°06'"],
        ["181°04'", "1°06'"],
        ["181°04'", "1°36'"],
      ],
      usual,
    );
    expect(misread).toMatchObject({
      readingDeg: expect.closeTo(1 + 36 / 60, 9),
      corrected: { readingDeg: expect.closeTo(1 + 6 / 60, 9) },
    });
  });
});
