/**
 * Which wavelength belongs to which known reading, and which readings are misread: the likeliest explanations,
 * found by following many of them at once along the spectrum while each one's curve is learned reading by
 * reading. What an explanation predicts for the next line weighs it.
 */
import { logNormalDensity } from '../numeric/normal.ts';
import { addedPrior, type KnownItem, misnamedBy, type Understood } from './added-prior.ts';
import { type CurveBasis, prismBasis } from './basis.ts';
import { type GaussianConstants, learned, predicted, startingConstants } from './gaussian-curve.ts';
import type { LineChoice } from './line-choices.ts';
import type { CurvePrior } from './prism-prior.ts';

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

interface Trail extends Understood {
  readonly constants: GaussianConstants;
  readonly logPrior: number;
  readonly log: number;
}

/** An explanation this far behind, in ln, does not come back. */
const HOPELESS = 24;

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
  for (let pick = trail.pick; pick !== null; pick = pick.before) picks.push(pick.choice);
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
      const added = addedPrior(trail, item, choice, options.wavelengthFalls);
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
  const common = { logPrior: trail.logPrior + added, log, pick: { choice, before: trail.pick } };
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
