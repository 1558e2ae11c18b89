/** The quick check: one reading turned into a wavelength. */
import { centralImage, observe } from '../calibrate/observation.ts';
import type { Calibration, WavelengthEstimate } from '../calibrate/types.ts';
import { colourAt } from '../lines/colour.ts';
import type { TubeSpectrum } from '../lines/spectrum.ts';
import type { Bench, ColourName, Setting } from '../record/bench.ts';
import { worthLooking } from './predict.ts';

export interface NearLine {
  readonly substance: string;
  readonly wavelengthNm: number;
  /** Logarithm of how likely it is to be what was read: prominence, and distance in units of the uncertainty. */
  readonly weight: number;
}

export interface ConvertedReading {
  readonly reading: string;
  readonly deviationDeg: number | null;
  readonly wavelengthNm: number | null;
  readonly standardUncertaintyNm: number | null;
  readonly extrapolated: boolean;
  readonly colour: ColourName | null;
  /** Listed lines within two standard uncertainties, nearest first; the hardly ever seen ones left out. */
  readonly near: readonly NearLine[];
}

/** Wavelength of one setting on this bench, and the lines of `tubes` that it could be. */
export function convertReading(
  bench: Bench,
  calibration: Calibration,
  reading: { readonly text: string; readonly setting: Setting },
  tubes: readonly TubeSpectrum[],
): ConvertedReading {
  const observation = observe(bench, [reading.setting], centralImage(bench, bench.central));
  const ordinate = observation?.ordinate ?? null;
  const estimate =
    observation === null
      ? null
      : (calibration.curve?.wavelengthAt(
          observation.ordinate,
          observation.resolutionVariance + observation.settingShare * (calibration.settingScatter ?? 0) ** 2,
        ) ?? null);
  return {
    reading: reading.text,
    deviationDeg: ordinate === null || calibration.unit === 'scale' ? null : ordinate / 60,
    wavelengthNm: estimate?.wavelengthNm ?? null,
    standardUncertaintyNm: estimate?.standardUncertaintyNm ?? null,
    extrapolated: estimate?.extrapolated ?? false,
    colour: estimate === null ? null : colourAt(estimate.wavelengthNm),
    near: estimate === null ? [] : linesNear(estimate, tubes),
  };
}

function linesNear(
  { wavelengthNm, standardUncertaintyNm }: WavelengthEstimate,
  tubes: readonly TubeSpectrum[],
): NearLine[] {
  const sigmas = (line: { wavelengthNm: number }) =>
    Math.abs(line.wavelengthNm - wavelengthNm) / standardUncertaintyNm;
  return tubes
    .flatMap(({ substance, lines }) =>
      lines
        .filter((line) => line.prominence >= worthLooking && sigmas(line) <= 2)
        .map((line) => ({
          substance,
          wavelengthNm: line.wavelengthNm,
          weight: line.prominence - sigmas(line) ** 2 / 2,
        })),
    )
    .sort((a, b) => sigmas(a) - sigmas(b));
}
