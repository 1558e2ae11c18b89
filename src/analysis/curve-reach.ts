/** How good a calibration is over the range of its known lines. */
import type { CalibrationCurve } from '../calibrate/types.ts';

export interface CurveReach {
  /** The range of the known lines, nm. */
  readonly fromNm: number;
  readonly toNm: number;
  /** Largest standard uncertainty of a wavelength on the curve within it, nm; that of the reading comes on top. */
  readonly worstNm: number;
}

const STEP_NM = 5;

/** Null where the curve gives no wavelength somewhere in its range. */
export function curveReach(curve: CalibrationCurve): CurveReach | null {
  const [fromNm, toNm] = curve.rangeNm;
  const steps = Math.max(1, Math.ceil((toNm - fromNm) / STEP_NM));
  const uncertainties = Array.from({ length: steps + 1 }, (_, at) => {
    const nm = fromNm + ((toNm - fromNm) * at) / steps;
    return curve.wavelengthAt(curve.ordinateAt(nm), 0)?.standardUncertaintyNm ?? Number.POSITIVE_INFINITY;
  });
  const worstNm = Math.max(...uncertainties);
  return Number.isFinite(worstNm) ? { fromNm, toNm, worstNm } : null;
}
