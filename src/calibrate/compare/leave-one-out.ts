/**
 * How well curves predict a line that is left out: the prism curve beside those that a laboratory would fit.
 * Leave-one-out residuals without refitting: what a point misses the curve through the others by is its residual
 * over 1 - h, h its leverage (D. M. Allen's PRESS, Technometrics 16, 125 (1974)).
 */
import { Matrix, QrDecomposition } from 'ml-matrix';
import { sumOf } from '../../numeric/sum.ts';
import { FEWEST_TO_SPARE_ONE } from '../assumptions.ts';
import { predicted } from '../curve/gaussian-curve.ts';
import { type CurvePoint, type CurvePosterior, pointVariance } from '../curve/posterior.ts';
import type { CurveChoice } from '../findings.ts';
import type { CurveRival } from '../types.ts';

/** `rivals`: the other curves, of which the best is named. */
export function curveChoice(
  points: readonly CurvePoint[],
  posterior: CurvePosterior,
  rivals: readonly CurveRival[],
): CurveChoice {
  const [best] = rivals
    .flatMap(({ name, leaveOneOutRms: rms, refused }) =>
      refused === null && rms !== null ? [{ model: name, leaveOneOutRms: rms }] : [],
    )
    .sort((a, b) => a.leaveOneOutRms - b.leaveOneOutRms);
  return {
    model: posterior.basis.name,
    leaveOneOutRms: points.length < FEWEST_TO_SPARE_ONE ? null : leftOutScatter(points, posterior),
    lines: points.length,
    other: best ?? null,
  };
}

/**
 * Leave-one-out scatter of the prism curve, whose prior holds it where a left-out line no longer does. Null where a
 * line alone holds the curve.
 */
function leftOutScatter(points: readonly CurvePoint[], posterior: CurvePosterior): number | null {
  const { basis, constants, settingVariance } = posterior;
  const at = points.map((point) => {
    const slope = predicted(constants, basis.slopeAt(point.wavelengthNm)).ordinate;
    const { ordinate, variance } = predicted(constants, basis.at(point.wavelengthNm));
    const leverage = variance / pointVariance(point, settingVariance, slope);
    return { residual: point.ordinate - ordinate, leverage: Math.min(leverage, 1) };
  });
  return leaveOneOutRms(
    at.map(({ residual }) => residual),
    at.map(({ leverage }) => leverage),
  );
}

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
