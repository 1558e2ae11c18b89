/** A calibration curve that anybody can work out by hand: a straight line, known everywhere to the same 0.2'. */
import type { CalibrationCurve } from '../../src/calibrate/types.ts';

export const straightCurve: CalibrationCurve = {
  unit: 'arcmin',
  rangeNm: [404.66, 690.75],
  domainNm: [400, 700],
  ordinateAt: (nm) => 4000 - 2 * nm,
  slopeAt: () => -2,
  covariance: () => 0.04,
  wavelengthAt: () => null,
};
