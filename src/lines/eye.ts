/** How well the light-adapted eye sees a wavelength: the table of Judd and Vos (data/eye-sensitivity.json). */
import table from '../../data/eye-sensitivity.json' with { type: 'json' };

const logSensitivities = table.sensitivity.map(Math.log);

/**
 * Natural logarithm of the eye's photopic sensitivity (0 at its best, about 555 nm), interpolated linearly in the
 * logarithm; beyond 380-760 nm the slope of the last step goes on.
 */
export function logEyeSensitivity(wavelengthNm: number): number {
  const place = (wavelengthNm - table.startNm) / table.stepNm;
  const step = Math.min(Math.max(Math.floor(place), 0), logSensitivities.length - 2);
  const lower = logSensitivities[step]!;
  return lower + (place - step) * (logSensitivities[step + 1]! - lower);
}
