/** The fits beside numpy and scipy in the same run. */
import { describe, expect, test } from 'vitest';
import { fitPolynomial } from '../../src/calibrate/compare/fit-polynomial.ts';
import { type CurveBasis, prismBasis } from '../../src/calibrate/curve/basis.ts';
import { curvePosterior } from '../../src/calibrate/curve/posterior.ts';
import { largestDifference, python, pythonMissing } from '../numeric/python.ts';
import { GlassReader, heliumNm } from './glass-bench.ts';

const reader = new GlassReader();
/** Readings with an error that belongs to the line: enough scatter for a covariance. */
const points = heliumNm.map((nm, i) => ({
  nm,
  ordinate: reader.deviationArcmin(nm) + 0.8 * Math.sin(5 * i + 1),
  variance: 0.2 + 0.1 * (i % 4),
}));
const y = points.map(({ ordinate }) => ordinate);

/** A weighted least-squares problem; the covariance is scaled by the residuals where no variances are given. */
interface Problem {
  readonly design: readonly (readonly number[])[];
  readonly variances: readonly number[] | null;
  /** Variance of each constant about 0 beforehand, as one more reading of it. */
  readonly prior: number | null;
}

interface Solution {
  readonly coefficients: number[];
  readonly covariance: number[][];
}

/** All problems in one start of Python: QR of the weighted design. */
const solveInPython = (problems: readonly Problem[]): Solution[] =>
  python<Solution[]>(
    `
import numpy, scipy.linalg
def solve(problem):
    design, y = numpy.array(problem["design"]), numpy.array(given["y"])
    n = design.shape[1]
    if problem["variances"]:
        weight = 1 / numpy.sqrt(problem["variances"])
        design, y = design * weight[:, None], y * weight
    if problem["prior"]:
        design = numpy.vstack([design, numpy.eye(n) / numpy.sqrt(problem["prior"])])
        y = numpy.concatenate([y, numpy.zeros(n)])
    coefficients = scipy.linalg.lstsq(design, y)[0]
    inverse = scipy.linalg.solve_triangular(scipy.linalg.qr(design, mode="economic")[1], numpy.eye(n))
    covariance = inverse @ inverse.T
    if not problem["variances"]:
        residuals = y - design @ coefficients
        covariance = covariance * float(residuals @ residuals) / (len(y) - n)
    return {"coefficients": coefficients.tolist(), "covariance": covariance.tolist()}
answer = [solve(problem) for problem in given["problems"]]`,
    { y, problems },
  );

const degrees = [1, 2, 3];

/** The first functions of the prism curve. */
function ofDegree(degree: number): CurveBasis {
  const size = degree + 1;
  return {
    ...prismBasis,
    size,
    at: (nm) => prismBasis.at(nm).slice(0, size),
    slopeAt: (nm) => prismBasis.slopeAt(nm).slice(0, size),
  };
}

describe.skipIf(pythonMissing)('beside scipy', () => {
  test('polynomials of degree 1 to 3 in 1/λ²: coefficients and covariance to 1e-9', () => {
    const x = points.map(({ nm }) => (1000 / nm) ** 2);
    const reference = solveInPython(
      degrees.map((degree) => ({
        design: x.map((value) => Array.from({ length: degree + 1 }, (_, power) => value ** power)),
        variances: null,
        prior: null,
      })),
    );
    degrees.forEach((degree, i) => {
      const fit = fitPolynomial(x, y, degree);
      expect(largestDifference(fit.coefficients, reference[i]!.coefficients)).toBeLessThan(1e-9);
      expect(largestDifference(fit.covariance!.flat(), reference[i]!.covariance.flat())).toBeLessThan(1e-9);
    });
  });

  test.each([
    // A prior of ±100′ beside readings to half a minute.
    { priorVariance: 1e4, means: 1e-9, covariances: 1e-9 },
    // Ten times the deviations themselves: as good as none. Learning reading by reading costs some digits then.
    { priorVariance: 1e9, means: 1e-6, covariances: 1e-5 },
  ])(
    'curves with a prior variance of $priorVariance: means to $means, covariances to $covariances',
    (limits) => {
      const bases = degrees.map(ofDegree);
      const reference = solveInPython(
        bases.map((basis) => ({
          design: points.map(({ nm }) => [...basis.at(nm)]),
          variances: points.map(({ variance }) => variance),
          prior: limits.priorVariance,
        })),
      );
      bases.forEach((basis, i) => {
        const n = basis.size;
        const covariance = new Array<number>(n * n).fill(0);
        for (let k = 0; k < n; k += 1) covariance[k * n + k] = limits.priorVariance;
        const { constants } = curvePosterior(
          basis,
          { mean: new Array<number>(n).fill(0), covariance },
          points.map(({ nm, ordinate, variance }) => ({
            wavelengthNm: nm,
            wavelengthVariance: 0,
            ordinate,
            resolutionVariance: variance,
            settingShare: 0,
          })),
          { grid: [{ variance: 1, logWeight: 0 }] },
        );
        expect(largestDifference([...constants.mean], reference[i]!.coefficients)).toBeLessThan(limits.means);
        expect(largestDifference([...constants.covariance], reference[i]!.covariance.flat())).toBeLessThan(
          limits.covariances,
        );
      });
    },
  );
});
