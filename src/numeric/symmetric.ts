/** Small symmetric matrices, row-major, for covariances of a handful of constants. */

/** f' M g for vectors f and g. */
export function bilinear(
  f: ArrayLike<number>,
  matrix: Readonly<Float64Array>,
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

/** Eigenvalues and eigenvectors by cyclic Jacobi rotations (Golub & Van Loan, Matrix Computations, sec. 8.5). */
export function eigenSymmetric(matrix: Readonly<Float64Array>, n: number): EigenDecomposition {
  const a = Float64Array.from(matrix);
  const v = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) v[i * n + i] = 1;
  for (let sweep = 0; sweep < 60; sweep += 1) {
    let off = 0;
    let diagonal = 0;
    for (let i = 0; i < n; i += 1) {
      diagonal += a[i * n + i]! ** 2;
      for (let j = i + 1; j < n; j += 1) off += a[i * n + j]! ** 2;
    }
    if (off <= 1e-26 * diagonal) break;
    for (let p = 0; p < n; p += 1) for (let q = p + 1; q < n; q += 1) rotate(a, v, n, p, q);
  }
  const order = Array.from({ length: n }, (_, i) => i).sort((i, j) => a[j * n + j]! - a[i * n + i]!);
  return {
    values: order.map((i) => a[i * n + i]!),
    vectors: order.map((i) => Float64Array.from({ length: n }, (_, row) => v[row * n + i]!)),
  };
}

function rotate(a: Float64Array, v: Float64Array, n: number, p: number, q: number): void {
  const apq = a[p * n + q]!;
  if (apq === 0) return;
  const theta = (a[q * n + q]! - a[p * n + p]!) / (2 * apq);
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  const s = t * c;
  for (let k = 0; k < n; k += 1) {
    const akp = a[k * n + p]!;
    const akq = a[k * n + q]!;
    a[k * n + p] = c * akp - s * akq;
    a[k * n + q] = s * akp + c * akq;
  }
  for (let k = 0; k < n; k += 1) {
    const apk = a[p * n + k]!;
    const aqk = a[q * n + k]!;
    a[p * n + k] = c * apk - s * aqk;
    a[q * n + k] = s * apk + c * aqk;
    const vkp = v[k * n + p]!;
    const vkq = v[k * n + q]!;
    v[k * n + p] = c * vkp - s * vkq;
    v[k * n + q] = s * vkp + c * vkq;
  }
}
