/** Known lines kept out of the fit: how they lie on the curve that they are no part of. */
import { isMoved, observeWithLamp } from '../observe/origin.ts';
import { readingVariance } from '../observe/reading-variance.ts';
import type { Bench } from '../record/bench.ts';
import type { CalibrationCurve, CheckedLine } from './types.ts';

/**
 * One for each check line of the bench, in its order; those of a lamp that was read before the bench was moved against
 * `curve`, all others against `curveNow`. `settingVariance`: of one setting, unit².
 */
export function checkedLines(
  bench: Bench,
  {
    curve,
    curveNow,
  }: { readonly curve: CalibrationCurve | null; readonly curveNow: CalibrationCurve | null },
  settingVariance: number,
): CheckedLine[] {
  const { length } = bench.known;
  return bench.check.map(({ settings, wavelengthNm, lampIndex = length }) => {
    const observation = observeWithLamp(bench, settings, lampIndex);
    const isAsNow =
      bench.moved === undefined || isMoved(bench.moved, lampIndex) === isMoved(bench.moved, length);
    const against = isAsNow ? curveNow : curve;
    const ordinate = observation?.ordinate ?? null;
    const [shortest, longest] = against?.domainNm ?? [0, 0];
    const isReached = wavelengthNm >= shortest && wavelengthNm <= longest;
    if (observation === null || against === null || !isReached)
      return { wavelengthNm, ordinate, residual: null, standardUncertainty: null };
    const own = readingVariance(observation, settingVariance);
    return {
      wavelengthNm,
      ordinate,
      residual: observation.ordinate - against.ordinateAt(wavelengthNm),
      standardUncertainty: Math.sqrt(own + against.covariance(wavelengthNm, wavelengthNm)),
    };
  });
}
