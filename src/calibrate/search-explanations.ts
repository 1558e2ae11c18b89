/**
 * Which wavelength belongs to which known reading, and which readings are misread: the likeliest explanations,
 * found by following many of them at once along the spectrum while each one's curve is learned reading by
 * reading. What an explanation predicts for the next line weighs it.
 */
import { logNormalDensity } from '../numeric/normal.ts';
import { type CurveBasis, prismBasis } from './basis.ts';
import { type GaussianConstants, learned, predicted, startingConstants } from './gaussian-curve.ts';
import { FAULT_CHANCE, type LampLine, type LineChoice, SAME_ENTRY_NM } from './line-choices.ts';
import type { Observation } from './observation.ts';
import type { CurvePrior } from './prism-prior.ts';

/** A known line with everything it may be. */
export interface KnownItem {
  readonly observation: Observation;
  readonly choices: readonly LineChoice[];
  /** The lamp's lines, for what an assignment passes over. */
  readonly lamp: readonly LampLine[];
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
  readonly picks: readonly LineChoice[];
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
  let trails: Trail[] = [
    {
      constants: startingConstants(options.prior),
      logPrior: 0,
      log: 0,
      picks: [],
      misnamed: null,
      last: null,
    },
  ];
  for (const position of order) {
    const item = items[position]!;
    trails = bestOf(
      trails.flatMap((trail) => steps(trail, item, options, valuesAt)),
      options.width,
    ).map((step) => step.follow());
  }
  const inItemOrder = (picks: readonly LineChoice[]) => items.map((_, i) => picks[order.indexOf(i)]!);
  return trails.map((trail) => ({
    choices: inItemOrder(trail.picks),
    logPrior: trail.logPrior,
    log: trail.log,
  }));
}

interface Step {
  readonly log: number;
  /** Learning the curve is the costly part: only for those that stay. */
  follow(): Trail;
}

function bestOf(steps: readonly Step[], width: number): Step[] {
  const best = steps.reduce((most, step) => Math.max(most, step.log), Number.NEGATIVE_INFINITY);
  // What is hopeless is not even sorted.
  return steps
    .filter((step) => step.log > best - HOPELESS)
    .sort((a, b) => b.log - a.log)
    .slice(0, width);
}

function steps(
  trail: Trail,
  item: KnownItem,
  options: SearchOptions,
  valuesAt: (nm: number) => BasisValues,
): Step[] {
  const { observation } = item;
  const ownVariance = observation.resolutionVariance + observation.settingShare * options.settingVariance;
  const list: Step[] = [];
  for (const choice of item.choices) {
    const nm = choice.wavelengthNm;
    if (nm === null) {
      const logPrior = trail.logPrior + choice.logPrior;
      const picks = [...trail.picks, choice];
      list.push({
        log: trail.log + choice.logPrior + options.logStray,
        follow: () => ({ ...trail, logPrior, log: trail.log + choice.logPrior + options.logStray, picks }),
      });
      continue;
    }
    const added =
      choice.logPrior + neighbourPrior(trail, item, choice, options) + givenTwice(trail, item, choice);
    if (added === Number.NEGATIVE_INFINITY) continue;
    const { values, slopes } = valuesAt(nm);
    const expected = predicted(trail.constants, values);
    const ordinate = observation.ordinate + (choice.slip?.correction ?? 0) - (choice.excess?.mean ?? 0);
    const slope = choice.wavelengthVariance > 0 ? predicted(trail.constants, slopes).ordinate : 0;
    const variance = ownVariance + choice.wavelengthVariance * slope * slope + (choice.excess?.variance ?? 0);
    const log =
      trail.log + added + logNormalDensity(ordinate - expected.ordinate, expected.variance + variance);
    list.push({
      log,
      follow: () => ({
        constants: learned(trail.constants, values, ordinate, variance),
        logPrior: trail.logPrior + added,
        log,
        picks: [...trail.picks, choice],
        misnamed: misnamedBy(trail, choice, item),
        last: choice.slip ? trail.last : { nm, variance: choice.wavelengthVariance, ordinate },
      }),
    });
  }
  return list;
}

/** One line of the lamp is hardly read twice at two places, once under another name. */
function givenTwice(trail: Trail, item: KnownItem, choice: LineChoice): number {
  const again = trail.picks.some(
    (pick) =>
      pick.wavelengthNm !== null &&
      Math.abs(pick.wavelengthNm - choice.wavelengthNm!) < SAME_ENTRY_NM &&
      (pick.kind === 'neighbour' || choice.kind === 'neighbour'),
  );
  if (!again) return 0;
  return trail.last?.ordinate === item.observation.ordinate ? READ_TWICE : GIVEN_TWICE;
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
  if (choice.kind === 'assigned') return passedOver(item.lamp, last?.nm ?? null, nm);
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

/** ln chance that the lines between two read ones were not seen. */
function passedOver(lamp: readonly LampLine[], fromNm: number | null, toNm: number): number {
  if (fromNm === null) return 0;
  const low = Math.min(fromNm, toNm);
  const high = Math.max(fromNm, toNm);
  let log = 0;
  for (const line of lamp) {
    if (line.variance === 0 && line.wavelengthNm > low + 0.01 && line.wavelengthNm < high - 0.01) {
      log += Math.log1p(-line.chance);
    }
  }
  return log;
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
