/** Sensitivity of an eye between daylight and darkness. */
import photopic from '../../../data/eye-sensitivity.json' with { type: 'json' };
import { eye } from './assumptions.ts';

/** V'(λ) of the dark-adapted eye, CIE 1951, from 380 nm in steps of 10 nm; values from memory of the published table. */
const scotopic: readonly number[] = [
  0.000589, 0.002209, 0.00929, 0.03484, 0.0966, 0.1998, 0.3281, 0.455, 0.567, 0.676, 0.793, 0.904, 0.982,
  0.997, 0.935, 0.811, 0.65, 0.481, 0.3288, 0.2076, 0.1212, 0.0655, 0.03315, 0.01593, 0.00737, 0.003335,
  0.001497, 0.000677, 0.0003129, 0.000148, 0.0000715, 0.00003533, 0.0000178,
];
/** Lumens per watt of the two eyes at their best, 1700 and 683 (CIE). */
const scotopicGain = 1700 / 683;

/** Between the values of a table its logarithm is linear. */
function valueAt(table: readonly number[], nm: number): number {
  const step = Math.max(0, Math.min((nm - photopic.startNm) / photopic.stepNm, table.length - 1.001));
  const index = Math.floor(step);
  return table[index]! * (table[index + 1]! / table[index]!) ** (step - index);
}

/** What each of the two eyes makes of a wavelength, in the same unit. */
export interface EyeWeights {
  readonly light: number;
  readonly dark: number;
}

export const eyeWeights = (nm: number): EyeWeights => ({
  light: valueAt(photopic.sensitivity, nm),
  dark: scotopicGain * valueAt(scotopic, nm),
});

/** By how much (natural logarithm) an eye with this share of darkness sees a line brighter than a typical one does. */
export function purkinjeShift(darkShare: number, { light, dark }: EyeWeights): number {
  const { typical } = eye.darkShare;
  return Math.log(((1 - darkShare) * light + darkShare * dark) / ((1 - typical) * light + typical * dark));
}
