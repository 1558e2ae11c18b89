/** The crib sheet: where the lines of a tube should be found. */
import { formatAngle } from '../angle/format-angle.ts';
import { type Glass, refractiveIndex } from '../calibrate/glasses.ts';
import { minimumDeviationDeg } from '../calibrate/minimum-deviation.ts';
import type { CalibrationCurve } from '../calibrate/types.ts';
import type { TubeLine } from '../lines/spectrum.ts';
import type { Bench, Brightness, ColourName } from '../record/bench.ts';
import { readingAt } from './reading-at.ts';

export interface PredictedLine {
  readonly substance: string;
  readonly wavelengthNm: number;
  /** As it would be read on the bench; null where the curve does not reach. */
  readonly reading: string | null;
  readonly deviationDeg: number | null;
  /** Standard uncertainty of the predicted place, in arc-minutes or scale units; null where none is known. */
  readonly standardUncertainty: number | null;
  readonly colour: ColourName;
  readonly brightness: Brightness;
  readonly extrapolated: boolean;
}

export interface LineOfTube {
  readonly substance: string;
  readonly line: Pick<TubeLine, 'wavelengthNm' | 'colour' | 'brightness' | 'prominence'>;
}

/** A bench that has no calibration yet: a catalogue glass at minimum deviation. */
export interface GlassStation {
  readonly glass: Glass;
  readonly apexAngleDeg: number;
  readonly centralDeg: number;
  readonly leastCountArcmin: number;
  /** +1: readings grow with the deviation, -1: they fall. */
  readonly side: 1 | -1;
}

/** Places on a calibrated bench. */
export function predictOnCurve(bench: Bench, curve: CalibrationCurve, lines: readonly LineOfTube[]): PredictedLine[] {
  const [from, to] = curve.rangeNm;
  const [lowest, highest] = curve.domainNm;
  return lines.map(({ substance, line }) => {
    const { wavelengthNm } = line;
    const reached = wavelengthNm >= lowest && wavelengthNm <= highest;
    const ordinate = reached ? curve.ordinateAt(wavelengthNm) : null;
    return {
      ...describe(substance, line),
      reading: ordinate === null ? null : readingAt(bench, ordinate),
      deviationDeg: ordinate === null || curve.unit === 'scale' ? null : ordinate / 60,
      standardUncertainty: reached ? Math.sqrt(curve.covariance(wavelengthNm, wavelengthNm)) : null,
      extrapolated: wavelengthNm < from || wavelengthNm > to,
    };
  });
}

/** Places by the catalogue alone: minimum deviation of each line, the prism's melt and the setting left out. */
export function predictForGlass(station: GlassStation, lines: readonly LineOfTube[]): PredictedLine[] {
  return lines.map(({ substance, line }) => {
    const deviationDeg = minimumDeviationDeg(
      station.apexAngleDeg,
      refractiveIndex(station.glass, line.wavelengthNm),
    );
    return {
      ...describe(substance, line),
      reading: formatAngle(station.centralDeg + station.side * deviationDeg, station.leastCountArcmin),
      deviationDeg,
      standardUncertainty: null,
      extrapolated: false,
    };
  });
}

function describe(substance: string, line: LineOfTube['line']) {
  const { wavelengthNm, colour, prominence } = line;
  return { substance, wavelengthNm, colour, brightness: line.brightness ?? brightnessAt(prominence) };
}

/** Half-way between the grades of prominence (strong 0, medium -1.3, weak -2.6). */
function brightnessAt(prominence: number): Brightness {
  if (prominence > -0.65) return 'strong';
  return prominence > -1.95 ? 'medium' : 'weak';
}
