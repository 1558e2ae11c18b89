/** The printed budget: each term at its place, as a standard uncertainty (JCGM 100:2008). */
import { describe, expect, test } from 'vitest';
import { lineBudget, uncertaintyBudget } from '../../src/calibrate/budget.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import { benchOf, GlassReader, recordOf } from './glass-bench.ts';

const bench = benchOf(recordOf(new GlassReader()));
/** A curve whose standard uncertainty is a thousandth of the wavelength. */
const curve = {
  rangeNm: [400, 700],
  covariance: (first: number, second: number) => first * second * 1e-6,
} as unknown as CalibrationCurve;

describe('the budget of a line in the middle of the known lines', () => {
  test('has the curve at 550 nm, the middle of 400 to 700', () => {
    const terms = uncertaintyBudget(bench, lampOrigin(bench), 0.25, curve);
    expect(terms.map(({ source, sharedByAllLines }) => [source, sharedByAllLines])).toEqual([
      ['resolution', false],
      ['next-tick', false],
      ['setting', false],
      ['central-image', true],
      ['curve', true],
    ]);
    expect(terms.at(-1)).toMatchObject({ at: 550, standardUncertainty: expect.closeTo(0.55, 12) });
    expect(terms[2]!.standardUncertainty).toBeCloseTo(0.5, 12);
    // One reading of the central image: as one of a line, 1/12 and the next tick, and one setting.
    expect(terms[3]!.standardUncertainty).toBeCloseTo(Math.sqrt(1 / 12 + 0.02 + 0.25), 12);
  });

  test('has neither curve nor central image where there is none', () => {
    const none = { ...lampOrigin(bench), central: null };
    const sources = uncertaintyBudget(bench, none, 0.25, null).map(({ source }) => source);
    expect(sources).toEqual(['resolution', 'next-tick', 'setting']);
  });
});

describe('the budget of a line of a tube', () => {
  test('has the curve at its wavelength, and what the tube shares where it shares something', () => {
    const own = [{ source: 'setting' as const, variance: 0.04 }];
    expect(lineBudget(own, 0.09, curve, 600)).toEqual([
      { source: 'setting', standardUncertainty: expect.closeTo(0.2, 12), sharedByAllLines: false, at: null },
      {
        source: 'central-image',
        standardUncertainty: expect.closeTo(0.3, 12),
        sharedByAllLines: true,
        at: null,
      },
      { source: 'curve', standardUncertainty: expect.closeTo(0.6, 12), sharedByAllLines: true, at: 600 },
    ]);
    expect(lineBudget(own, 0, curve, 600).map(({ source }) => source)).toEqual(['setting', 'curve']);
  });
});
