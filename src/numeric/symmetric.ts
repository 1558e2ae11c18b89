/** Small symmetric matrices, row-major, for covariances of a handful of constants. */
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';

/** f' M g for vectors f and g. */
export function bilinear(
  f: ArrayLike<number>,
  matrix: ArrayLike<number>,
  g: ArrayLike<number>,
  n: number,
): number {
  let sum = 0;
  for (let row = 0; row < n; row += 1) {
    let inner = 0;
    for (let column = 0; column < n; column += 1) inner += matrix[row * n + column]! * g[column]!;
    sum += f[row]! * inner;
  }
  return sum;
}

export interface EigenDecomposition {
  /** Descending. */
  readonly values: number[];
  /** vectors[k] belongs to values[k], unit length. */
  readonly vectors: Float64Array[];
}

/** Eigenvalues and eigenvectors of a symmetric matrix, by ml-matrix. */
export function eigenSymmetric(matrix: Readonly<Float64Array>, n: number): EigenDecomposition {
  const rows = Array.from({ length: n }, (_, row) => matrix.subarray(row * n, (row + 1) * n));
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(new Matrix(rows), {
    assumeSymmetric: true,
  });
  const descending = realEigenvalues
    .map((_, k) => k)
    .sort((a, b) => realEigenvalues[b]! - realEigenvalues[a]!);
  return {
    values: descending.map((k) => realEigenvalues[k]!),
    vectors: descending.map((k) => Float64Array.from(eigenvectorMatrix.getColumn(k))),
  };
}
