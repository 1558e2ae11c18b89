/** A line written down twice: that it is, is said; it is no light of the room and no fault. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { verifyTube } from '../../src/analysis/verify.ts';
import { readAgainFindings } from '../../src/identify/findings/read-again.ts';
import { roomLightFindings } from '../../src/identify/findings/room-light.ts';
import type { Candidate, TubeLine } from '../../src/identify/types.ts';
import {
  benchOf,
  GlassReader,
  knownLamp,
  linesAt,
  mercuryNm,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';

const readings = [100, 101, 300, 301.5].map((ordinate, index) => ({
  line: { index } as never,
  ordinate,
  totalVariance: 0.5,
}));
const lead = (matched: readonly number[], unexplained: readonly number[], more: object = {}): Candidate =>
  ({
    substance: 'helium',
    symbol: 'He',
    with: [],
    indistinguishable: [],
    probability: 0.9,
    matches: matched.map((index) => ({ index, asRead: true, wavelengthNm: 587.56 })),
    unexplained,
    ...more,
  }) as unknown as Candidate;

describe('of two readings that read alike', () => {
  test('the one left over is told, with the one that fits', () => {
    expect(readAgainFindings([lead([0, 2], [1, 3])], readings, null)).toEqual([
      {
        what: 'read-again',
        pairs: [
          { index: 1, of: 0 },
          { index: 3, of: 2 },
        ],
      },
    ]);
  });

  test('none is where it lies elsewhere, where the other fits only with a slip undone, or where no tube leads', () => {
    expect(readAgainFindings([lead([0], [3])], readings, null)).toEqual([]);
    const corrected = { matches: [{ index: 0, asRead: false }] };
    expect(readAgainFindings([lead([0], [1], corrected)], readings, null)).toEqual([]);
    expect(readAgainFindings([lead([0], [1], corrected)], readings, { value: 9, u: 1 })).toHaveLength(1);
    expect(readAgainFindings([lead([0], [1], { probability: 0.4 })], readings, null)).toEqual([]);
    expect(readAgainFindings([lead([0], [1], { symbol: null })], readings, null)).toEqual([]);
    expect(readAgainFindings([], readings, null)).toEqual([]);
  });

  test('neither is taken for light of the room', () => {
    const line = { index: 1, wavelengthNm: 588.7, standardUncertaintyNm: 1, correctedNm: null };
    expect(roomLightFindings([lead([0, 2], [1])], [line as unknown as TubeLine])).toEqual([]);
  });
});

test('helium gone through twice: no doubt, and one remark that names the readings', () => {
  const reader = new GlassReader();
  const nm = [667.82, 587.56, 501.57, 492.19, 471.31, 447.15];
  const bench = (more: object) =>
    benchOf(
      recordOf(reader, {
        known: knownLamp(reader, { lamp: 'mercury', lines: linesAt(mercuryNm) }),
        unknown: unknownTube(reader, [...nm, 587.56, 501.57], { label: 'tube B', ...more }),
      }),
    );
  const [tube] = analyseBench(bench({ shelf: ['helium', 'neon', 'argon'] })).tubes;
  expect(tube!.candidates[0]!.substance).toBe('helium');
  expect(tube!.doubts.filter(({ kind }) => kind === 'room-light')).toEqual([]);
  const told = tube!.warnings.filter(({ code }) => code === 'read-twice');
  expect(told).toHaveLength(1);
  expect(told[0]!.message).toContain('tube B: some readings read alike');
});

test('a whole list read twice: the check does not hold against the tube what is there a second time', () => {
  const reader = new GlassReader();
  const nm = [667.82, 587.56, 501.57, 492.19, 471.31, 447.15];
  const analysis = analyseBench(
    benchOf(
      recordOf(reader, {
        known: knownLamp(reader, { lamp: 'mercury', lines: linesAt(mercuryNm) }),
        unknown: unknownTube(reader, [...nm, ...nm], { label: 'tube B', shelf: ['helium', 'neon', 'argon'] }),
      }),
    ),
  );
  const [tube] = analysis.tubes;
  expect(tube!.readTwice).toHaveLength(6);
  expect(tube!.candidates[0]!.unexplained).toEqual(expect.arrayContaining([...tube!.readTwice]));
  const check = verifyTube(analysis, tube!, 'helium');
  expect(check.outcome).toBe('supported');
  expect(check.reason).toContain('6 of 12 lie on its lines, 6 read like one of these');
  // What is left over and reads like nothing else still does.
  const odd = verifyTube(analysis, { ...tube!, readTwice: tube!.readTwice.slice(1, 3) }, 'helium');
  expect(odd.outcome).toBe('insufficient');
  expect(odd.reason).toContain('4 of 12 readings fit none of its lines');
});
