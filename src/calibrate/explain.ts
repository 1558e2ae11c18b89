/** All explanations of a bench's known lines, each with its curve and its probability. */
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { lampSpectrum, tubes } from '../lines/table.ts';
import { normalised } from '../numeric/log-sum.ts';
import type { Bench, KnownBenchLine } from '../record/bench.ts';
import { prismBasis } from './basis.ts';
import type { BenchConstants } from './bench-constants.ts';
import { predicted } from './gaussian-curve.ts';
import { type LineChoice, lampLines, openChoices, statedChoices } from './line-choices.ts';
import type { Observation } from './observation.ts';
import { type CurvePoint, type CurvePosterior, curvePosterior } from './posterior.ts';
import { type CurvePrior, prismPrior, scalePrior } from './prism-prior.ts';
import { readingAlternatives } from './reading-alternatives.ts';
import { type Explanation, type KnownItem, searchExplanations } from './search-explanations.ts';
import { type ScatterPrior, usualScatter } from './setting-scatter.ts';

/** A known line that can be computed with. */
export interface KnownReading {
  readonly line: KnownBenchLine;
  readonly observation: Observation;
}

export interface WeighedExplanation {
  /** One choice for each reading, in order. */
  readonly choices: readonly LineChoice[];
  /** For each lamp of the record: the lamp it is taken for, or null where its name is believed. */
  readonly lampTakenFor: readonly (string | null)[];
  readonly points: readonly CurvePoint[];
  readonly posterior: CurvePosterior;
  readonly probability: number;
}

/** Explanations followed at once: enough that the first two lines, which any curve fits, lose none worth having. */
const BEAM_WIDTH = 100;
const BEAM_WIDTH_OTHER_LAMP = 20;
/** Explanations whose curve is computed in full. */
const COMPUTED = 30;
/** Those this far behind, in ln, are not. */
const NOT_COMPUTED = 12;
const COMPUTED_OTHER_LAMP = 3;
/** Prior that a lamp is not what it is said to be, shared by all other lamps. */
const WRONG_LAMP_CHANCE = 0.004;
/** Explanations less likely than this, against the best, are dropped. */
const NEGLIGIBLE = 1e-5;

/** Best first, probabilities summing to 1; empty when there are fewer than two readings to learn from. */
export function explainKnownLines(
  bench: Bench,
  readings: readonly KnownReading[],
  constants: BenchConstants,
  scatter: ScatterPrior,
): WeighedExplanation[] {
  if (readings.length < 2) return [];
  const settingVariance = usualScatter(bench) ** 2;
  const slips = readings.map(({ line, observation }) =>
    readingAlternatives(bench, line.settings, observation, constants, settingVariance),
  );
  const common = {
    prior: widePrior(bench, readings),
    settingVariance,
    logStray: -Math.log(strayRange(bench, readings)),
  };
  const run = (takenFor: readonly (TubeSpectrum | null)[], width: number): Weighable[] => {
    const lamps = bench.known.map((lamp, i) => lampLines(takenFor[i] ?? lampSpectrum(lamp.substances)));
    const items = readings.map(({ line, observation }, i): KnownItem => {
      const lamp = lamps[line.lampIndex]!;
      const believed = takenFor[line.lampIndex] === null && line.statedWavelengthNm !== null;
      // A lamp mistaken for another is one fault; slips on top of it are not looked for.
      const slipsOfLine = takenFor[line.lampIndex] === null ? slips[i]! : [];
      const choices = believed
        ? statedChoices(line, line.statedWavelengthNm!, lamp, slipsOfLine)
        : openChoices(line, lamp, slipsOfLine);
      return { observation, choices, lamp };
    });
    const lampPrior =
      takenFor.filter((lamp) => lamp !== null).length * Math.log(WRONG_LAMP_CHANCE / tubes.length);
    const names = takenFor.map((lamp) => lamp?.substance ?? null);
    const most = takenFor.every((lamp) => lamp === null) ? COMPUTED : COMPUTED_OTHER_LAMP;
    return orientations(bench, readings).flatMap((wavelengthFalls) => {
      const found = searchExplanations(items, { ...common, wavelengthFalls, width });
      return found
        .slice(0, most)
        .filter(({ log }) => log > found[0]!.log - NOT_COMPUTED)
        .flatMap((explanation) => weighable(bench, readings, explanation, names, lampPrior, scatter) ?? []);
    });
  };

  const believed = bench.known.map(() => null);
  let found = run(believed, BEAM_WIDTH);
  const suspicious = bench.known.map((_, lampIndex) => lampIsSuspicious(bench, readings, found, lampIndex));
  suspicious.forEach((suspect, lampIndex) => {
    if (!suspect) return;
    for (const tube of tubes) {
      if (bench.known[lampIndex]!.substances.includes(tube.substance)) continue;
      found = [
        ...found,
        ...run(
          believed.map((_, i) => (i === lampIndex ? tube : null)),
          BEAM_WIDTH_OTHER_LAMP,
        ),
      ];
    }
  });
  return weighed(found);
}

type Weighable = Omit<WeighedExplanation, 'probability'> & { readonly log: number };

function weighed(found: readonly Weighable[]): WeighedExplanation[] {
  if (found.length === 0) return [];
  const sorted = [...found].sort((a, b) => b.log - a.log);
  const kept = sorted.filter((entry) => entry.log > sorted[0]!.log + Math.log(NEGLIGIBLE));
  const weights = normalised(kept.map((entry) => entry.log));
  return kept.map(({ log: _, ...entry }, i) => ({ ...entry, probability: weights[i]! }));
}

/** Too many faults for one lamp, or no name at all: perhaps it is another lamp. */
function lampIsSuspicious(
  bench: Bench,
  readings: readonly KnownReading[],
  found: readonly Weighable[],
  lampIndex: number,
): boolean {
  const own = readings.map(({ line }, i) => ({ line, i })).filter(({ line }) => line.lampIndex === lampIndex);
  if (own.length < 3 || own.every(({ line }) => line.confirmed)) return false;
  if (
    bench.known[lampIndex]!.substances.length === 0 &&
    own.some(({ line }) => line.statedWavelengthNm === null)
  ) {
    return true;
  }
  const best = [...found].sort((a, b) => b.log - a.log)[0];
  if (!best) return true;
  const faults = own.filter(({ i }) => !['as-stated', 'assigned'].includes(best.choices[i]!.kind)).length;
  return faults >= Math.max(2, own.length / 3);
}

function orientations(bench: Bench, readings: readonly KnownReading[]): boolean[] {
  if (bench.method !== 'scale') return [true];
  const stated = readings.filter(({ line }) => line.statedWavelengthNm !== null);
  if (stated.length < 2) return [true, false];
  const meanNm = stated.reduce((sum, { line }) => sum + line.statedWavelengthNm!, 0) / stated.length;
  const meanY = stated.reduce((sum, { observation }) => sum + observation.ordinate, 0) / stated.length;
  const together = stated.reduce(
    (sum, { line, observation }) =>
      sum + (line.statedWavelengthNm! - meanNm) * (observation.ordinate - meanY),
    0,
  );
  return [together < 0];
}

function spreadOf(readings: readonly KnownReading[]): { low: number; high: number } {
  const ordinates = readings.map(({ observation }) => observation.ordinate);
  return { low: Math.min(...ordinates), high: Math.max(...ordinates) };
}

/** A reading that has nothing to do with its line may lie anywhere over this range of ordinates. */
function strayRange(bench: Bench, readings: readonly KnownReading[]): number {
  if (bench.method !== 'scale') return 600;
  const { low, high } = spreadOf(readings);
  return 1.5 * (high - low) + 20 * bench.leastCount;
}

function widePrior(bench: Bench, readings: readonly KnownReading[]): CurvePrior {
  if (bench.method !== 'scale') return prismPrior(bench.prism, null);
  const { low, high } = spreadOf(readings);
  return scalePrior((low + high) / 2, high - low + 10 * bench.leastCount, null);
}

function weighable(
  bench: Bench,
  readings: readonly KnownReading[],
  explanation: Explanation,
  lampTakenFor: readonly (string | null)[],
  lampPrior: number,
  scatter: ScatterPrior,
): Weighable | null {
  const points = explanation.choices.flatMap((choice, i): CurvePoint[] => {
    const { observation } = readings[i]!;
    if (choice.wavelengthNm === null) return [];
    return [
      {
        wavelengthNm: choice.wavelengthNm,
        wavelengthVariance: choice.wavelengthVariance,
        ordinate: observation.ordinate + (choice.slip?.correction ?? 0),
        resolutionVariance: observation.resolutionVariance,
        settingShare: observation.settingShare,
      },
    ];
  });
  if (new Set(points.map((point) => point.wavelengthNm)).size < 2) return null;
  const posterior = localPosterior(bench, readings, points, scatter);
  if (accusesForNothing(readings, explanation.choices, posterior)) return null;
  const aside = explanation.choices.length - points.length;
  const logStray = -aside * Math.log(strayRange(bench, readings));
  const log = explanation.logPrior + lampPrior + logStray + posterior.logEvidence;
  return { choices: explanation.choices, lampTakenFor, points, posterior, log };
}

/** First with a wide prior; then with the one that belongs to the dispersion found, if that is known by then. */
export function localPosterior(
  bench: Bench,
  readings: readonly KnownReading[],
  points: readonly CurvePoint[],
  scatter: ScatterPrior,
): CurvePosterior {
  const first = curvePosterior(prismBasis, widePrior(bench, readings), points, scatter);
  const dispersion = first.constants.mean[1]!;
  const uncertain = Math.sqrt(first.constants.covariance[prismBasis.size + 1]!) > 0.3 * Math.abs(dispersion);
  if (uncertain) return first;
  if (bench.method !== 'scale') {
    return curvePosterior(prismBasis, prismPrior(bench.prism, dispersion), points, scatter);
  }
  const { low, high } = spreadOf(readings);
  const prior = scalePrior((low + high) / 2, high - low + 10 * bench.leastCount, dispersion);
  return curvePosterior(prismBasis, prior, points, scatter);
}

/** How many standard uncertainties a neighbour must differ from the stated line before it is worth a doubt. */
const WORTH_A_DOUBT = 4;

/** A neighbour that the bench cannot tell from the stated line (577 for 579 on a crown prism) is no fault. */
function accusesForNothing(
  readings: readonly KnownReading[],
  choices: readonly LineChoice[],
  { basis, constants, settingVariance }: CurvePosterior,
): boolean {
  return choices.some((choice, i) => {
    const { line, observation } = readings[i]!;
    if (choice.kind !== 'neighbour' || line.statedWavelengthNm === null) return false;
    const stated = predicted(constants, basis.at(line.statedWavelengthNm)).ordinate;
    const other = predicted(constants, basis.at(choice.wavelengthNm!)).ordinate;
    const u = Math.sqrt(observation.resolutionVariance + observation.settingShare * settingVariance);
    return Math.abs(stated - other) < WORTH_A_DOUBT * u;
  });
}
