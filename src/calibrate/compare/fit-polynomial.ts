import { Matrix, QrDecomposition } from 'ml-matrix';
import { PolynomialRegression } from 'ml-regression-polynomial';
import { sumOf } from '../../numeric/sum.ts';

/** An ordinary least-squares polynomial y = b0 + b1 x + ... with its statistics, all in the caller's x. */
export interface PolynomialFit {
  readonly degree: number;
  /** Ascending powers of x. */
  readonly coefficients: readonly number[];
  /** Null when there are as many coefficients as points: the scatter cannot be known then. */
  readonly standardErrors: readonly number[] | null;
  /** Covariance of the coefficients, row-major; null likewise. */
  readonly covariance: readonly (readonly number[])[] | null;
  readonly residuals: readonly number[];
  predict(x: number): number;
}

/**
 * Least-squares polynomial of the given degree.
 *
 * x is first mapped to u = (x - middle)/halfRange: the regression package solves the normal equations, whose
 * condition grows with the 2·degree-th power of an unscaled x and spoils the result without a word. The
 * covariance is s²(F'F)^-1 from a QR decomposition of the scaled design matrix, carried back to x
 * (Draper & Smith, Applied Regression Analysis, 3rd ed., chapter 5).
 *
 * Throws RangeError for unequal lengths, a value that is not finite, too few points or too few distinct x.
 */
export function fitPolynomial(x: readonly number[], y: readonly number[], degree: number): PolynomialFit {
  checkArguments(x, y, degree);
  const lowest = Math.min(...x);
  const highest = Math.max(...x);
  const middle = (lowest + highest) / 2;
  const halfRange = (highest - lowest) / 2 || 1;
  const u = x.map((value) => (value - middle) / halfRange);
  const scaled = refined(u, y, new PolynomialRegression(u, [...y], degree).coefficients);

  const back = backTransformation(degree, middle, halfRange);
  const residuals = y.map((value, i) => value - horner(scaled, u[i]!));
  const freedom = x.length - (degree + 1);
  const variance = sumOf(residuals, (residual) => residual * residual) / freedom;
  const covariance = freedom > 0 ? coefficientCovariance(u, degree, back, variance) : null;
  return {
    degree,
    coefficients: back.mmul(Matrix.columnVector(scaled)).to1DArray(),
    standardErrors: covariance ? covariance.map((row, i) => Math.sqrt(row[i]!)) : null,
    covariance,
    residuals,
    predict: (at) => horner(scaled, (at - middle) / halfRange),
  };
}

function checkArguments(x: readonly number[], y: readonly number[], degree: number): void {
  if (!Number.isInteger(degree) || degree < 0)
    throw new RangeError(`a degree must be 0, 1, 2 ...: ${degree}`);
  if (x.length !== y.length) throw new RangeError(`${x.length} values of x but ${y.length} of y`);
  for (const value of [...x, ...y])
    if (!Number.isFinite(value)) throw new RangeError(`a value is not finite: ${value}`);
  const distinct = new Set(x).size;
  if (distinct < degree + 1) {
    throw new RangeError(`degree ${degree} needs ${degree + 1} different values of x; there are ${distinct}`);
  }
}

function horner(coefficients: readonly number[], u: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * u + coefficient, 0);
}

function designMatrix(u: readonly number[], degree: number): Matrix {
  return new Matrix(u.map((value) => Array.from({ length: degree + 1 }, (_, power) => value ** power)));
}

/** One step of iterative refinement by QR takes off what the normal equations left in the last digits. */
function refined(u: readonly number[], y: readonly number[], start: readonly number[]): number[] {
  const decomposition = new QrDecomposition(designMatrix(u, start.length - 1));
  const left = y.map((value, i) => value - horner(start, u[i]!));
  const step = decomposition.solve(Matrix.columnVector(left)).to1DArray();
  return start.map((coefficient, i) => coefficient + step[i]!);
}

/** Matrix T with b = T a, where sum a_k ((x - m)/h)^k = sum b_j x^j (binomial expansion). */
function backTransformation(degree: number, middle: number, halfRange: number): Matrix {
  const transformation = Matrix.zeros(degree + 1, degree + 1);
  for (let k = 0; k <= degree; k += 1) {
    let binomial = 1;
    for (let j = k; j >= 0; j -= 1) {
      transformation.set(j, k, (binomial * (-middle) ** (k - j)) / halfRange ** k);
      binomial = (binomial * j) / (k - j + 1);
    }
  }
  return transformation;
}

function coefficientCovariance(
  u: readonly number[],
  degree: number,
  back: Matrix,
  variance: number,
): number[][] {
  const upper = new QrDecomposition(designMatrix(u, degree)).upperTriangularMatrix;
  // (F'F)^-1 = R^-1 R^-T
  const inverse = new QrDecomposition(upper).solve(Matrix.eye(degree + 1));
  const root = back.mmul(inverse);
  return root.mmul(root.transpose()).mul(variance).to2DArray();
}
