/** A central image that was misread, a bench that was moved: from where on they are told, and how probable they are. */
import { describe, expect, test } from 'vitest';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { centralFindings, centralIsOpposite } from '../../src/calibrate/central-findings.ts';
import type { CheckedLine } from '../../src/calibrate/types.ts';
import { benchConstants } from '../../src/observe/bench-constants.ts';
import { movedProbability } from '../../src/observe/bench-move.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import type { Bench } from '../../src/record/bench.ts';
import { resolution } from '../observe/by-hand.ts';
import { benchOf } from './glass-bench.ts';
import { straightCurve } from './straight-curve.ts';

const settingVariance = 0.5;
const knocked = { sd: 12, reach: 300 };

function found(
  bench: Bench,
  checks: readonly CheckedLine[] = [],
  curve: typeof straightCurve | null = straightCurve,
) {
  const state = { origin: lampOrigin(bench), constants: benchConstants(bench), settingVariance };
  return centralFindings(bench, checks, curve, state);
}

describe('a central image read in the opposite window', () => {
  const far = 60 * 100 + 1;
  test.each([
    ['most of the lines far off', [far, far, 3000], true],
    ['half of them', [far, 3000], false],
    ['a single line', [far], false],
    ['just not far enough', [far - 1, far - 1], false],
    ['no line', [], false],
  ])('%s: %s', (_, deviations, expected) => expect(centralIsOpposite(deviations)).toBe(expected));

  const benchAt = (deviationsDeg: readonly number[]) =>
    benchOf({
      instrument: { method: 'central', leastCount: "1'" },
      central: ["100°00'"],
      known: {
        lamp: 'mercury',
        lines: deviationsDeg.map((deg, i) => ({
          wavelengthNm: 500 + i,
          readings: [formatAngle(100 + deg, 1)],
        })),
      },
      unknown: [],
    });

  test('is told of a bench', () => {
    expect(found(benchAt([130, 131, 132]))).toEqual([{ what: 'opposite-window' }]);
    expect(found(benchAt([50, 51, 52]))).toEqual([]);
  });

  test('and not without a central image', () => {
    const { central: _, ...bench } = benchAt([130, 131, 132]);
    expect(found({ ...bench, central: [] })).toEqual([]);
  });
});

test('central readings that lie apart are told as they are found', () => {
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: ["100°00'", "100°30'"],
    known: [],
    unknown: [],
  });
  expect(found(bench)).toMatchObject([
    { what: 'central-apart', found: { spreadArcmin: expect.closeTo(30, 6) } },
  ]);
});

describe('with both sides, the central image', () => {
  const benchWith = (offArcmin: number) =>
    benchOf({
      instrument: { method: 'both-sides', leastCount: "1'" },
      central: [formatAngle(181 + offArcmin / 60, 1)],
      known: {
        lamp: 'mercury',
        lines: [48, 49, 50].map((deg, i) => ({
          wavelengthNm: 600 - 30 * i,
          readings: [{ left: formatAngle(181 + deg, 1), right: formatAngle(181 - deg, 1) }],
        })),
      },
      unknown: [],
    });
  const variance = 1.5 * (resolution(1) + settingVariance);
  const noticed = Math.ceil(4 * Math.sqrt(variance) + 1);

  test('is to lie midway between them', () => {
    expect(found(benchWith(noticed - 1))).toEqual([]);
    expect(found(benchWith(1 - noticed))).toEqual([]);
    for (const off of [noticed, -noticed, 20]) {
      expect(found(benchWith(off))).toEqual([
        {
          what: 'central-off-middle',
          probability: expect.closeTo(movedProbability(off, variance, knocked), 6),
          readDeg: expect.closeTo(181 + off / 60, 9),
          middleDeg: expect.closeTo(181, 9),
        },
      ]);
    }
  });

  test('is compared with nothing where there is none, or no middle', () => {
    expect(found({ ...benchWith(40), central: [] })).toEqual([]);
    expect(found({ ...benchWith(40), known: [] })).toEqual([]);
  });
});

describe('known lines read again', () => {
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: ["100°00'"],
    known: [],
    unknown: [],
  });
  const own = 0.6;
  const check = (residual: number | null): CheckedLine => ({
    wavelengthNm: 546,
    ordinate: 0,
    residual,
    standardUncertainty: residual === null ? null : Math.sqrt(own + 0.04),
  });

  test.each([
    [[3.21], own + 0.04],
    [[1, 3.8], own / 2 + 0.04],
    [[-1, -3.8, null], own / 2 + 0.04],
  ] as const)(
    'that lie off by %j have moved by their mean, the error of the curve being common to them',
    (residuals, variance) => {
      const read: number[] = residuals.filter((each) => each !== null);
      const shift = read.reduce((a, b) => a + b) / read.length;
      const limit = 4 * Math.sqrt(variance);
      const scaled = (factor: number) =>
        found(
          bench,
          residuals.map((each) => check(each === null ? null : each * factor)),
        );
      expect(scaled((limit - 0.01) / Math.abs(shift))).toEqual([]);
      const moved = Math.sign(shift) * (limit + 0.01);
      expect(scaled(moved / shift)).toEqual([
        {
          what: 'check-moved',
          probability: expect.closeTo(movedProbability(moved, variance, knocked), 6),
          checks: read.length,
          shift: expect.closeTo(moved, 9),
        },
      ]);
    },
  );

  test('on a scale are judged by the length of its spectrum', () => {
    const scale = { ...bench, method: 'scale' as const };
    const [moved] = found(scale, [check(20)]);
    // 395 to 715 nm, of which the curve reaches 400 to 700: 600 units.
    expect(moved).toMatchObject({
      probability: expect.closeTo(movedProbability(20, own + 0.04, { sd: 36, reach: 600 }), 9),
    });
  });

  test('say nothing without a curve, nor where there is none', () => {
    expect(found(bench, [check(50)], null)).toEqual([]);
    expect(found(bench, [check(null)])).toEqual([]);
    expect(found(bench, [])).toEqual([]);
  });
});
