/**
 * Which wavelength belongs to which known reading, and which readings are misread: the likeliest explanations,
 * found by following many of them at once along the spectrum while each one's curve is learned reading by
 * reading. What an explanation predicts for the next line weighs it.
 */
import { logNormalDensity } from '../numeric/normal.ts';
import { type CurveBasis, prismBasis } from './basis.ts';
import { type GaussianConstants, learned, predicted, startingConstants } from './gaussian-curve.ts';
import { FAULT_CHANCE, type LineChoice, SAME_ENTRY_NM } from './line-choices.ts';
import type { Observation } from './observation.ts';
import type { PassedOver } from './passed-over.ts';
import type { CurvePrior } from './prism-prior.ts';

/** A known line with everything it may be. */
export interface KnownItem {
  readonly observation: Observation;
  readonly choices: readonly LineChoice[];
  /** Of its lamp. */
  readonly passedOver: PassedOver;
}

export interface Explanation {
  /** In the order of the items given. */
  readonly choices: readonly LineChoice[];
  /** ln prior of these choices together. */
  readonly logPrior: number;
  /** ln weight, the readings included, at the usual scatter and with a wide prior of the curve. */
  readonly log: number;
}

export interface SearchOptions {
  readonly prior: CurvePrior;
  /** Of one setting, unit². */
  readonly settingVariance: number;
  /** Does the wavelength fall as the ordinate rises? True on a circle. */
  readonly wavelengthFalls: boolean;
  /** ln density of a reading that has nothing to do with its line. */
  readonly logStray: number;
  /** How many explanations are followed at once, and returned. */
  readonly width: number;
}

interface Trail {
  readonly constants: GaussianConstants;
  readonly logPrior: number;
  readonly log: number;
  /** The choice for the last reading, and the trail up to it; null at the start. */
  readonly pick: { readonly choice: LineChoice; readonly before: Trail } | null;
  /** The last line, if it was given a wrong name: the name and the right one. */
  readonly misnamed: Misnamed | null;
  /** The last line that was not set aside and not misread. */
  readonly last: { readonly nm: number; readonly variance: number; readonly ordinate: number } | null;
}

interface Misnamed {
  readonly statedNm: number;
  readonly rightNm: number;
  /** How many lines in a row are named too far towards one side. */
  readonly inARow: number;
}

/** After a line that was named for another one: the next is named alike, the two are exchanged, or all is well again. */
const AFTER_ONE = { again: Math.log(0.45), exchanged: Math.log(0.2), inStep: Math.log(0.35) } as const;
/** Who has lost the place in the table twice does not find it soon. */
const AFTER_MORE = { again: Math.log(0.85), exchanged: Math.log(0.01), inStep: Math.log(0.14) } as const;
/** What a choice's own prior already holds of being named for a line on that side. */
const ONE_SIDE = Math.log(FAULT_CHANCE.neighbour / 2);
const GIVEN_TWICE = Math.log(0.03);
/** The same reading under two names is likelier than two readings of one line. */
const READ_TWICE = Math.log(0.2);
/** An explanation this far behind, in ln, does not come back. */
const HOPELESS = 24;
/** A pair read as one line and a line of its own cannot be closer than this. */
const PAIR_APART_NM = 1.6;

/** The likeliest explanations, best first. */
export function searchExplanations(items: readonly KnownItem[], options: SearchOptions): Explanation[] {
  const order = items
    .map((_, i) => i)
    .sort((a, b) => items[a]!.observation.ordinate - items[b]!.observation.ordinate);
  const valuesAt = cachedBasis(prismBasis);
  const constants = startingConstants(options.prior);
  let trails: Trail[] = [{ constants, logPrior: 0, log: 0, pick: null, misnamed: null, last: null }];
  for (const position of order) {
    const item = items[position]!;
    trails = bestSteps(trails, item, options, valuesAt).map((step) =>
      followed(step, item, options, valuesAt),
    );
  }
  return trails.map((trail) => {
    const picks = picksOf(trail);
    return {
      choices: items.map((_, i) => picks[order.indexOf(i)]!),
      logPrior: trail.logPrior,
      log: trail.log,
    };
  });
}

function picksOf(trail: Trail): LineChoice[] {
  const picks: LineChoice[] = [];
  for (let at = trail; at.pick !== null; at = at.pick.before) picks.push(at.pick.choice);
  return picks.reverse();
}

/** One more reading understood; its curve is learned only when the step is taken. */
interface Step {
  readonly trail: Trail;
  readonly choice: LineChoice;
  /** ln prior of the choice after this trail. */
  readonly added: number;
  readonly log: number;
}

type ValuesAt = (nm: number) => BasisValues;

function bestSteps(
  trails: readonly Trail[],
  item: KnownItem,
  options: SearchOptions,
  valuesAt: ValuesAt,
): Step[] {
  let steps: Step[] = [];
  let worthwhile = Number.NEGATIVE_INFINITY;
  for (const trail of trails) {
    for (const choice of item.choices) {
      const added = addedPrior(trail, item, choice, options);
      // No density exceeds that of a reading exactly where it is expected.
      const atMost = trail.log + added + logNormalDensity(0, ownVariance(item, choice, options));
      if (choice.wavelengthNm !== null && atMost < worthwhile) continue;
      const log = trail.log + added + logLikelihood(trail, item, choice, options, valuesAt);
      if (log < worthwhile) continue;
      steps.push({ trail, choice, added, log });
      worthwhile = Math.max(worthwhile, log - HOPELESS);
    }
  }
  steps = steps.filter((step) => step.log > worthwhile);
  return steps.sort((a, b) => b.log - a.log).slice(0, options.width);
}

/** ln prior of a choice after a trail; -Infinity where the order of the lines would be broken. */
function addedPrior(trail: Trail, item: KnownItem, choice: LineChoice, options: SearchOptions): number {
  if (choice.wavelengthNm === null) return choice.logPrior;
  return choice.logPrior + neighbourPrior(trail, item, choice, options) + givenTwice(trail, item, choice);
}

/** Variance of the reading apart from the curve's and the wavelength's. */
function ownVariance({ observation }: KnownItem, choice: LineChoice, options: SearchOptions): number {
  const setting = observation.settingShare * options.settingVariance;
  return observation.resolutionVariance + setting + (choice.excess?.variance ?? 0);
}

/** The reading as it should have been. */
function mended({ observation }: KnownItem, choice: LineChoice): number {
  return observation.ordinate + (choice.slip?.correction ?? 0) - (choice.excess?.mean ?? 0);
}

/** Its variance for this curve, the wavelength's own included. */
function readingVariance(
  trail: Trail,
  item: KnownItem,
  choice: LineChoice,
  options: SearchOptions,
  { slopes }: BasisValues,
): number {
  const own = ownVariance(item, choice, options);
  if (choice.wavelengthVariance === 0) return own;
  return own + choice.wavelengthVariance * predicted(trail.constants, slopes).ordinate ** 2;
}

function logLikelihood(
  trail: Trail,
  item: KnownItem,
  choice: LineChoice,
  options: SearchOptions,
  valuesAt: ValuesAt,
): number {
  if (choice.wavelengthNm === null) return options.logStray;
  const at = valuesAt(choice.wavelengthNm);
  const expected = predicted(trail.constants, at.values);
  const variance = expected.variance + readingVariance(trail, item, choice, options, at);
  return logNormalDensity(mended(item, choice) - expected.ordinate, variance);
}

function followed(
  { trail, choice, added, log }: Step,
  item: KnownItem,
  options: SearchOptions,
  valuesAt: ValuesAt,
): Trail {
  const common = { logPrior: trail.logPrior + added, log, pick: { choice, before: trail } };
  const nm = choice.wavelengthNm;
  if (nm === null) return { ...trail, ...common };
  const at = valuesAt(nm);
  const ordinate = mended(item, choice);
  const variance = readingVariance(trail, item, choice, options, at);
  return {
    ...common,
    constants: learned(trail.constants, at.values, ordinate, variance),
    misnamed: misnamedBy(trail, choice, item),
    last: choice.slip ? trail.last : { nm, variance: choice.wavelengthVariance, ordinate },
  };
}

/** One line of the lamp is hardly read twice at two places, once under another name. */
function givenTwice(trail: Trail, item: KnownItem, choice: LineChoice): number {
  for (let at = trail; at.pick !== null; at = at.pick.before) {
    const { kind, wavelengthNm } = at.pick.choice;
    const isSame = wavelengthNm !== null && Math.abs(wavelengthNm - choice.wavelengthNm!) < SAME_ENTRY_NM;
    if (!isSame || (kind !== 'neighbour' && choice.kind !== 'neighbour')) continue;
    return trail.last?.ordinate === item.observation.ordinate ? READ_TWICE : GIVEN_TWICE;
  }
  return 0;
}

function misnamedBy(trail: Trail, choice: LineChoice, item: KnownItem): Misnamed | null {
  const statedNm = item.choices[0]?.wavelengthNm ?? null;
  const rightNm = choice.wavelengthNm;
  if (choice.kind !== 'neighbour' || rightNm === null || statedNm === null) return null;
  const before = trail.misnamed;
  const goesOn = before !== null && rightNm > statedNm === before.rightNm > before.statedNm;
  return { statedNm, rightNm, inARow: goesOn ? before.inARow + 1 : 1 };
}

/** What the last line's choice says of this one; -Infinity where the order of the lines would be broken. */
function neighbourPrior(trail: Trail, item: KnownItem, choice: LineChoice, options: SearchOptions): number {
  const nm = choice.wavelengthNm!;
  const free = choice.kind === 'neighbour' || choice.kind === 'assigned';
  const { last } = trail;
  if (free && last !== null && !choice.slip) {
    // Two readings of the same place may be one line written down twice.
    const again = Math.abs(nm - last.nm) < SAME_ENTRY_NM && item.observation.ordinate === last.ordinate;
    const ahead = options.wavelengthFalls ? nm < last.nm : nm > last.nm;
    if (!again && !ahead) return Number.NEGATIVE_INFINITY;
    const eitherPair = choice.wavelengthVariance > 0.1 || last.variance > 0.1;
    if (choice.kind === 'assigned' && eitherPair && Math.abs(nm - last.nm) < PAIR_APART_NM) {
      return Number.NEGATIVE_INFINITY;
    }
  }
  if (choice.kind === 'assigned') return last === null ? 0 : item.passedOver(last.nm, nm);
  return afterMisnamed(trail, item, choice);
}

function afterMisnamed(trail: Trail, item: KnownItem, choice: LineChoice): number {
  const before = trail.misnamed;
  if (before === null) return 0;
  const chances = before.inARow > 1 ? AFTER_MORE : AFTER_ONE;
  const now = misnamedBy(trail, choice, item);
  if (now === null) return chances.inStep;
  if (now.inARow > before.inARow) return chances.again - ONE_SIDE;
  const isExchange =
    Math.abs(now.rightNm - before.statedNm) < SAME_ENTRY_NM &&
    Math.abs(now.statedNm - before.rightNm) < SAME_ENTRY_NM;
  // To which line this one belongs is settled by the exchange, no longer by how often that line is taken.
  return isExchange ? chances.exchanged - choice.logPrior : 0;
}

interface BasisValues {
  readonly values: Float64Array;
  readonly slopes: Float64Array;
}

function cachedBasis(basis: CurveBasis): (nm: number) => BasisValues {
  const cache = new Map<number, BasisValues>();
  return (nm) => {
    const known = cache.get(nm);
    if (known) return known;
    const fresh = { values: basis.at(nm), slopes: basis.slopeAt(nm) };
    cache.set(nm, fresh);
    return fresh;
  };
}
