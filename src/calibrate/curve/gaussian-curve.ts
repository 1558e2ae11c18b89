/**
 * A curve with normally distributed constants, learned reading by reading.
 * Formulae: the recursive least squares of C. F. Gauss in covariance form (R. E. Kalman, J. Basic Eng. 82, 35 (1960)).
 */
import { bilinear } from '../../numeric/symmetric.ts';

/** In plain lists: small typed arrays are dear to make, and a search makes one for each step. */
export interface GaussianConstants {
  readonly mean: readonly number[];
  readonly covariance: readonly number[];
}

/** Ordinate that the curve gives, and its variance, at basis values `f`. */
export function predicted(
  constants: GaussianConstants,
  f: readonly number[],
): { ordinate: number; variance: number } {
  const { mean, covariance } = constants;
  let ordinate = 0;
  for (let k = 0; k < f.length; k += 1) ordinate += f[k]! * mean[k]!;
  return { ordinate, variance: Math.max(0, bilinear(f, covariance, f, f.length)) };
}

/** The constants after one more reading `ordinate` with variance `variance` at basis values `f`. */
export function learned(
  constants: GaussianConstants,
  f: readonly number[],
  ordinate: number,
  variance: number,
): GaussianConstants {
  const n = f.length;
  const { mean, covariance } = constants;
  const gain: number[] = [];
  let total = variance;
  let residual = ordinate;
  for (let row = 0; row < n; row += 1) {
    let sum = 0;
    for (let column = 0; column < n; column += 1) sum += covariance[row * n + column]! * f[column]!;
    gain.push(sum);
    total += sum * f[row]!;
    residual -= f[row]! * mean[row]!;
  }
  const nextMean = mean.slice();
  const nextCovariance = covariance.slice();
  for (let row = 0; row < n; row += 1) {
    nextMean[row]! += (gain[row]! * residual) / total;
    for (let column = 0; column < n; column += 1)
      nextCovariance[row * n + column]! -= (gain[row]! * gain[column]!) / total;
  }
  return { mean: nextMean, covariance: nextCovariance };
}
