/**
 * One understanding of the bench - a calibration hypothesis, possibly with the tube's readings shifted alike - and
 * what lines look like through it.
 */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import { readableNm } from '../../lines/visible.ts';
import type { CentralHypothesis } from '../../observe/central-hypotheses.ts';
import { type CommonError, commonError } from './common-error.ts';
import type { UnknownReading } from './unknown-reading.ts';

export type BenchExplanation =
  /** As the record says. */
  | 'plain'
  /** A reading of the central image, the calibration's or the tube's, is misread. */
  | 'central-misread'
  /** The bench was moved between lamp and tube. */
  | 'moved';

export interface BenchView {
  readonly explanation: BenchExplanation;
  readonly logWeight: number;
  readonly curve: CalibrationCurve;
  readonly common: CommonError;
  /** Added to what the curve gives: a shift common to all readings of the tube. */
  readonly shift: number;
  /** Variance of what the tube's central readings add to all of its readings alike, unit². */
  readonly offsetVariance: number;
  /** What it takes the central readings for; null where there is nothing to compare. */
  readonly central: CentralHypothesis | null;
  readonly table: LineTable;
}

/** Places on the curve sampled once, for quantities that vary slowly with wavelength. */
interface LineTable {
  readonly residualVariance: Float64Array;
  readonly modes: readonly Float64Array[];
}

const TABLE = { shortestNm: 370, stepNm: 10, places: 1 + (readableNm.longest - 370) / 10 } as const;

export interface ViewAssumptions {
  readonly explanation: BenchExplanation;
  readonly logWeight: number;
  readonly shift: number;
  readonly central: CentralHypothesis | null;
  /** Of a further shift common to all readings of the tube (a central image read anew), unit². */
  readonly offsetVariance: number;
  /** Of the shift itself, unit²; 0 where it is known. */
  readonly shiftVariance: number;
}

/** One understanding of the bench for these readings (one at least), in the ordinate's unit. */
export function benchView(
  curve: CalibrationCurve,
  readings: readonly UnknownReading[],
  { explanation, logWeight, shift, central, offsetVariance, shiftVariance }: ViewAssumptions,
): BenchView {
  const covariance = (first: number, second: number): number =>
    curve.covariance(first, second) + offsetVariance + shiftVariance;
  const places = readings.map((reading) => nearestWavelength(curve, reading.ordinate - shift));
  const u = Math.sqrt(Math.min(...readings.map((reading) => reading.totalVariance)));
  const common = commonError(covariance, spread(places), u);
  const wavelengths = Array.from({ length: TABLE.places }, (_, i) => TABLE.shortestNm + i * TABLE.stepNm);
  return {
    explanation,
    logWeight,
    curve,
    common,
    shift,
    offsetVariance,
    central,
    table: {
      residualVariance: Float64Array.from(wavelengths, (nm) => common.residualVariance(nm)),
      modes: common.modes.map((mode) => Float64Array.from(wavelengths, (nm) => mode.at(nm))),
    },
  };
}

/** A few places are enough to know the common error by. */
function spread(places: readonly number[]): number[] {
  const sorted = [...places].sort((a, b) => a - b);
  const most = 6;
  if (sorted.length <= most) return sorted;
  return Array.from({ length: most }, (_, i) => sorted[Math.round((i * (sorted.length - 1)) / (most - 1))]!);
}

/** The wavelength of an ordinate; the end of the curve for one beyond it. */
export function nearestWavelength(curve: CalibrationCurve, ordinate: number): number {
  const found = curve.wavelengthAt(ordinate, 0);
  if (found) return found.wavelengthNm;
  const [shortest, longest] = curve.domainNm;
  const nearShort =
    Math.abs(curve.ordinateAt(shortest) - ordinate) < Math.abs(curve.ordinateAt(longest) - ordinate);
  return nearShort ? shortest : longest;
}

function interpolated(values: Float64Array, nm: number): number {
  const position = Math.min(TABLE.places - 1.001, Math.max(0, (nm - TABLE.shortestNm) / TABLE.stepNm));
  const index = Math.floor(position);
  const part = position - index;
  return values[index]! * (1 - part) + values[index + 1]! * part;
}

/** Variance of the curve at a wavelength (nm) that no mode of the common error explains, unit². */
export function residualVarianceAt(view: BenchView, wavelengthNm: number): number {
  return interpolated(view.table.residualVariance, wavelengthNm);
}

/** Shift of a line at a node of the common error. */
export function modeAt(view: BenchView, mode: number, wavelengthNm: number): number {
  return interpolated(view.table.modes[mode]!, wavelengthNm);
}
