/** The curve that the rest of the program asks: from posterior constants to ordinates and wavelengths. */
import { bilinear } from '../../numeric/symmetric.ts';
import { ASKED_NM } from '../assumptions.ts';
import type { CalibrationCurve, OrdinateUnit, WavelengthEstimate } from '../types.ts';
import type { CurveBasis } from './basis.ts';
import type { GaussianConstants } from './gaussian-curve.ts';

/**
 * Makes a curve of its constants. Null when it is not monotone over the known lines: such a curve would give
 * two wavelengths for one reading.
 */
export function calibrationCurve(
  basis: CurveBasis,
  constants: GaussianConstants,
  rangeNm: readonly [number, number],
  unit: OrdinateUnit,
): CalibrationCurve | null {
  const { mean } = constants;
  const ordinateAt = (nm: number): number => basis.curveAt(mean, nm);
  const slopeAt = (nm: number): number => basis.curveSlopeAt(mean, nm);
  const domainNm = monotoneDomain(slopeAt, rangeNm);
  if (domainNm === null) return null;
  const covariance = (first: number, second: number): number => {
    const value = bilinear(basis.at(first), constants.covariance, basis.at(second), basis.size);
    // Rounding must not make a variance negative.
    return first === second ? Math.max(0, value) : value;
  };

  const inverse = inverseOf(ordinateAt, slopeAt, domainNm);
  const wavelengthAt = (ordinate: number, ordinateVariance: number): WavelengthEstimate | null => {
    const wavelengthNm = inverse(ordinate);
    if (wavelengthNm === null) return null;
    const variance = ordinateVariance + covariance(wavelengthNm, wavelengthNm);
    return {
      wavelengthNm,
      standardUncertaintyNm: Math.sqrt(variance) / Math.abs(slopeAt(wavelengthNm)),
      extrapolated: wavelengthNm < rangeNm[0] || wavelengthNm > rangeNm[1],
    };
  };
  return { unit, rangeNm, domainNm, ordinateAt, slopeAt, covariance, wavelengthAt };
}

function monotoneDomain(
  slopeAt: (nm: number) => number,
  rangeNm: readonly [number, number],
): [number, number] | null {
  const sign = Math.sign(slopeAt((rangeNm[0] + rangeNm[1]) / 2));
  if (sign === 0) return null;
  for (let nm = rangeNm[0]; nm <= rangeNm[1]; nm += ASKED_NM.step) if (slopeAt(nm) * sign <= 0) return null;
  if (slopeAt(rangeNm[1]) * sign <= 0) return null;
  let [shortest, longest] = rangeNm;
  const goesOn = (nm: number): boolean => slopeAt(nm) * sign > 0;
  while (shortest > ASKED_NM.shortest && goesOn(shortest - ASKED_NM.step)) shortest -= ASKED_NM.step;
  while (longest < ASKED_NM.longest && goesOn(longest + ASKED_NM.step)) longest += ASKED_NM.step;
  return [shortest, longest];
}

/** The wavelength of an ordinate, null beyond the ends of the curve: Newton's steps kept inside a shrinking bracket. */
function inverseOf(
  ordinateAt: (nm: number) => number,
  slopeAt: (nm: number) => number,
  [shortest, longest]: readonly [number, number],
): (ordinate: number) => number | null {
  const rising = slopeAt((shortest + longest) / 2) > 0 ? 1 : -1;
  const lowest = ordinateAt(shortest);
  const highest = ordinateAt(longest);
  return (ordinate) => {
    if ((ordinate - lowest) * rising < 0 || (ordinate - highest) * rising > 0) return null;
    let low = shortest;
    let high = longest;
    let nm = (low + high) / 2;
    for (let step = 0; step < 80 && high - low > 1e-10; step += 1) {
      const off = ordinateAt(nm) - ordinate;
      if (off * rising > 0) high = nm;
      else low = nm;
      const next = nm - off / slopeAt(nm);
      if (Math.abs(next - nm) < 1e-10) return nm;
      nm = next > low && next < high ? next : (low + high) / 2;
    }
    return nm;
  };
}
