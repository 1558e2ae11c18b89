/** Which known lamp, and which of its lines, would sharpen the wavelengths of this bench most where they matter. */
import type { CalibrationCurve } from '../calibrate/types.ts';
import { tubes } from '../lines/table.ts';
import { sumOf } from '../numeric/sum.ts';
import { lampStep } from '../observe/reading-step.ts';
import { errorShares, readingVariance } from '../observe/reading-variance.ts';
import type { Bench } from '../record/bench.ts';
import { MOST_ADVISED, WORTH_READING } from './assumptions.ts';
import { cribLines, partedBy } from './crib-lines.ts';
import { type PredictedLine, predictOnCurve, type WantedLine, wantedLines } from './predict.ts';
import type { ToldCalibration } from './types.ts';

export interface AdvisedLine extends PredictedLine {
  /** Root mean square u of a wavelength where it matters, nm, once this line and those before it are read. */
  readonly rmsNm: number;
}

export interface LampAdvice {
  readonly lamp: string;
  /** Worth reading, the best first; empty where none would help. */
  readonly lines: readonly AdvisedLine[];
  /** With all of them read. */
  readonly rmsNm: number;
}

export interface Advice {
  /** The tubes whose lines matter. */
  readonly of: readonly string[];
  /** Their strong and medium lines on this bench, one for each that it shows. */
  readonly places: readonly WantedLine[];
  /** Root mean square u of a wavelength read there, nm: now, and if the curve were known exactly. */
  readonly nowNm: number;
  readonly bestNm: number;
  /** The one that helps most first. */
  readonly lamps: readonly LampAdvice[];
}

interface Place {
  readonly wavelengthNm: number;
  readonly slope: number;
  /** All tubes count alike, and the lines of a tube too. */
  readonly weight: number;
}

/**
 * Where it matters: the strong and medium lines of the tubes on the shelf, or of all tubes without one. A known line
 * more is a regression with one point more: it takes c(a,k)·c(k,b)/(c(k,k) + v) off the covariance c(a,b) of the
 * curve, with v the variance of reading it (Gelman et al., Bayesian Data Analysis, ch. 14). `lamps`: substances.
 */
export function adviseLamps(
  bench: Bench,
  { settingScatter }: Pick<ToldCalibration, 'settingScatter'>,
  curve: CalibrationCurve,
  lamps: readonly string[],
): Advice {
  const of = shelfOf(bench);
  const variance = readingVariance(errorShares(bench, 1, 0, lampStep(bench)), (settingScatter ?? 0) ** 2);
  const ofTubes = of.map((tube) => brightLines(bench, curve, tube));
  const places = ofTubes.flatMap((lines) =>
    lines.map(({ wavelengthNm }) => ({
      wavelengthNm,
      slope: curve.slopeAt(wavelengthNm),
      weight: 1 / lines.length,
    })),
  );
  const now = places.map(({ wavelengthNm }) => curve.covariance(wavelengthNm, wavelengthNm));
  return {
    of,
    places: ofTubes.flat(),
    nowNm: rmsNm(places, now, variance),
    bestNm: rmsNm(places, Array(places.length).fill(0), variance),
    lamps: lamps
      .map((lamp) => adviceOn(lamp, bench, curve, places, variance))
      .sort((a, b) => a.rmsNm - b.rmsNm),
  };
}

function shelfOf({ tubes: read }: Bench): readonly string[] {
  const named = [...new Set(read.flatMap(({ shelf }) => shelf ?? []))];
  return named.length > 0 ? named : tubes.map(({ substance }) => substance);
}

/** The strong and medium lines of a tube that the curve reaches, one for each that the bench shows. */
function brightLines(bench: Bench, curve: CalibrationCurve, tube: string): WantedLine[] {
  const [shortest, longest] = curve.domainNm;
  return cribLines(wantedLines(tube, true), curve.ordinateAt, partedBy(bench)).filter(
    ({ wavelengthNm }) => wavelengthNm > shortest && wavelengthNm < longest,
  );
}

function adviceOn(
  lamp: string,
  bench: Bench,
  curve: CalibrationCurve,
  places: readonly Place[],
  variance: number,
): LampAdvice {
  let left = brightLines(bench, curve, lamp).filter((line) => !isRead(bench, curve, line));
  const at = [...places, ...left].map(({ wavelengthNm }) => wavelengthNm);
  const covariance = at.map((one) => at.map((other) => curve.covariance(one, other)));
  const after = (known: number) =>
    places.map(
      (_, p) => covariance[p]![p]! - covariance[p]![known]! ** 2 / (covariance[known]![known]! + variance),
    );
  const now = places.map((_, p) => covariance[p]![p]!);
  let rms = rmsNm(places, now, variance);
  const lines: AdvisedLine[] = [];
  while (lines.length < MOST_ADVISED && left.length > 0) {
    const [line, then] = left
      .map((each) => [each, rmsNm(places, after(at.lastIndexOf(each.wavelengthNm)), variance)] as const)
      .reduce((best, each) => (each[1] < best[1] ? each : best));
    if (then > rms * (1 - WORTH_READING)) break;
    learn(covariance, at.lastIndexOf(line.wavelengthNm), variance);
    lines.push(...predictOnCurve(bench, curve, [line]).map((place) => ({ ...place, rmsNm: then })));
    left = left.filter((each) => each !== line);
    rms = then;
  }
  return { lamp, lines, rmsNm: rms };
}

/** Is this line among the known ones already? */
function isRead(bench: Bench, curve: CalibrationCurve, { wavelengthNm }: WantedLine): boolean {
  return bench.known
    .flatMap(({ lines }) => lines)
    .some(
      ({ use, statedWavelengthNm }) =>
        use &&
        statedWavelengthNm !== null &&
        Math.abs(curve.ordinateAt(statedWavelengthNm) - curve.ordinateAt(wavelengthNm)) < partedBy(bench),
    );
}

/** The covariance once the line at `known` has been read. */
function learn(covariance: number[][], known: number, variance: number): void {
  const column = covariance.map((row) => row[known]!);
  const total = column[known]! + variance;
  for (const [a, row] of covariance.entries())
    for (const b of row.keys()) row[b]! -= (column[a]! * column[b]!) / total;
}

/** `curveVariances`: of the curve at each place, unit²; `variance`: of the reading there. */
function rmsNm(places: readonly Place[], curveVariances: readonly number[], variance: number): number {
  const weights = sumOf(places, ({ weight }) => weight);
  const sum = sumOf(
    places,
    ({ slope, weight }, p) => (weight * (Math.max(0, curveVariances[p]!) + variance)) / slope ** 2,
  );
  return Math.sqrt(sum / weights);
}
