/**
 * Leave-one-out residuals without refitting: what a point misses the curve through the others by is its residual
 * over 1 - h, h its leverage (D. M. Allen's PRESS, Technometrics 16, 125 (1974)).
 */
import { Matrix, QrDecomposition } from 'ml-matrix';
import { sumOf } from '../../numeric/sum.ts';

/** Root mean square of leave-one-out residuals; null where a point alone holds the curve (leverage 1). */
export function leaveOneOutRms(residuals: readonly number[], leverages: readonly number[]): number | null {
  let sum = 0;
  for (const [i, residual] of residuals.entries()) {
    const free = 1 - leverages[i]!;
    if (!(free > 1e-9)) return null;
    sum += (residual / free) ** 2;
  }
  return Math.sqrt(sum / residuals.length);
}

/**
 * Leverage of each row of a least-squares design: the diagonal of F (F'F)^-1 F', from its QR decomposition.
 * Columns may differ widely in size; they are scaled first.
 */
export function leverages(design: readonly (readonly number[])[]): number[] {
  const columns = design[0]?.length ?? 0;
  const sizes = Array.from({ length: columns }, (_, k) => Math.hypot(...design.map((row) => row[k]!)) || 1);
  const scaled = design.map((row) => row.map((value, k) => value / sizes[k]!));
  const { orthogonalMatrix } = new QrDecomposition(new Matrix(scaled));
  return orthogonalMatrix.to2DArray().map((row) => sumOf(row, (value) => value * value));
}
