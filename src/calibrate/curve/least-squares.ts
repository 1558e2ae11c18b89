import { Matrix, QrDecomposition } from 'ml-matrix';

/**
 * The linear least-squares constants of `design` · c = y for any number of right-hand sides over one design
 * (each `ys[k]` as long as the design), through one QR decomposition.
 * Throws RangeError when the rows cannot determine the constants.
 */
export function leastSquares(
  design: readonly (readonly number[])[],
  ys: readonly (readonly number[])[],
): number[][] {
  const decomposition = new QrDecomposition(new Matrix(design.map((row) => [...row])));
  if (!decomposition.isFullRank())
    throw new RangeError('the points do not determine the constants of the curve');
  return decomposition
    .solve(new Matrix(ys.map((y) => [...y])).transpose())
    .transpose()
    .to2DArray();
}
