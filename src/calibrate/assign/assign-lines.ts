/** All explanations of a bench's known lines, each with its curve and its probability. */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { lampSpectrum, tubes } from '../../lines/table.ts';
import { sumOf } from '../../numeric/sum.ts';
import type { BenchConstants } from '../../observe/bench-constants.ts';
import { type ScatterPrior, usualScatter } from '../../observe/setting-scatter.ts';
import { type ReadingAlternative, readingAlternatives } from '../../observe/slip-hypotheses.ts';
import type { Bench } from '../../record/bench.ts';
import * as assumed from '../assumptions.ts';
import { centralIsOpposite } from '../central-findings.ts';
import { benchPrior, strayRange } from '../curve/bench-prior.ts';
import { basisValues, idealLogs, type SearchOptions, searchExplanations } from './beam-search.ts';
import type { KnownReading, WeighedExplanation } from './known-reading.ts';
import {
  isFault,
  type LineChoice,
  lampLines,
  lampTable,
  linesOfTheTable,
  openChoices,
  statedChoices,
} from './line-hypotheses.ts';
import { type KnownItem, passedOverOf } from './transition-prior.ts';
import { type Explained, everythingFits, explained, weighed } from './weigh-assignment.ts';

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
  const asUsual = faultless === null ? searched.found : [...searched.found, faultless];
  const isShaking = shakes(asUsual, settingVariance);
  const found = isShaking || isFaulty(asUsual) ? [...asUsual, ...withAShakingHand(task, asUsual)] : asUsual;
  const suspected = suspects(task, searched.found);
  const others = suspected.flatMap((lampIndex) => {
    const { substances } = bench.known[lampIndex]!;
    return tubes
      .filter((tube) => !substances.includes(tube.substance))
      .flatMap((tube) => searchNames(task, believed.with(lampIndex, tube), searched.bestLog).found);
  });
  const guessed = (isShaking ? [...bench.known.keys()] : suspected).flatMap((lampIndex) =>
    namedByGuess(task, believed, lampIndex, searched.bestLog),
  );
  return weighed([...found, ...others, ...guessed]);
}

function bestOf(found: readonly Explained[]): Explained | null {
  return found.reduce<Explained | null>(
    (lead, entry) => (lead === null || entry.log > lead.log ? entry : lead),
    null,
  );
}

function shakes(found: readonly Explained[], usualVariance: number): boolean {
  const best = bestOf(found);
  return best !== null && best.posterior.settingVariance > assumed.SHAKING ** 2 * usualVariance;
}

function isFaulty(found: readonly Explained[]): boolean {
  return (bestOf(found)?.choices.filter(isFault).length ?? 0) >= assumed.MANY_FAULTS;
}

/** What only a search with a larger scatter finds: few faults, and everything else a little off. */
function withAShakingHand(task: SearchTask, known: readonly Explained[]): Explained[] {
  const settingVariance = assumed.SHAKING_HAND ** 2 * task.settingVariance;
  const believed = task.bench.known.map(() => null);
  return searchNames({ ...task, settingVariance }, believed, null).found.filter(
    (entry) => !known.some((other) => isSame(entry, other)),
  );
}

function isSame(one: Explained, other: Explained): boolean {
  return one.choices.every(
    ({ wavelengthNm, slip }, i) =>
      wavelengthNm === other.choices[i]!.wavelengthNm && slip === other.choices[i]!.slip,
  );
}

/** A lamp's lines named anew without a look at the names they have; `toBeat` as in `searchNames`. */
function namedByGuess(
  task: SearchTask,
  believed: readonly (TubeSpectrum | null)[],
  lampIndex: number,
  toBeat: number,
): Explained[] {
  const { bench } = task;
  const { substances, lines } = bench.known[lampIndex]!;
  const isOpen = substances.length > 0 && !lines.some(({ confirmed }) => confirmed);
  if (!isOpen || lines.length < assumed.FEWEST_TO_SUSPECT) return [];
  const own = searchNames(task, believed.with(lampIndex, lampSpectrum(substances)), toBeat).found.flatMap(
    (entry) => ofItsOwnLamp(task, entry, lampIndex) ?? [],
  );
  // The two of a pair and their middle are all the line as stated; the likeliest stands for them.
  const best = own.toSorted((a, b) => b.log - a.log);
  return best.filter((entry, i) => best.findIndex((other) => isSame(entry, other)) === i);
}

/** What all searches of one bench have in common. */
interface SearchTask extends Pick<SearchOptions, 'settingVariance' | 'valuesAt'> {
  readonly bench: Bench;
  readonly readings: readonly KnownReading[];
  /** Of each reading. */
  readonly slips: readonly (readonly ReadingAlternative[])[];
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
  const items = knownItems(task, takenFor);
  const kind = toBeat === null ? 'believed' : 'otherLamp';
  const lampTakenFor = takenFor.map((lamp) => lamp?.substance ?? null);
  const lampPrior = sumOf(takenFor, (lamp, i) =>
    lamp ? Math.log(wrongLampChance(lamp, bench.known[i]!.substances)) : 0,
  );
  const options = { prior: benchPrior(bench, readings, null), settingVariance, valuesAt };
  const stated = readings.map(({ line, observation }) => ({ observation, nm: line.statedWavelengthNm }));
  const rival =
    toBeat === null
      ? null
      : { worthLog: toBeat - lampPrior - assumed.OTHER_LAMPS.farBehind, ideal: idealLogs(stated, options) };
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
      (explanations[0]?.log ?? 0) - assumed.COMPUTED.farBehind,
      rival?.worthLog ?? Number.NEGATIVE_INFINITY,
    );
    return explanations.slice(0, assumed.COMPUTED[kind]).filter(({ log }) => log > lowest);
  });
  return {
    found: near.flatMap(({ choices, logPrior }) => {
      const proposed = { choices, logPrior: logPrior + lampPrior, lampTakenFor };
      return explained(bench, readings, proposed, task.scatter) ?? [];
    }),
    bestLog: Math.max(...found.map((explanations) => explanations[0]?.log ?? Number.NEGATIVE_INFINITY)),
  };
}

function wrongLampChance({ substance }: TubeSpectrum, said: readonly string[]): number {
  if (said.length > 0 && substance === lampSpectrum(said).substance) return assumed.NAMED_BY_GUESS_CHANCE;
  const isUsual = assumed.CALIBRATION_LAMPS.includes(substance);
  const ofUsual = isUsual ? 0.5 / assumed.CALIBRATION_LAMPS.length : 0;
  return assumed.WRONG_LAMP_CHANCE * (0.5 / tubes.length + ofUsual);
}

/** All names of a lamp's lines disbelieved, the lamp itself not: lines named wrongly, one by one. */
function ofItsOwnLamp(
  { bench, readings, scatter }: SearchTask,
  { choices, lampTakenFor, logPrior }: Explained,
  lampIndex: number,
): Explained | null {
  const own = choices.map((choice, i): LineChoice => {
    const { line } = readings[i]!;
    const { statedWavelengthNm: statedNm } = line;
    if (line.lampIndex !== lampIndex || statedNm === null || choice.wavelengthNm === null) return choice;
    // The lines of a pair stand for each other.
    const same = Math.abs(choice.wavelengthNm - statedNm) < assumed.PAIR_NM;
    return same
      ? { ...choice, kind: 'as-stated', wavelengthNm: statedNm }
      : { ...choice, kind: 'neighbour', logPrior: Math.log(assumed.NAMED_BY_GUESS_CHANCE) };
  });
  const itself = lampTakenFor.map((lamp, i) => (i === lampIndex ? null : lamp));
  return explained(bench, readings, { choices: own, logPrior, lampTakenFor: itself }, scatter);
}

/** `takenFor`: for each lamp the tube it is taken for instead, or null. */
function knownItems(
  { bench, readings, slips }: SearchTask,
  takenFor: readonly (TubeSpectrum | null)[],
): KnownItem[] {
  const lamps = bench.known.map(({ lines: named, substances }, i) => {
    const other = takenFor[i] ?? null;
    const shown = lampLines(other ?? lampSpectrum(substances));
    // The names of another lamp's lines come from another table.
    const isOther = other !== null && !substances.includes(other.substance);
    const stated = named.flatMap((line) => line.statedWavelengthNm ?? []);
    const lines = isOther ? shown : linesOfTheTable(shown, stated);
    return { ...lampTable(lampSpectrum(substances), stated, lines), passedOver: passedOverOf(lines) };
  });
  return readings.map(({ line, observation }, i) => {
    const lamp = lamps[line.lampIndex]!;
    const { lines, passedOver } = lamp;
    // A lamp mistaken for another is one fault; slips on top of it are not looked for.
    if (takenFor[line.lampIndex]) return { observation, passedOver, choices: openChoices(line, lines, []) };
    const { statedWavelengthNm } = line;
    const choices =
      statedWavelengthNm === null
        ? likeliestChoices(openChoices(line, lines, slips[i]!), readings.length)
        : statedChoices(line, statedWavelengthNm, lamp, slips[i]!);
    return { observation, passedOver, choices };
  });
}

/** Of a line that may be any of a rich lamp with any slip, the choices that the search has the time to try. */
function likeliestChoices(choices: LineChoice[], readings: number): LineChoice[] {
  const most = Math.floor(assumed.MOST_STEPS / (readings * widthFor('believed', readings)));
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
  const lamps = bench.known.map(({ lines, substances }) =>
    lampTable(
      lampSpectrum(substances),
      lines.flatMap((line) => line.statedWavelengthNm ?? []),
    ),
  );
  const choices = readings.flatMap(({ line }, i): LineChoice[] => {
    if (line.statedWavelengthNm !== null)
      return statedChoices(line, line.statedWavelengthNm, lamps[line.lampIndex]!, []).slice(0, 1);
    const choice = otherwise[i];
    return choice && !isFault(choice) ? [choice] : [];
  });
  if (choices.length < readings.length) return null;
  const lampTakenFor = bench.known.map(() => null);
  const logPrior = sumOf(choices, (choice) => choice.logPrior);
  return explained(bench, readings, { choices, logPrior, lampTakenFor }, scatter);
}

function widthFor(kind: 'believed' | 'otherLamp', readings: number): number {
  const { FOLLOWED, USUAL_READINGS } = assumed;
  const width = Math.round((FOLLOWED[kind] * USUAL_READINGS) / Math.max(readings, USUAL_READINGS));
  return Math.max(FOLLOWED.fewest, width);
}

/** Indexes of the lamps that are perhaps other lamps, the most faulty first. */
function suspects(task: SearchTask, found: readonly Explained[]): readonly number[] {
  if (task.readings.length > assumed.OTHER_LAMPS.mostReadings) return [];
  return task.bench.known
    .map((_, lampIndex) => ({ lampIndex, suspicion: suspicionOf(task, found, lampIndex) }))
    .filter(({ suspicion }) => suspicion > 0)
    .sort((a, b) => b.suspicion - a.suspicion)
    .slice(0, assumed.OTHER_LAMPS.mostSuspects)
    .map(({ lampIndex }) => lampIndex);
}

/** The part of a lamp's lines that are faulty where that is too much for one lamp, 1 where it has no name at all; else 0. */
function suspicionOf(
  { bench, readings }: SearchTask,
  found: readonly Explained[],
  lampIndex: number,
): number {
  const own = readings.map(({ line }, i) => ({ line, i })).filter(({ line }) => line.lampIndex === lampIndex);
  if (own.length < assumed.FEWEST_TO_SUSPECT || own.every(({ line }) => line.confirmed)) return 0;
  const isUnnamed = bench.known[lampIndex]!.substances.length === 0;
  if (isUnnamed && own.some(({ line }) => line.statedWavelengthNm === null)) return 1;
  const best = bestOf(found);
  if (best === null) return 1;
  const faults = own.filter(({ i }) => isFault(best.choices[i]!)).length;
  // A line without a name may be any of the lamp's: one that is none of them without a slip is enough.
  const areNamed = own.some(({ line }) => line.statedWavelengthNm !== null);
  return faults >= (areNamed ? Math.max(2, own.length / 3) : 1) ? faults / own.length : 0;
}

/** Does the wavelength fall as the ordinate rises? On a scale whose lines have no wavelengths it may be either. */
function orientations(bench: Bench, readings: readonly KnownReading[]): boolean[] {
  if (bench.method !== 'scale') return [true];
  const stated = readings.flatMap(({ line, observation }) =>
    line.statedWavelengthNm === null ? [] : [{ nm: line.statedWavelengthNm, y: observation.ordinate }],
  );
  if (stated.length < 2) return [true, false];
  const meanNm = sumOf(stated, ({ nm }) => nm) / stated.length;
  return [sumOf(stated, ({ nm, y }) => (nm - meanNm) * y) < 0];
}
