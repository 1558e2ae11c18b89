/** Slips and readings beyond the curve: whose, from which chance on, and when they are told once for all. */
import { describe, expect, test } from 'vitest';
import type { TubeReadings } from '../../src/identify/bench/tube-readings.ts';
import { onceForAll, oneOfSeveral, readingFindings } from '../../src/identify/findings/reading-findings.ts';
import type { ReadingFinding } from '../../src/identify/findings/tube-finding.ts';
import type { Row } from '../../src/identify/rank/rank.ts';
import type { ReadingAlternative } from '../../src/observe/slip-hypotheses.ts';
import type { BenchLine, UnknownTube } from '../../src/record/bench.ts';
import { handCurve, handReading } from './hand-made.ts';

const slip = (correction: number) => ({ cause: 'degree', correction }) as unknown as ReadingAlternative;

/** A row and what it says of slips: ln weights, and which readings each takes for misread. */
const row = (
  probability: number,
  hypotheses: readonly (readonly [log: number, slips: readonly (readonly [index: number, by: number])[]])[],
  log: number,
): Row =>
  ({
    probability,
    slips: {
      log,
      hypotheses: hypotheses.map(([each, slips]) => ({
        log: each,
        slips: new Map(slips.map(([index, by]) => [index, slip(by)])),
      })),
    },
  }) as unknown as Row;

const readings = (...ordinates: number[]) =>
  ({ readings: ordinates.map((ordinate, index) => handReading(index, ordinate)) }) as unknown as TubeReadings;
const findings = (rows: readonly Row[], at = readings(3000, 2900), shift = 0) => [
  ...readingFindings(at, handCurve, rows, shift).values(),
];

describe('a slip', () => {
  test('is told from one chance in two on, over all rows, as the leading row has it', () => {
    const lead = row(0.8, [[Math.log(0.5), [[1, 60]]]], 0);
    expect(findings([lead])).toEqual([]);
    const second = row(0.2, [[Math.log(0.51), [[1, -60]]]], 0);
    expect(findings([lead, second])).toEqual([
      { what: 'slip', index: 1, probability: expect.closeTo(0.502, 12), slip: slip(60) },
    ]);
  });

  test('has the chance of all that take the reading for misread, against all that the row understands', () => {
    const hypotheses = [
      [Math.log(3), [[0, 60]]],
      [
        Math.log(5.1),
        [
          [0, 30],
          [1, -60],
        ],
      ],
    ] as const;
    expect(findings([row(1, hypotheses, Math.log(10))])).toEqual([
      { what: 'slip', index: 0, probability: expect.closeTo(0.81, 12), slip: slip(60) },
      { what: 'slip', index: 1, probability: expect.closeTo(0.51, 12), slip: slip(-60) },
    ]);
  });

  test('that the leading row does not take is not told, nor a chance above one', () => {
    expect(findings([row(0.4, [], 0), row(0.6, [[0, [[1, 60]]]], 0)])).toEqual([]);
    expect(findings([row(1, [[0.1, [[1, 60]]]], 0)])).toEqual([
      { what: 'slip', index: 1, probability: 1, slip: slip(60) },
    ]);
  });
});

describe('one of several', () => {
  const several = (rows: readonly Row[]) =>
    oneOfSeveral(rows, readingFindings(readings(3000, 3000, 2900), handCurve, rows, 0));
  const one = (chances: readonly number[]) =>
    row(
      1,
      chances.map((chance, index) => [Math.log(chance), [[index, 60]]] as const),
      0,
    );

  test('is told where none by itself is likelier misread than not, the likeliest first', () => {
    expect(several([one([0.45, 0.48])])).toEqual([
      {
        what: 'slip-of-several',
        probability: expect.closeTo(0.93, 12),
        several: [
          { index: 1, slip: slip(60) },
          { index: 0, slip: slip(60) },
        ],
      },
    ]);
    expect(several([one([0.2, 0.25])])).toEqual([]);
  });

  test('is not told of what is told already, nor where one takes nearly all of the chance', () => {
    expect(several([one([0.3, 0.6])])).toEqual([]);
    expect(several([one([0.46, 0.05, 0.04])])).toEqual([]);
  });
});

describe('a reading beyond the curve', () => {
  // The curve has wavelengths from 2600' to 3200'.
  test('is told, by its place in the record; a slip that explains it is told instead', () => {
    expect(findings([], readings(3000, 3201, 2599))).toEqual([
      { what: 'beyond-the-curve', index: 1 },
      { what: 'beyond-the-curve', index: 2 },
    ]);
    expect(findings([row(1, [[0, [[1, -60]]]], 0)], readings(3000, 3201))).toEqual([
      { what: 'slip', index: 1, probability: 1, slip: slip(-60) },
    ]);
  });

  test('is judged where the central image is taken to be', () => {
    expect(findings([], readings(3210, 2605), 20)).toEqual([{ what: 'beyond-the-curve', index: 1 }]);
  });
});

describe('once for all', () => {
  const tube = (...uses: boolean[]) =>
    ({ lines: uses.map((use, index) => ({ index, use }) as BenchLine) }) as unknown as UnknownTube;
  const beyond = (index: number): ReadingFinding => ({ what: 'beyond-the-curve', index });

  test('where no reading in use has a wavelength, of two readings on', () => {
    expect(onceForAll(tube(true, true), [beyond(0), beyond(1)])).toEqual([
      { what: 'all-beyond-the-curve', readings: 2 },
    ]);
    expect(onceForAll(tube(true, true, false), [beyond(0), beyond(1)])).toEqual([
      { what: 'all-beyond-the-curve', readings: 2 },
    ]);
    expect(onceForAll(tube(true, true), [beyond(0)])).toEqual([beyond(0)]);
    expect(onceForAll(tube(true), [beyond(0)])).toEqual([beyond(0)]);
  });
});
