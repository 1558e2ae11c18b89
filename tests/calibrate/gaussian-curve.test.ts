/** Learning a curve reading by reading, against all readings at once in closed form (ml-matrix). */
import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { SCALE_KINDS } from '../../src/calibrate/assumptions.ts';
import { prismBasis } from '../../src/calibrate/curve/basis.ts';
import { benchPosterior, strayRange } from '../../src/calibrate/curve/bench-prior.ts';
import { catalogueTrend } from '../../src/calibrate/curve/catalogue-trend.computed.ts';
import { type GaussianConstants, learned, predicted } from '../../src/calibrate/curve/gaussian-curve.ts';
import { glasses, refractiveIndex } from '../../src/calibrate/curve/glasses.ts';
import { leastSquares } from '../../src/calibrate/curve/least-squares.ts';
import { minimumDeviationDeg } from '../../src/calibrate/curve/minimum-deviation.ts';
import { curvePosterior, mixedConstants } from '../../src/calibrate/curve/posterior.ts';
import { prismPrior, scalePriors } from '../../src/calibrate/curve/prism-prior.ts';
import { benchOf, GlassReader, recordOf } from './glass-bench.ts';

const prior = prismPrior('each-line', 180);
const n = prismBasis.size;
const readings = [
  { nm: 706.52, ordinate: 2960, variance: 0.5 },
  { nm: 587.56, ordinate: 3010.2, variance: 0.8 },
  { nm: 447.15, ordinate: 3130.9, variance: 0.5 },
  { nm: 402.62, ordinate: 3200.1, variance: 1.5 },
];
const matrixOf = (flat: ArrayLike<number>) => Matrix.from1DArray(n, n, Array.from(flat));

describe('a curve learned reading by reading', () => {
  let constants: GaussianConstants = prior;
  let log = 0;
  for (const { nm, ordinate, variance } of readings) {
    const expected = predicted(constants, prismBasis.at(nm));
    const total = expected.variance + variance;
    log += -0.5 * (Math.log(2 * Math.PI * total) + (ordinate - expected.ordinate) ** 2 / total);
    constants = learned(constants, prismBasis.at(nm), ordinate, variance);
  }

  test('is the curve of all readings at once: (P⁻¹ + F′V⁻¹F)⁻¹', () => {
    const f = new Matrix(readings.map(({ nm }) => [...prismBasis.at(nm)]));
    const weights = Matrix.diag(readings.map(({ variance }) => 1 / variance));
    const precision = inverse(matrixOf(prior.covariance));
    const covariance = inverse(Matrix.add(precision, f.transpose().mmul(weights).mmul(f)));
    const mean = covariance.mmul(
      Matrix.add(
        precision.mmul(Matrix.columnVector([...prior.mean])),
        f
          .transpose()
          .mmul(weights)
          .mmul(Matrix.columnVector(readings.map(({ ordinate }) => ordinate))),
      ),
    );
    for (let k = 0; k < n; k += 1) {
      const u = Math.sqrt(covariance.get(k, k));
      expect(Math.abs(constants.mean[k]! - mean.get(k, 0)) / u).toBeLessThan(1e-4);
      expect(Math.sqrt(constants.covariance[k * n + k]!) / u).toBeCloseTo(1, 4);
    }
  });

  test('has the evidence of all readings together, whatever their order', () => {
    const scatter = { grid: [{ variance: 1, logWeight: 0 }] };
    const points = readings.map(({ nm, ordinate, variance }) => ({
      wavelengthNm: nm,
      wavelengthVariance: 0,
      ordinate,
      resolutionVariance: variance,
      settingShare: 0,
    }));
    const there = curvePosterior(prismBasis, prior, points, scatter);
    const back = curvePosterior(prismBasis, prior, [...points].reverse(), scatter);
    expect(there.logEvidence).toBeCloseTo(log, 9);
    expect(back.logEvidence / there.logEvidence).toBeCloseTo(1, 7);
  });
});

describe('a mixture of two curves', () => {
  test('has the mean of both, and the spread between them beside their own (law of total covariance)', () => {
    const at = (mean: readonly number[], variance: number) => ({
      mean: [...mean],
      covariance: [variance, 0, 0, variance],
    });
    const mixed = mixedConstants([at([0, 1], 1), at([4, 1], 3)], [0.25, 0.75]);
    expect([...mixed.mean]).toEqual([3, 1]);
    expect([...mixed.covariance]).toEqual([0.25 + 2.25 + 0.25 * 9 + 0.75 * 1, 0, 0, 2.5]);
  });
});

describe('what is expected of a prism before the first reading', () => {
  const nm = [400, 450, 500, 550, 600, 650, 700];
  const constantsOf = (glass: (typeof glasses)[number], apexDeg: number) =>
    leastSquares(
      nm.map((each) => [...prismBasis.at(each)]),
      [nm.map((each) => 60 * minimumDeviationDeg(apexDeg, refractiveIndex(glass, each)))],
    )[0]!;

  test.each(glasses.map((glass) => [glass.name, glass] as const))(
    'holds %s, an apex of 58° too',
    (_name, glass) => {
      for (const apexDeg of [58, 60]) {
        const constants = constantsOf(glass, apexDeg);
        const { mean, covariance } = prismPrior('each-line', constants[1]!);
        const off = Matrix.columnVector(constants.map((value, k) => value - mean[k]!));
        const squared = off
          .transpose()
          .mmul(inverse(matrixOf(covariance)))
          .mmul(off)
          .get(0, 0);
        // Five constants: 99.9 % of what the prior expects lies within 20.5 (chi squared).
        expect(squared).toBeLessThan(20.5);
      }
    },
  );

  test('follows the trend of the catalogue', () => {
    const { levelTrend, c1Range } = catalogueTrend;
    // Dense flint deviates and disperses more than crown: SCHOTT's N-BK7 and SF glasses at 60°.
    expect(levelTrend[1]).toBeGreaterThan(0);
    expect(c1Range[0]).toBeGreaterThan(30);
    expect(c1Range[1]).toBeLessThan(400);
  });

  test('is wider where the dispersion is not known yet, and for a prism left where it was set', () => {
    const width = (which: ReturnType<typeof prismPrior>, k: number) => which.covariance[k * n + k]!;
    for (const k of [2, 3, 4]) {
      expect(width(prismPrior('each-line', null), k)).toBeGreaterThan(width(prior, k));
      expect(width(prismPrior('fixed', 180), k)).toBeGreaterThan(width(prior, k));
    }
  });

  test('of a scale: two kinds, level and rise left to the readings', () => {
    const kinds = scalePriors(50, 80, null);
    expect(kinds.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 12);
    for (const { prior: scale } of kinds) {
      expect([scale.mean[0], scale.mean[1]]).toEqual([50, 0]);
      expect(Math.sqrt(scale.covariance[0]!)).toBeCloseTo(3 * 80, 9);
      expect(Math.sqrt(scale.covariance[n + 1]!)).toBeCloseTo(2 * 80, 9);
    }
    // A dial that is even in the wavelength has the shape of the second kind, to 0.005 of its rise.
    const shape = [1, ...SCALE_KINDS[1].ratios];
    const dial = nm.map((each) =>
      prismBasis
        .at(each)
        .slice(1)
        .reduce((sum, f, k) => sum + f * shape[k]!, 0),
    );
    const [fit] = leastSquares(
      dial.map((value) => [1, value]),
      [nm],
    );
    nm.forEach((each, i) => {
      expect(Math.abs(fit![0]! + fit![1]! * dial[i]! - each) / 300).toBeLessThan(0.005);
    });
  });
});

describe('a reading that belongs to no line', () => {
  test('may lie anywhere over ten degrees, on a scale over what was read and a half', () => {
    const circle = benchOf(recordOf(new GlassReader()));
    expect(strayRange(circle, [])).toBe(600);
    const scale = benchOf({ instrument: { method: 'scale', leastCount: 0.5 } });
    const read = (ordinate: number) => ({ observation: { ordinate } }) as never;
    expect(strayRange(scale, [read(20), read(60)])).toBe(1.5 * 40 + 20 * 0.5);
  });

  test('readings of a known glass give its curve back with both priors', () => {
    const bench = benchOf(recordOf(new GlassReader()));
    const reader = new GlassReader();
    const points = [706.52, 587.56, 501.57, 447.15].map((wavelengthNm) => ({
      wavelengthNm,
      wavelengthVariance: 0,
      ordinate: reader.deviationArcmin(wavelengthNm),
      resolutionVariance: 0.01,
      settingShare: 0,
    }));
    const { constants } = benchPosterior(bench, [], points, { grid: [{ variance: 1, logWeight: 0 }] });
    for (const each of [420, 550, 690]) {
      const { ordinate, variance } = predicted(constants, prismBasis.at(each));
      expect(Math.abs(ordinate - reader.deviationArcmin(each))).toBeLessThan(3 * Math.sqrt(variance));
    }
  });
});
