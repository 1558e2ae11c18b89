/** The shift that all readings of a tube share: the weighed mean of readings less lines, told where it is significant. */
import { describe, expect, test } from 'vitest';
import { FEWEST_MATCHED, SIGNIFICANT_SHIFT } from '../../src/identify/assumptions.ts';
import { commonShift } from '../../src/identify/bench/common-shift.ts';
import type { Assumption, Evidence } from '../../src/identify/evidence/candidate-evidence.ts';
import type { ModelLine } from '../../src/identify/spectrum/expected-lines.ts';

interface Given {
  /** Reading less line, and the reading's variance; null: a reading without a line. */
  readonly offs: readonly (readonly [off: number, variance: number] | null)[];
  readonly explanation?: 'plain' | 'central-misread' | 'moved';
  readonly shift?: number;
  readonly offsetVariance?: number;
  readonly curveVariance?: number;
}

function shiftOf({ offs, explanation = 'plain', shift = 0, offsetVariance = 0, curveVariance = 0 }: Given) {
  const readings = offs.map((each, i) => ({
    ordinate: 100 * i + (each?.[0] ?? 7),
    totalVariance: each?.[1] ?? 1,
  }));
  const matched = offs.map((each, i) =>
    each === null ? null : ({ ordinate: 100 * i, wavelengthNm: 500 + i } as ModelLine),
  );
  const view = { explanation, shift, offsetVariance, curve: { covariance: () => curveVariance } };
  return commonShift(
    { readings } as unknown as Evidence,
    { likelihoods: { view } } as unknown as Assumption,
    matched,
  );
}

describe('a common shift', () => {
  // JCGM 100:2008 (GUM) leaves the weighed mean to statistics: weights 1/variance, variance 1/Σ of them.
  test('is the mean, each reading weighed by its own variance', () => {
    const found = shiftOf({
      offs: [
        [20, 1],
        [30, 4],
        [20, 1],
      ],
    })!;
    expect(found.value).toBeCloseTo((20 + 30 / 4 + 20) / 2.25, 9);
    expect(found.u).toBeCloseTo(Math.sqrt(1 / 2.25), 9);
  });

  test('is no better known than the curve and the central image are', () => {
    const { u } = shiftOf({ offs: Array(4).fill([20, 1]), curveVariance: 3, offsetVariance: 2 })!;
    expect(u).toBeCloseTo(Math.sqrt(1 / 4 + 3 + 2), 9);
  });

  test('is what the understanding of the bench shifts and what the readings add to it', () => {
    expect(shiftOf({ offs: Array(4).fill([2, 0.01]), explanation: 'moved', shift: 20 })!.value).toBeCloseTo(
      22,
      9,
    );
  });

  test('leaves readings without a line out', () => {
    expect(shiftOf({ offs: [[20, 1], null, [20, 1], [20, 1]] })!.value).toBeCloseTo(20, 9);
  });

  test.each([
    ['below', 0.99],
    ['above', 1.01],
  ])('just %s so many u is told or not', (where, factor) => {
    const off = factor * SIGNIFICANT_SHIFT * 0.5;
    expect(shiftOf({ offs: Array(4).fill([off, 1]) }) !== null).toBe(where === 'above');
    expect(shiftOf({ offs: Array(4).fill([-off, 1]) }) !== null).toBe(where === 'above');
  });

  test('of fewer lines than tell it from wrong lines is none', () => {
    expect(shiftOf({ offs: Array(FEWEST_MATCHED - 1).fill([20, 1]) })).toBeNull();
    expect(shiftOf({ offs: Array(FEWEST_MATCHED).fill([20, 1]) })).not.toBeNull();
    expect(shiftOf({ offs: [null, null] })).toBeNull();
  });

  test('of a central image misread is what was misread, however few the readings', () => {
    expect(shiftOf({ offs: [[0.3, 1]], explanation: 'central-misread', shift: 30 })).toMatchObject({
      value: 30,
    });
    expect(shiftOf({ offs: [null], explanation: 'central-misread', shift: 30, offsetVariance: 4 })).toEqual({
      value: 30,
      u: 2,
    });
  });
});
