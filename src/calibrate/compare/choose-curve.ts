/** How well the prism curve predicts a line that is left out of it, beside the curves that a laboratory would fit. */
import { FEWEST_TO_SPARE_ONE } from '../assumptions.ts';
import { predicted } from '../curve/gaussian-curve.ts';
import { type CurvePoint, type CurvePosterior, pointVariance } from '../curve/posterior.ts';
import type { CurveChoice } from '../findings.ts';
import type { CurveRival } from '../types.ts';
import { leaveOneOutRms } from './leave-one-out.ts';

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
