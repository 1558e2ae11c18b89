/** All explanations of a bench's known lines, each with its curve and its probability. */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { lampSpectrum, tubes } from '../../lines/table.ts';
import type { BenchConstants } from '../../observe/bench-constants.ts';
import { type ScatterPrior, usualScatter } from '../../observe/setting-scatter.ts';
import { readingAlternatives } from '../../observe/slip-hypotheses.ts';
import type { Bench } from '../../record/bench.ts';
import { centralIsOpposite } from '../central-findings.ts';
import { benchPrior, strayRange } from '../curve/bench-prior.ts';
import { basisValues, idealLogs, type SearchOptions, searchExplanations } from './beam-search.ts';
import type { KnownReading, WeighedExplanation } from './known-reading.ts';
import {
  isFault,
  type LineChoice,
  lampLines,
  linesOfTheTable,
  openChoices,
  statedChoices,
} from './line-hypotheses.ts';
import { passedOverOf } from './missed-lines-prior.ts';
import type { KnownItem } from './transition-prior.ts';
import { type Explained, everythingFits, explained, weighed } from './weigh-assignment.ts';

/** Explanations followed at once: enough that the first two lines, which any curve fits, lose none worth having. */
const FOLLOWED = { believed: 100, otherLamp: 20 } as const;
/** Up to this many readings; of more readings fewer explanations are followed, so that the time stays in bounds. */
const USUAL_READINGS = 40;
const FEWEST_FOLLOWED = 4;
/** Other lamps are tried for this many suspicious ones, the most faulty first, and for no larger table than this. */
const OTHER_LAMPS = { mostSuspects: 2, mostReadings: 80, farBehind: 8 } as const;
/** Explanations whose curve is computed in full; those this far behind, in ln, are not. */
const COMPUTED = { believed: 30, otherLamp: 3, farBehind: 12 } as const;
/** A line assigned this close to its stated wavelength is the stated one. */
const SAME_LINE_NM = 2.5;
/** Prior that a lamp is not what it is said to be: half of it for the lamps that calibrations use, half for all. */
const WRONG_LAMP_CHANCE = 0.006;
/** Common practice, no source. */
const CALIBRATION_LAMPS: readonly string[] = ['mercury', 'helium', 'hydrogen', 'sodium', 'cadmium', 'neon'];

/** Best first, probabilities summing to 1; empty when there are fewer than two readings to learn from. */
export function explainKnownLines(
  bench: Bench,
  readings: readonly KnownReading[],
  constants: BenchConstants,
  scatter: ScatterPrior,
): WeighedExplanation[] {
  if (readings.length < 2) return [];
  // With a central image 180° off no line is where it should be, and none is to blame.
  const ordinates = readings.map(({ observation }) => observation.ordinate);
  if (bench.method === 'central' && centralIsOpposite(ordinates)) return [];
  const settingVariance = usualScatter(bench) ** 2;
  const believed: readonly (TubeSpectrum | null)[] = bench.known.map(() => null);
  const plain = takenAsStated(bench, readings, scatter);
  if (plain && everythingFits(readings, plain, settingVariance)) return weighed([plain]);

  const slips = readings.map(({ line, observation }) =>
    readingAlternatives(bench, line.settings, observation, constants, settingVariance),
  );
  const task: SearchTask = { bench, readings, slips, scatter, settingVariance, valuesAt: basisValues() };
  const searched = searchNames(task, believed, null);
  // The search knows the usual scatter only: a hand that shakes more makes no faults of it.
  const isThere = searched.found.some(({ choices }) => !choices.some(isFault));
  const faultless = isThere ? null : takenAsStated(bench, readings, scatter, searched.found[0]?.choices);
  const found = faultless === null ? searched.found : [...searched.found, faultless];
  const others = suspects(bench, readings, searched.found).flatMap((lampIndex) => {
    const { substances } = bench.known[lampIndex]!;
    const instead = (tube: TubeSpectrum): Explained[] =>
      searchNames(task, believed.with(lampIndex, tube), searched.bestLog).found;
    const otherLamps = tubes.filter((tube) => !substances.includes(tube.substance)).flatMap(instead);
    const renamed = substances.length > 0 ? instead(lampSpectrum(substances)) : [];
    return [...otherLamps, ...renamed.map((entry) => ofItsOwnLamp(entry, readings, lampIndex))];
  });
  return weighed([...found, ...others]);
}

/** What all searches of one bench have in common. */
interface SearchTask extends Pick<SearchOptions, 'settingVariance' | 'valuesAt'> {
  readonly bench: Bench;
  readonly readings: readonly KnownReading[];
  /** Of each reading. */
  readonly slips: readonly ReturnType<typeof readingAlternatives>[];
  readonly scatter: ScatterPrior;
}

/**
 * The likeliest explanations with some lamps taken for others (null: taken for what it is said to be), and the `log`
 * of the best in the search. `toBeat`: that of the lamps as they are said to be, or null in this very search.
 */
function searchNames(
  task: SearchTask,
  takenFor: readonly (TubeSpectrum | null)[],
  toBeat: number | null,
): { found: Explained[]; bestLog: number } {
  const { bench, readings, settingVariance, valuesAt } = task;
  const items = knownItems(bench, readings, takenFor, task.slips);
  const kind = toBeat === null ? 'believed' : 'otherLamp';
  const lampTakenFor = takenFor.map((lamp) => lamp?.substance ?? null);
  const lampPrior = takenFor.reduce((sum, lamp) => sum + (lamp ? Math.log(wrongLampChance(lamp)) : 0), 0);
  const options = { prior: benchPrior(bench, readings, null), settingVariance, valuesAt };
  const stated = readings.map(({ line, observation }) => ({ observation, nm: line.statedWavelengthNm }));
  const rival =
    toBeat === null
      ? null
      : { worthLog: toBeat - lampPrior - OTHER_LAMPS.farBehind, ideal: idealLogs(stated, options) };
  const found = orientations(bench, readings).map((wavelengthFalls) =>
    searchExplanations(items, {
      ...options,
      wavelengthFalls,
      logStray: -Math.log(strayRange(bench, readings)),
      width: widthFor(kind, readings.length),
      rival,
    }),
  );
  const near = found.flatMap((explanations) => {
    const lowest = Math.max(
      (explanations[0]?.log ?? 0) - COMPUTED.farBehind,
      rival?.worthLog ?? Number.NEGATIVE_INFINITY,
    );
    return explanations.slice(0, COMPUTED[kind]).filter(({ log }) => log > lowest);
  });
  return {
    found: near.flatMap(({ choices, logPrior }) => {
      const proposed = { choices, logPrior: logPrior + lampPrior, lampTakenFor };
      return explained(bench, readings, proposed, task.scatter) ?? [];
    }),
    bestLog: Math.max(...found.map((explanations) => explanations[0]?.log ?? Number.NEGATIVE_INFINITY)),
  };
}

function wrongLampChance({ substance }: TubeSpectrum): number {
  const isUsual = CALIBRATION_LAMPS.includes(substance);
  return WRONG_LAMP_CHANCE * (0.5 / tubes.length + (isUsual ? 0.5 / CALIBRATION_LAMPS.length : 0));
}

/** All names of a lamp's lines disbelieved, the lamp itself not: lines named wrongly, one by one. */
function ofItsOwnLamp(entry: Explained, readings: readonly KnownReading[], lampIndex: number): Explained {
  const choices = entry.choices.map((choice, i): LineChoice => {
    const { line } = readings[i]!;
    const { statedWavelengthNm } = line;
    if (line.lampIndex !== lampIndex || statedWavelengthNm === null || choice.wavelengthNm === null)
      return choice;
    const same = Math.abs(choice.wavelengthNm - statedWavelengthNm) < SAME_LINE_NM;
    return { ...choice, kind: same ? 'as-stated' : 'neighbour' };
  });
  const lampTakenFor = entry.lampTakenFor.map((lamp, i) => (i === lampIndex ? null : lamp));
  return { ...entry, choices, lampTakenFor };
}

/** `takenFor`: for each lamp the tube it is taken for instead, or null; `slips`: of each reading. */
function knownItems(
  bench: Bench,
  readings: readonly KnownReading[],
  takenFor: readonly (TubeSpectrum | null)[],
  slips: readonly ReturnType<typeof readingAlternatives>[],
): KnownItem[] {
  const lamps = bench.known.map(({ lines: named, substances }, i) => {
    const other = takenFor[i] ?? null;
    const shown = lampLines(other ?? lampSpectrum(substances));
    // The names of another lamp's lines come from another table.
    const isOther = other !== null && !substances.includes(other.substance);
    const stated = named.flatMap((line) => line.statedWavelengthNm ?? []);
    const lines = isOther ? shown : linesOfTheTable(shown, stated);
    return { lines, passedOver: passedOverOf(lines) };
  });
  return readings.map(({ line, observation }, i) => {
    const { lines, passedOver } = lamps[line.lampIndex]!;
    // A lamp mistaken for another is one fault; slips on top of it are not looked for.
    if (takenFor[line.lampIndex]) return { observation, passedOver, choices: openChoices(line, lines, []) };
    const { statedWavelengthNm } = line;
    const choices =
      statedWavelengthNm === null
        ? likeliestChoices(openChoices(line, lines, slips[i]!), readings.length)
        : statedChoices(line, statedWavelengthNm, lines, slips[i]!);
    return { observation, passedOver, choices };
  });
}

/** Steps of one search, readings times explanations followed times choices: some tenths of a second. */
const MOST_STEPS = 1_000_000;

/** Of a line that may be any of a rich lamp with any slip, the choices that the search has the time to try. */
function likeliestChoices(choices: LineChoice[], readings: number): LineChoice[] {
  const most = Math.floor(MOST_STEPS / (readings * widthFor('believed', readings)));
  if (choices.length <= most) return choices;
  return [...choices].sort((a, b) => b.logPrior - a.logPrior).slice(0, most);
}

/**
 * Every line as the record states it, and where it states nothing as `otherwise` assigns it; null where neither says
 * which line it is.
 */
function takenAsStated(
  bench: Bench,
  readings: readonly KnownReading[],
  scatter: ScatterPrior,
  otherwise: readonly LineChoice[] = [],
): Explained | null {
  const lamps = bench.known.map((lamp) => lampLines(lampSpectrum(lamp.substances)));
  const choices = readings.flatMap(({ line }, i): LineChoice[] => {
    if (line.statedWavelengthNm !== null)
      return statedChoices(line, line.statedWavelengthNm, lamps[line.lampIndex]!, []).slice(0, 1);
    const choice = otherwise[i];
    return choice && !isFault(choice) ? [choice] : [];
  });
  if (choices.length < readings.length) return null;
  const lampTakenFor = bench.known.map(() => null);
  const logPrior = choices.reduce((sum, choice) => sum + choice.logPrior, 0);
  return explained(bench, readings, { choices, logPrior, lampTakenFor }, scatter);
}

function widthFor(kind: keyof typeof FOLLOWED, readings: number): number {
  const width = Math.round((FOLLOWED[kind] * USUAL_READINGS) / Math.max(readings, USUAL_READINGS));
  return Math.max(FEWEST_FOLLOWED, width);
}

/** Indexes of the lamps that are perhaps other lamps, the most faulty first. */
function suspects(
  bench: Bench,
  readings: readonly KnownReading[],
  found: readonly Explained[],
): readonly number[] {
  if (readings.length > OTHER_LAMPS.mostReadings) return [];
  return bench.known
    .map((_, lampIndex) => ({ lampIndex, suspicion: suspicionOf(bench, readings, found, lampIndex) }))
    .filter(({ suspicion }) => suspicion > 0)
    .sort((a, b) => b.suspicion - a.suspicion)
    .slice(0, OTHER_LAMPS.mostSuspects)
    .map(({ lampIndex }) => lampIndex);
}

/** The part of a lamp's lines that are faulty where that is too much for one lamp, 1 where it has no name at all; else 0. */
function suspicionOf(
  bench: Bench,
  readings: readonly KnownReading[],
  found: readonly Explained[],
  lampIndex: number,
): number {
  const own = readings.map(({ line }, i) => ({ line, i })).filter(({ line }) => line.lampIndex === lampIndex);
  if (own.length < 3 || own.every(({ line }) => line.confirmed)) return 0;
  if (
    bench.known[lampIndex]!.substances.length === 0 &&
    own.some(({ line }) => line.statedWavelengthNm === null)
  ) {
    return 1;
  }
  if (found.length === 0) return 1;
  const best = found.reduce((lead, entry) => (entry.log > lead.log ? entry : lead));
  const faults = own.filter(({ i }) => isFault(best.choices[i]!)).length;
  return faults >= Math.max(2, own.length / 3) ? faults / own.length : 0;
}

/** Does the wavelength fall as the ordinate rises? On a scale whose lines have no wavelengths it may be either. */
function orientations(bench: Bench, readings: readonly KnownReading[]): boolean[] {
  if (bench.method !== 'scale') return [true];
  const stated = readings.flatMap(({ line, observation }) =>
    line.statedWavelengthNm === null ? [] : [{ nm: line.statedWavelengthNm, y: observation.ordinate }],
  );
  if (stated.length < 2) return [true, false];
  const meanNm = stated.reduce((sum, { nm }) => sum + nm, 0) / stated.length;
  const meanY = stated.reduce((sum, { y }) => sum + y, 0) / stated.length;
  return [stated.reduce((sum, { nm, y }) => sum + (nm - meanNm) * (y - meanY), 0) < 0];
}
