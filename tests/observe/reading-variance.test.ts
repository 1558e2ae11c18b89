/** The variance of a reading and the budget that is printed are one list of terms. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { errorShares, readingVariance, varianceTerms } from '../../src/observe/reading-variance.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { validRecord } from '../fuzz/random-bench.ts';

const total = (terms: readonly { readonly variance: number }[]): number =>
  terms.reduce((sum, { variance }) => sum + variance, 0);

describe('the terms of a reading', () => {
  const bench = (instrument: object) => benchOf({ instrument });

  test('of one reading on one side: 1/√12 of a count, the next tick in one of fifty, one setting', () => {
    const terms = varianceTerms(errorShares(bench({ method: 'central', leastCount: "1'" })), 0.25);
    expect(terms.map(({ source }) => source)).toEqual(['resolution', 'next-tick', 'setting']);
    // GUM 4.3.7: a rectangle of full width 1' has the variance 1/12.
    [1 / 12, 0.02, 0.25].forEach((variance, i) => {
      expect(terms[i]!.variance).toBeCloseTo(variance, 12);
    });
  });

  test('of both sides: half of the resolution, and the part of the setting that a second side does not average out', () => {
    const shares = errorShares(bench({ method: 'both-sides', leastCount: "1'" }));
    expect(shares.settingShare).toBeCloseTo(0.4 + 0.6 / 2, 12);
    expect(shares.resolutionVariance).toBeCloseTo((1 / 12 + 0.02) / 2, 12);
  });

  test('repeats of both sides: the setting of the line stays, the rest falls with each reading', () => {
    const both = bench({ method: 'both-sides', leastCount: "1'" });
    expect(errorShares(both, 3).settingShare).toBeCloseTo(0.4 + 0.6 / 6, 12);
    // Repeats within a count share one rounding (GUM F.2.2.1), scattered ones average it out.
    const single = (1 / 12 + 0.02) / 2;
    expect(errorShares(both, 3, 1).resolutionVariance).toBeCloseTo(single, 12);
    expect(errorShares(both, 3, 1.01).resolutionVariance).toBeCloseTo(single / 3, 12);
  });

  test('two windows halve the resolution and not the setting', () => {
    const shares = errorShares(bench({ method: 'central', leastCount: "1'", windows: 2 }));
    expect(shares).toEqual({ resolutionVariance: (1 / 12 + 0.02) / 2, settingShare: 1 });
  });

  test('add up to the variance that is used', () => {
    const positive = fc.double({ min: 1e-6, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(positive, positive, positive, (resolutionVariance, settingShare, settingVariance) => {
        const shares = { resolutionVariance, settingShare };
        const used = readingVariance(shares, settingVariance);
        expect(total(varianceTerms(shares, settingVariance)) / used).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe('the budget of a line', () => {
  test('combines to the uncertainty of its wavelength, on every bench', () => {
    let lines = 0;
    fc.assert(
      fc.property(validRecord, (record) => {
        const read = readRecord(JSON.stringify(record));
        if (!read.ok) throw new Error('not a record');
        const { calibration, tubes } = analyseBench(read.bench);
        for (const { budget, wavelengthNm, standardUncertaintyNm } of tubes.flatMap((tube) => tube.lines)) {
          if (wavelengthNm === null || standardUncertaintyNm === null) {
            expect(budget).toEqual([]);
            continue;
          }
          lines += 1;
          const combined = Math.hypot(...budget.map((term) => term.standardUncertainty));
          const slope = Math.abs(calibration.curve!.slopeAt(wavelengthNm));
          expect(combined / slope / standardUncertaintyNm).toBeCloseTo(1, 9);
        }
      }),
      { numRuns: 40 },
    );
    expect(lines).toBeGreaterThan(50);
  });
});
