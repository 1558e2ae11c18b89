/** The quick check: one reading turned into a wavelength. */
import type { WavelengthEstimate } from '../calibrate/types.ts';
import { tubeReadings } from '../identify/bench/tube-readings.ts';
import { colourAt } from '../lines/colour.ts';
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { benchConstants } from '../observe/bench-constants.ts';
import { asWritten, expectedStep, settingWritten, stepOf } from '../observe/reading-step.ts';
import type { Bench, ColourName, Setting, UnknownTube } from '../record/bench.ts';
import type { WritingOfReading } from '../words/rounded-readings.ts';
import { isWorthLooking } from './predict.ts';
import { readingFrame } from './reading-frame.ts';
import type { ToldCalibration } from './types.ts';

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
  /** Outside the range of the known lines, even so far that there is no wavelength. */
  readonly extrapolated: boolean;
  readonly colour: ColourName | null;
  /** Listed lines within two standard uncertainties, nearest first; the hardly ever seen ones left out. */
  readonly near: readonly NearLine[];
  /** Null where readings beside it are written as finely as the instrument reads. */
  readonly writing: WritingOfReading | null;
}

/** Another bench whose known lamp made the calibration, as readings are converted with it: once for all of them. */
export function calibratedBench(calibrationFrom: Bench): Bench {
  return asWritten(calibrationFrom);
}

/**
 * Wavelength of one setting on this bench, as it was analysed, exactly as if it were a line of an unknown tube, and the lines of `tubes`
 * that it could be. `calibrated` is the bench whose known lamp made the calibration, when that was another (`calibratedBench`); `of` the
 * tube that the reading belongs to, whose own central image it then counts from.
 */
export function convertReading(
  bench: Bench,
  calibration: ToldCalibration,
  { text, setting }: { readonly text: string; readonly setting: Setting },
  tubes: readonly TubeSpectrum[],
  calibrated: Bench = bench,
  of: UnknownTube | null = null,
): ConvertedReading {
  const { ordinate, variance, writing, curve } = ordinateOf(bench, calibration, setting, calibrated, of);
  const estimate = ordinate === null ? null : (curve?.wavelengthAt(ordinate, variance) ?? null);
  return {
    reading: text,
    deviationDeg: ordinate === null || calibration.unit === 'scale' ? null : ordinate / 60,
    wavelengthNm: estimate?.wavelengthNm ?? null,
    standardUncertaintyNm: estimate?.standardUncertaintyNm ?? null,
    extrapolated: estimate?.extrapolated ?? (ordinate !== null && calibration.curve !== null),
    colour: estimate === null ? null : colourAt(estimate.wavelengthNm),
    near: estimate === null ? [] : linesNear(estimate, tubes),
    writing,
  };
}

function ordinateOf(
  bench: Bench,
  calibration: ToldCalibration,
  typed: Setting,
  calibrated: Bench,
  of: UnknownTube | null,
) {
  // As the tube is computed: rounded as its readings are, unless it was read finer than they are written.
  const expected = expectedStep(bench, of?.lines);
  const setting = settingWritten(bench, typed, expected);
  const { lamp, curve, ownCentral, bench: counted } = readingFrame(bench, calibration, of, calibrated);
  const state = {
    origin: lamp,
    constants: benchConstants(calibrated),
    settingVariance: (calibration.settingScatter ?? 0) ** 2,
  };
  const tube = { ...tubeOfOneLine(setting), central: ownCentral };
  const { readings, offsetVariance } = tubeReadings(counted, tube, state);
  const [reading] = readings;
  const writing = writingOf(bench, of, expected, stepOf(bench, [setting]));
  if (reading === undefined) return { ordinate: null, variance: 0, writing, curve };
  return { ordinate: reading.ordinate, variance: reading.totalVariance + offsetVariance, writing, curve };
}

function writingOf(
  bench: Bench,
  of: UnknownTube | null,
  expected: number,
  step: number,
): WritingOfReading | null {
  if (expected === bench.leastCount) return null;
  const isFine = ({ lines }: UnknownTube): boolean =>
    lines.length > 0 &&
    stepOf(
      bench,
      lines.flatMap(({ settings }) => settings),
    ) < expected;
  // Nobody said to which tube it belongs: it may be written as either is.
  if (of === null && bench.tubes.some(isFine))
    return step === expected ? { what: 'perhaps-rounded', step } : null;
  return { what: step === expected ? 'rounded' : 'finer', step: expected };
}

function tubeOfOneLine(setting: Setting): UnknownTube {
  const unsaid = { texts: [], colour: null, brightness: null, note: null };
  const line = { index: 0, settings: [setting], use: true, ...unsaid };
  return {
    index: 0,
    label: '',
    central: null,
    lines: [line],
    notSeen: [],
    complete: false,
    shelf: null,
    answer: null,
    answerBeforeRanking: null,
    ranking: 'always',
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
        .filter((line) => isWorthLooking(line) && sigmas(line) <= 2)
        .map((line) => ({
          substance: line.substance ?? substance,
          wavelengthNm: line.wavelengthNm,
          weight: line.prominence - sigmas(line) ** 2 / 2,
        })),
    )
    .sort((a, b) => sigmas(a) - sigmas(b));
}
