/** What is said of each known line: from explanations with probabilities, worked out by hand. */
import { describe, expect, test } from 'vitest';
import { formatAngle } from '../../src/angle/format-angle.ts';
import type { LineChoice } from '../../src/calibrate/assign/line-hypotheses.ts';
import { knownLineReport } from '../../src/calibrate/known-line-report.ts';
import type { BenchExplanation } from '../../src/calibrate/moved-lamps.ts';
import { observe } from '../../src/observe/observation.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import type { ReadingAlternative } from '../../src/observe/slip-hypotheses.ts';
import { resolution } from '../observe/by-hand.ts';
import { benchOf } from './glass-bench.ts';
import { straightCurve } from './straight-curve.ts';

const settingVariance = 0.5;

/** Three lines, read so many arc-minutes off the curve at what they are stated to be; the last has no reading of use. */
const bench = benchOf({
  instrument: { method: 'central', leastCount: "1'" },
  central: ["100°00'"],
  known: [
    {
      lamp: 'mercury',
      lines: [
        [579, 2],
        [546, -30],
        [436, 5],
      ].map(([nm, off], i) => ({
        wavelengthNm: nm,
        readings: [formatAngle(100 + (straightCurve.ordinateAt(nm!) + off!) / 60, 1)],
        ...(i === 2 ? { use: false } : {}),
      })),
    },
  ],
  unknown: [],
});
const readings = bench.known[0]!.lines.filter(({ use }) => use).map((line) => ({
  line,
  observation: observe(bench, line.settings, lampOrigin(bench).central)!,
}));

const choice = (
  kind: LineChoice['kind'],
  wavelengthNm: number | null,
  slip: ReadingAlternative | null = null,
) => ({
  kind,
  wavelengthNm,
  wavelengthVariance: 0,
  slip,
  logPrior: 0,
});
const stated = [choice('as-stated', 579), choice('as-stated', 546)];
const slip = (readingCorrection: number): ReadingAlternative => ({
  cause: { kind: 'half-degree' },
  part: readings[1]!.observation.parts[0]!,
  readingCorrection,
  correction: readingCorrection,
  logOdds: 0,
});

function explanation(
  probability: number,
  ofSecond: LineChoice,
  more: { readonly lampTakenFor?: string | null; readonly ofFirst?: LineChoice } = {},
): BenchExplanation {
  return {
    choices: [more.ofFirst ?? stated[0]!, ofSecond],
    lampTakenFor: [more.lampTakenFor ?? null],
    move: null,
    probability,
  } as unknown as BenchExplanation;
}

const report = (
  explanations: readonly BenchExplanation[],
  curve: typeof straightCurve | null = straightCurve,
) => knownLineReport(bench, readings, explanations, curve, settingVariance);

describe('a line', () => {
  test('as stated has its residual, its u and nothing to be said of it', () => {
    const { lines, findings } = report([explanation(1, stated[1]!)]);
    expect(lines[1]).toEqual({
      index: 1,
      lampIndex: 0,
      statedWavelengthNm: 546,
      wavelengthNm: 546,
      deviationDeg: expect.closeTo((4000 - 1092 - 30) / 60, 9),
      ordinate: expect.closeTo(4000 - 1092 - 30, 6),
      standardUncertainty: expect.closeTo(Math.sqrt(resolution(1) + settingVariance), 9),
      residual: expect.closeTo(-30, 6),
      status: 'used',
      finding: null,
    });
    expect(findings).toEqual([]);
  });

  test('left out by the record is listed without numbers', () => {
    const [, , third] = report([explanation(1, stated[1]!)]).lines;
    expect(third).toMatchObject({ wavelengthNm: 436, ordinate: null, residual: null, status: 'set-aside' });
    expect(third!.finding).toEqual({ what: 'left-out' });
    const inUse = bench.known[0]!.lines.map((line) => ({ ...line, use: true }));
    const noReading = knownLineReport(
      { ...bench, known: [{ ...bench.known[0]!, lines: inUse }] },
      readings,
      [explanation(1, stated[1]!)],
      straightCurve,
      settingVariance,
    );
    expect(noReading.lines[2]!.finding).toEqual({ what: 'no-deviation' });
  });

  test('has no residual without a curve, and no explanation makes it a doubtful one', () => {
    const { lines } = report([], null);
    expect(lines[1]).toMatchObject({ residual: null, status: 'used', wavelengthNm: 546 });
    expect(lines[1]!.ordinate).not.toBeNull();
  });

  test('of a scale has no deviation', () =>
    expect(
      knownLineReport({ ...bench, method: 'scale' }, readings, [], straightCurve, settingVariance).lines[1]!
        .deviationDeg,
    ).toBeNull());
});

describe('a fault of the likeliest explanation', () => {
  test('misread: how probable any fault of it is', () => {
    const { lines, findings } = report([
      explanation(0.6, choice('as-stated', 546, slip(30))),
      explanation(0.25, choice('set-aside', null)),
      explanation(0.15, stated[1]!),
    ]);
    expect(lines[1]).toMatchObject({ status: 'slip', residual: expect.closeTo(-30, 6) });
    expect(lines[1]!.finding).toMatchObject({
      what: 'slip',
      probability: expect.closeTo(0.85, 12),
      slip: slip(30),
    });
    expect(findings).toEqual([{ what: 'known-line', index: 1, finding: lines[1]!.finding }]);
  });

  test('another line of the lamp: how well it fits there', () => {
    const { lines, findings } = report([
      explanation(0.9, choice('neighbour', 561)),
      explanation(0.1, stated[1]!),
    ]);
    expect(lines[1]).toMatchObject({
      status: 'reassigned',
      wavelengthNm: 561,
      residual: expect.closeTo(0, 6),
    });
    expect(lines[1]!.finding).toEqual({
      what: 'neighbour',
      probability: expect.closeTo(0.9, 12),
      wavelengthNm: 561,
      fit: expect.closeTo(0, 6),
    });
    expect(findings).toHaveLength(1);
    const assigned = report([explanation(1, choice('assigned', 561))]);
    expect(assigned.lines[1]).toMatchObject({ status: 'reassigned', finding: null });
    expect(report([explanation(1, choice('assigned', 546))]).lines[1]!.status).toBe('used');
    const unstated = readings.map((reading) => ({
      ...reading,
      line: { ...reading.line, statedWavelengthNm: null },
    }));
    const named = { ...bench, known: [{ ...bench.known[0]!, lines: unstated.map(({ line }) => line) }] };
    const [, second] = knownLineReport(
      named,
      unstated,
      [explanation(1, choice('assigned', 561))],
      straightCurve,
      settingVariance,
    ).lines;
    expect(second).toMatchObject({ status: 'used', wavelengthNm: 561 });
  });

  test('set aside: how far off it is', () => {
    const found = [explanation(1, choice('set-aside', null))];
    const { lines, findings } = report(found);
    expect(lines[1]!.status).toBe('set-aside');
    expect(findings).toHaveLength(1);
    expect(lines[1]!.finding).toEqual({ what: 'set-aside', probability: 1, off: expect.closeTo(30, 6) });
    expect(report(found, null).lines[1]!.finding).toMatchObject({ off: null });
  });

  test('a sum of probabilities is no more than 1', () =>
    expect(
      report([
        explanation(0.7, choice('set-aside', null)),
        explanation(0.3 + 1e-12, choice('neighbour', 561)),
      ]).lines[1]!.finding,
    ).toMatchObject({ probability: 1 }));
});

describe('a fault that is likely enough to be mentioned', () => {
  const withFaults = (...faults: readonly (readonly [number, LineChoice])[]) => {
    const sound = 1 - faults.map(([probability]) => probability).reduce((a, b) => a + b);
    return report([explanation(sound, stated[1]!), ...faults.map(([p, fault]) => explanation(p, fault))]);
  };

  test('from a quarter on', () => {
    const { lines, findings } = withFaults([0.25, choice('neighbour', 561)]);
    expect(lines[1]).toMatchObject({ status: 'used', wavelengthNm: 546 });
    expect(lines[1]!.finding).toEqual({
      what: 'perhaps',
      probability: expect.closeTo(0.25, 12),
      fault: 'neighbour',
      slip: null,
      wavelengthNm: 561,
    });
    // It is no doubt of the calibration.
    expect(findings).toEqual([]);
    expect(withFaults([0.24, choice('neighbour', 561)]).lines[1]!.finding).toBeNull();
  });

  test('the same fault is summed over explanations, another is not', () => {
    const halves = withFaults(
      [0.15, choice('as-stated', 546, slip(30))],
      [0.05, choice('set-aside', null)],
      [0.11, choice('as-stated', 546, slip(30))],
      [0.1, choice('as-stated', 546, slip(-30))],
      [0.02, choice('neighbour', 546)],
    );
    expect(halves.lines[1]!.finding).toMatchObject({
      what: 'perhaps',
      fault: 'slip',
      probability: expect.closeTo(0.26, 12),
      slip: slip(30),
    });
  });

  test('the likeliest of them is the one', () =>
    expect(
      withFaults(
        [0.2, choice('neighbour', 561)],
        [0.27, choice('set-aside', null)],
        [0.1, choice('neighbour', 570)],
      ).lines[1]!.finding,
    ).toMatchObject({ fault: 'set-aside', probability: expect.closeTo(0.27, 12) }));
});

describe('a wrong lamp', () => {
  test('is told once for the lamp, and of its lines nothing', () => {
    const { lines, findings } = report([
      explanation(0.7, choice('neighbour', 561), { lampTakenFor: 'helium' }),
      explanation(0.2, stated[1]!, { lampTakenFor: 'neon' }),
      explanation(0.1, stated[1]!),
    ]);
    expect(findings).toEqual([
      { what: 'wrong-lamp', probability: expect.closeTo(0.9, 12), lampIndex: 0, takenFor: 'helium' },
    ]);
    expect(lines[1]!.finding).toBeNull();
  });

  test('of a lamp without a name nothing is told', () => {
    const unnamed = { ...bench, known: [{ ...bench.known[0]!, name: '' }] };
    const explanations = [explanation(1, stated[1]!, { lampTakenFor: 'helium' })];
    expect(knownLineReport(unnamed, readings, explanations, straightCurve, settingVariance).findings).toEqual(
      [],
    );
  });
});
