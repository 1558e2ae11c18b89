/** The curve and the weight of one explanation of the known lines. */
import { SAME_LINE_NM } from '../../lines/same-line.ts';
import { normalised } from '../../numeric/log-sum.ts';
import { readingVariance } from '../../observe/reading-variance.ts';
import type { ScatterPrior } from '../../observe/setting-scatter.ts';
import type { Bench } from '../../record/bench.ts';
import * as assumed from '../assumptions.ts';
import { benchPosterior, strayRange } from '../curve/bench-prior.ts';
import { predicted } from '../curve/gaussian-curve.ts';
import type { CurvePoint, CurvePosterior } from '../curve/posterior.ts';
import type { KnownReading, WeighedExplanation } from './known-reading.ts';
import type { LineChoice } from './line-hypotheses.ts';

export interface ProposedExplanation {
  readonly choices: readonly LineChoice[];
  readonly logPrior: number;
  readonly lampTakenFor: readonly (string | null)[];
}

/** An explanation with its curve, before it is set against the others. */
export type Explained = Omit<WeighedExplanation, 'probability'> & {
  readonly logPrior: number;
};

/** Null for an explanation that leaves no curve, or that doubts a line for nothing. */
export function explained(
  bench: Bench,
  readings: readonly KnownReading[],
  { choices, logPrior, lampTakenFor }: ProposedExplanation,
  scatter: ScatterPrior,
): Explained | null {
  const points = choices.flatMap(({ wavelengthNm, wavelengthVariance, slip }, i): CurvePoint[] => {
    if (wavelengthNm === null) return [];
    const { ordinate, resolutionVariance, settingShare } = readings[i]!.observation;
    const corrected = ordinate + (slip?.correction ?? 0);
    return [{ wavelengthNm, wavelengthVariance, ordinate: corrected, resolutionVariance, settingShare }];
  });
  const aside = choices.length - points.length;
  // A curve that leaves out more lines than it keeps explains nothing.
  if (aside > points.length || !hasTwoLines(points)) return null;
  const posterior = benchPosterior(bench, readings, points, scatter);
  if (accusesForNothing(readings, choices, posterior)) return null;
  const log = logPrior - aside * Math.log(strayRange(bench, readings)) + posterior.logEvidence;
  return { choices, lampTakenFor, points, posterior, logPrior, log };
}

/** 546.07 as stated and 546.075 as tabulated are one line, and one line makes no curve. */
function hasTwoLines(points: readonly CurvePoint[]): boolean {
  const wavelengths = points.map(({ wavelengthNm }) => wavelengthNm);
  return Math.max(...wavelengths) - Math.min(...wavelengths) >= SAME_LINE_NM;
}

/**
 * A neighbour that the bench cannot tell from the stated line (577 for 579 on a crown prism) is no fault, unless it
 * stands in a run of wrong names that can be told.
 */
function accusesForNothing(
  readings: readonly KnownReading[],
  choices: readonly LineChoice[],
  { basis, constants, settingVariance }: CurvePosterior,
): boolean {
  const differs = (i: number): boolean => {
    if (choices[i]!.logPrior > Math.log(assumed.DOUBTFUL_BEFOREHAND)) return true;
    const { line, observation } = readings[i]!;
    const stated = predicted(constants, basis.at(line.statedWavelengthNm!)).ordinate;
    const other = predicted(constants, basis.at(choices[i]!.wavelengthNm!)).ordinate;
    const u = Math.sqrt(readingVariance(observation, settingVariance));
    return Math.abs(stated - other) >= assumed.WORTH_A_DOUBT * u;
  };
  return runsOfWrongNames(readings, choices).some((run) => !run.some(differs));
}

/** Indexes of lines side by side on the circle that are all thought to be named for other lines. */
function runsOfWrongNames(readings: readonly KnownReading[], choices: readonly LineChoice[]): number[][] {
  const order = readings
    .map((_, i) => i)
    .sort((a, b) => readings[a]!.observation.ordinate - readings[b]!.observation.ordinate);
  const runs: number[][] = [];
  let run: number[] = [];
  for (const i of order) {
    const isNamedWrongly = choices[i]!.kind === 'neighbour' && readings[i]!.line.statedWavelengthNm !== null;
    if (isNamedWrongly) {
      if (run.length === 0) runs.push(run);
      run.push(i);
    } else run = [];
  }
  return runs;
}

/** Probabilities of explanations against each other, best first; the negligible are left out. */
export function weighed(found: readonly Explained[]): WeighedExplanation[] {
  if (found.length === 0) return [];
  const sorted = [...found].sort((a, b) => b.log - a.log);
  const lowest = sorted[0]!.log + Math.log(assumed.NEGLIGIBLE_EXPLANATION);
  const kept = sorted.filter((entry) => entry.log > lowest);
  const weights = normalised(kept.map((entry) => entry.log));
  return kept.map(({ logPrior: _prior, ...entry }, i) => ({ ...entry, probability: weights[i]! }));
}

/** Nothing to explain: every line lies within the usual scatter of the curve through the others. */
export function everythingFits(
  readings: readonly KnownReading[],
  { points, posterior: { basis, constants } }: Pick<Explained, 'points' | 'posterior'>,
  settingVariance: number,
): boolean {
  if (points.length < Math.max(assumed.EVERYTHING_FITS.fewest, readings.length)) return false;
  return points.every((point) => {
    const { ordinate, variance } = predicted(constants, basis.at(point.wavelengthNm));
    const own = readingVariance(point, settingVariance);
    // What is left of a reading's variance once it has drawn the curve to itself.
    const left = Math.max(own - variance, assumed.EVERYTHING_FITS.leastLeft * own);
    return Math.abs(point.ordinate - ordinate) < assumed.EVERYTHING_FITS.sigmas * Math.sqrt(left);
  });
}
