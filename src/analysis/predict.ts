/** The crib sheet: where the lines of a tube should be found. */
import { formatAngle } from '../angle/format-angle.ts';
import { type Glass, refractiveIndex } from '../calibrate/curve/glasses.ts';
import { minimumDeviationDeg } from '../calibrate/curve/minimum-deviation.ts';
import type { CalibrationCurve } from '../calibrate/types.ts';
import { brightnessWord } from '../lines/grade-prominence.ts';
import { substancesIn } from '../lines/mixed-lamps.ts';
import type { TubeLine, TubeSpectrum } from '../lines/spectrum.ts';
import { tubeNamed } from '../lines/table.ts';
import type { Origin } from '../observe/origin.ts';
import { readingAt } from '../observe/reading-at.ts';
import type { Bench, Brightness, ColourName } from '../record/bench.ts';

export interface PredictedLine extends Omit<WantedLine, 'prominence'> {
  /** As it would be read on the bench; null where the curve does not reach. */
  readonly reading: string | null;
  readonly deviationDeg: number | null;
  /** Standard uncertainty of the predicted place, in arc-minutes or scale units; null where none is known. */
  readonly standardUncertainty: number | null;
  readonly extrapolated: boolean;
}

/** What is to be found: a line of a tube, or a bare wavelength. */
export interface WantedLine {
  /** Null for a bare wavelength. */
  readonly substance: string | null;
  /** The lamp of several substances that was asked for; missing for a tube of one. */
  readonly lamp?: string;
  readonly wavelengthNm: number;
  readonly colour: ColourName;
  /** Null for a bare wavelength. */
  readonly brightness: Brightness | null;
  /** Natural logarithm of how visible it is; missing for a bare wavelength. */
  readonly prominence?: number;
  /** The lines behind it where it is several read as one; missing for a single line. */
  readonly linesNm?: readonly number[];
}

/** A bench that has no calibration yet: a catalogue glass at minimum deviation. */
export interface GlassStation {
  readonly glass: Glass;
  readonly apexAngleDeg: number;
  readonly centralDeg: number;
  readonly leastCountArcmin: number;
  /** True: readings are written in decimals of a degree. */
  readonly decimal: boolean;
  /** +1: readings grow with the deviation, -1: they fall. */
  readonly side: 1 | -1;
}

/** Whether a line is worth looking for: by all evidence weak at least, and as likely written down as a weak line is. */
export function isWorthLooking({ brightness, prominence }: TubeLine): boolean {
  return brightness !== null && brightnessWord(prominence) !== null;
}

/** The lines of a tube that are worth looking for, or only its strong and medium ones, from red to violet. */
export function wantedLines(substance: string, brightOnly = false): WantedLine[] {
  const tube = tubeNamed(substance);
  const lines = tube === undefined ? [] : wantedOf(tube);
  return brightOnly ? lines.filter(({ brightness }) => brightness !== 'weak') : lines;
}

/** The lines of a spectrum that are worth looking for, from red to violet. */
export function wantedOf({ substance, lines }: TubeSpectrum): WantedLine[] {
  return lines
    .filter(isWorthLooking)
    .map((line) => ({
      substance: line.substance ?? substance,
      ...(substancesIn(substance).length > 1 ? { lamp: substance } : {}),
      wavelengthNm: line.wavelengthNm,
      colour: line.colour,
      brightness: line.brightness,
      prominence: line.prominence,
    }))
    .reverse();
}

/** The place of a line where nothing tells it. */
export const NOWHERE = { reading: null, deviationDeg: null, standardUncertainty: null, extrapolated: false };

/** From where the readings at a place count: of now, where nothing else is said, and nothing is added to the curve's u. */
export interface CountedFrom {
  readonly origin?: Origin;
  /** Variance that this adds to that of the curve, unit². */
  readonly originVariance?: number;
}

/** Places on a calibrated bench; beyond its curve there are none. */
export function predictOnCurve(
  bench: Bench,
  curve: CalibrationCurve,
  lines: readonly WantedLine[],
  from: CountedFrom = {},
): PredictedLine[] {
  return lines.map((line) => ({ ...line, ...placeOnCurve(bench, curve, line.wavelengthNm, from) }));
}

function placeOnCurve(
  bench: Bench,
  curve: CalibrationCurve,
  wavelengthNm: number,
  { origin, originVariance = 0 }: CountedFrom,
) {
  const extrapolated = wavelengthNm < curve.rangeNm[0] || wavelengthNm > curve.rangeNm[1];
  if (wavelengthNm < curve.domainNm[0] || wavelengthNm > curve.domainNm[1])
    return { ...NOWHERE, extrapolated };
  const ordinate = curve.ordinateAt(wavelengthNm);
  return {
    reading: readingAt(bench, ordinate, origin),
    deviationDeg: curve.unit === 'scale' ? null : ordinate / 60,
    standardUncertainty: Math.sqrt(curve.covariance(wavelengthNm, wavelengthNm) + originVariance),
    extrapolated,
  };
}

/** Minimum deviation, degrees; NaN where light does not pass. */
export function glassDeviationDeg(
  { apexAngleDeg, glass }: Pick<GlassStation, 'apexAngleDeg' | 'glass'>,
  wavelengthNm: number,
): number {
  return minimumDeviationDeg(apexAngleDeg, refractiveIndex(glass, wavelengthNm));
}

/** Places by the catalogue alone: minimum deviation of each line, the prism's melt and the setting left out. */
export function predictForGlass(station: GlassStation, lines: readonly WantedLine[]): PredictedLine[] {
  return lines.map((line) => {
    const deviationDeg = glassDeviationDeg(station, line.wavelengthNm);
    return {
      ...line,
      reading: formatAngle(station.centralDeg + station.side * deviationDeg, station),
      deviationDeg,
      standardUncertainty: null,
      extrapolated: false,
    };
  });
}
