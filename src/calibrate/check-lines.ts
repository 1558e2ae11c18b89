/** Known lines kept out of the fit: how they lie on the curve that they are no part of. */

import { observe } from '../observe/observation.ts';
import type { Origin } from '../observe/origin.ts';
import { readingVariance } from '../observe/reading-variance.ts';
import type { Bench } from '../record/bench.ts';
import type { CalibrationCurve, CheckedLine } from './types.ts';

/** One for each check line of the bench, in its order. `settingVariance`: of one setting, unit². */
export function checkedLines(
  bench: Bench,
  curve: CalibrationCurve | null,
  { central }: Origin,
  settingVariance: number,
): CheckedLine[] {
  return bench.check.map(({ settings, wavelengthNm }) => {
    const observation = observe(bench, settings, central);
    const ordinate = observation?.ordinate ?? null;
    const [shortest, longest] = curve?.domainNm ?? [0, 0];
    const isReached = wavelengthNm >= shortest && wavelengthNm <= longest;
    if (observation === null || curve === null || !isReached)
      return { wavelengthNm, ordinate, residual: null, standardUncertainty: null };
    const own = readingVariance(observation, settingVariance);
    return {
      wavelengthNm,
      ordinate,
      residual: observation.ordinate - curve.ordinateAt(wavelengthNm),
      standardUncertainty: Math.sqrt(own + curve.covariance(wavelengthNm, wavelengthNm)),
    };
  });
}
