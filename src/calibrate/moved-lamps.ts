/** A bench that was moved between two of its known lamps: their lines lie on one curve once the move is taken off. */
import { inverse, Matrix } from 'ml-matrix';
import { logSum, normalised } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import { sum, sumOf } from '../numeric/sum.ts';
import { bilinear } from '../numeric/symmetric.ts';
import type { BenchConstants } from '../observe/bench-constants.ts';
import { moveSize } from '../observe/bench-move.ts';
import { readingVariance } from '../observe/reading-variance.ts';
import { type ScatterPrior, usualScatter } from '../observe/setting-scatter.ts';
import type { Bench } from '../record/bench.ts';
import { explainKnownLines } from './assign/assign-lines.ts';
import type { KnownReading, WeighedExplanation } from './assign/known-reading.ts';
import { isFault } from './assign/line-hypotheses.ts';
import { everythingFits } from './assign/weigh-assignment.ts';
import { MOVED_BETWEEN_LAMPS, OTHER_LAMPS } from './assumptions.ts';
import { calibrationCurve } from './curve/calibration-curve.ts';
import type { CurvePosterior } from './curve/posterior.ts';
import { spectrumLength } from './curve/spectrum-length.ts';

/** In the ordinate's unit. The curve is that of the bench as it stood for the later lamps. */
export interface LampMove {
  /** The first lamp that was read after it. */
  readonly lampIndex: number;
  /** By how much the move raised every ordinate. */
  readonly shift: number;
  readonly u: number;
}

/** One way to understand the known lines, with the move of the bench that it takes for granted. */
export type BenchExplanation = WeighedExplanation & { readonly move: LampMove | null };

/** What a move adds to the ordinates of a lamp, to be compared with the curve: 0 for those read after it. */
export function addedTo(lampIndex: number, move: LampMove | null): number {
  return move !== null && lampIndex < move.lampIndex ? move.shift : 0;
}

/** `still`: explanations of the readings as they stand, best first. The best first again, probabilities summing to 1. */
export function withMovesBetweenLamps(
  bench: Bench,
  readings: readonly KnownReading[],
  constants: BenchConstants,
  scatter: ScatterPrior,
  still: readonly WeighedExplanation[],
): BenchExplanation[] {
  const asRead = still.map((explanation) => ({ ...explanation, move: null }));
  const usual = usualScatter(bench) ** 2;
  const [best] = still;
  const isFaultless =
    best?.choices.every((choice) => !isFault(choice)) && best.lampTakenFor.every((lamp) => lamp === null);
  // Each lamp more is one search more: bounds of time.
  if (bench.known.length > MOVED_BETWEEN_LAMPS.mostLamps || readings.length > OTHER_LAMPS.mostReadings)
    return asRead;
  if (best && isFaultless && everythingFits(readings, best, usual)) return asRead;
  // On two sides of the central image one move raises some deviations and lowers others.
  if (new Set(readings.map(({ observation }) => observation.side)).size > 1) return asRead;
  const moved = bench.known.slice(1).flatMap((_, before) => {
    const found = moveBefore(bench, readings, constants, scatter, before + 1);
    return found === null ? [] : explainedWith(bench, readings, constants, scatter, found);
  });
  if (moved.length === 0) return asRead;
  const all = [...asRead, ...moved].sort((a, b) => b.log - a.log);
  const weights = normalised(all.map(({ log }) => log));
  return all.map((explanation, i) => ({ ...explanation, probability: weights[i]! }));
}

interface FoundMove extends LampMove {
  /** Of the visible spectrum on this bench, in the ordinate's unit. */
  readonly spectrum: number;
}

/** The move before a lamp that suits the stated lines best; null where none is to be seen. */
function moveBefore(
  bench: Bench,
  readings: readonly KnownReading[],
  constants: BenchConstants,
  scatter: ScatterPrior,
  lampIndex: number,
): FoundMove | null {
  const earlier = readings.filter(({ line }) => line.lampIndex < lampIndex);
  const later = readings.filter(({ line }) => line.lampIndex >= lampIndex);
  // The curve is learned from the richer part, and the other is set against it.
  const [rich, poor] = earlier.length > later.length ? [earlier, later] : [later, earlier];
  const stated = poor.filter(({ line }) => line.statedWavelengthNm !== null);
  if (stated.length < MOVED_BETWEEN_LAMPS.fewest) return null;
  const posterior = explainKnownLines(bench, rich, constants, scatter)[0]?.posterior;
  if (posterior === undefined) return null;
  const offset = commonOffset(stated, posterior);
  if (Math.abs(offset.value) < MOVED_BETWEEN_LAMPS.smallest * offset.u) return null;
  const range = rangeOf(rich);
  const curve = range && calibrationCurve(posterior.basis, posterior.constants, range, 'arcmin');
  if (curve === null) return null;
  const shift = poor === later ? offset.value : -offset.value;
  return { lampIndex, shift, u: offset.u, spectrum: spectrumLength(curve) };
}

function rangeOf(readings: readonly KnownReading[]): readonly [number, number] | null {
  const wavelengths = readings.flatMap(({ line }) => line.statedWavelengthNm ?? []);
  return wavelengths.length === 0 ? null : [Math.min(...wavelengths), Math.max(...wavelengths)];
}

/** How far lines lie from a curve that knows nothing of them, all alike: generalized least squares; lines far off the others are left out. */
function commonOffset(
  readings: readonly KnownReading[],
  { basis, constants, settingVariance }: CurvePosterior,
): { value: number; u: number } {
  const places = readings.map(({ line, observation }) => {
    const f = basis.at(line.statedWavelengthNm!);
    return {
      f,
      off: observation.ordinate - sumOf([...f], (value, k) => value * constants.mean[k]!),
      own: readingVariance(observation, settingVariance),
    };
  });
  const sorted = places.map(({ off }) => off).sort((a, b) => a - b);
  const median = sorted[Math.floor(sorted.length / 2)]!;
  const uOf = ({ f, own }: (typeof places)[number]): number =>
    Math.sqrt(own + bilinear(f, constants.covariance, f, basis.size));
  const kept = places.filter(
    (place) => Math.abs(place.off - median) < MOVED_BETWEEN_LAMPS.alike * uOf(place),
  );
  const covariance = kept.map((one, i) =>
    kept.map(
      (other, j) => (i === j ? one.own : 0) + bilinear(one.f, constants.covariance, other.f, basis.size),
    ),
  );
  const precision = inverse(new Matrix(covariance)).to2DArray();
  const weights = precision.map((row) => sum(row));
  const total = sum(weights);
  return { value: sumOf(kept, ({ off }, i) => weights[i]! * off) / total, u: Math.sqrt(1 / total) };
}

/** All explanations of the readings with the move taken off, their weights with its chance and its uncertainty. */
function explainedWith(
  bench: Bench,
  readings: readonly KnownReading[],
  constants: BenchConstants,
  scatter: ScatterPrior,
  { lampIndex, shift, u, spectrum }: FoundMove,
): BenchExplanation[] {
  // The shift is not known exactly: nodes and weights of the Gauss-Hermite formula of three points.
  const nodes = [
    { at: 0, weight: 2 / 3 },
    { at: -Math.sqrt(3), weight: 1 / 6 },
    { at: Math.sqrt(3), weight: 1 / 6 },
  ];
  return nodes.flatMap(({ at, weight }) => {
    const move = { lampIndex, shift: shift + at * u, u };
    const asAfter = readings.map(({ line, observation }) => ({
      line,
      observation: { ...observation, ordinate: observation.ordinate + addedTo(line.lampIndex, move) },
    }));
    const logWeight =
      Math.log(weight) - logNormalDensity(at * u, u ** 2) + logMoved(bench, move.shift, spectrum);
    return explainKnownLines(bench, asAfter, constants, scatter).map((explanation) => ({
      ...explanation,
      log: explanation.log + logWeight,
      move,
    }));
  });
}

/** ln density of a move by so much, with the chance that there is one. */
function logMoved(bench: Bench, shift: number, spectrum: number): number {
  const { knocked, turned } = MOVED_BETWEEN_LAMPS;
  const { sd, reach } = moveSize(bench, spectrum);
  const ofTurning = Math.abs(shift) < reach ? Math.log(turned / (2 * reach)) : Number.NEGATIVE_INFINITY;
  return logSum([Math.log(knocked) + logNormalDensity(shift, sd ** 2), ofTurning]);
}
