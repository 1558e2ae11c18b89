/**
 * Which wavelength belongs to which known reading, and which readings are misread: the likeliest explanations,
 * found by following many of them at once along the spectrum while each one's curve is learned reading by
 * reading. What an explanation predicts for the next line weighs it.
 */
import { logNormalDensity } from '../../numeric/normal.ts';
import { remembered } from '../../numeric/remembered.ts';
import { sum } from '../../numeric/sum.ts';
import { readingVariance } from '../../observe/reading-variance.ts';
import { HOPELESS } from '../assumptions.ts';
import { prismBasis } from '../curve/basis.ts';
import { type GaussianConstants, learned, predicted } from '../curve/gaussian-curve.ts';
import type { CurvePrior } from '../curve/prism-prior.ts';
import type { LineChoice } from './line-hypotheses.ts';
import { addedPrior, type KnownItem, misnamedBy, type Understood } from './transition-prior.ts';

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
  /** `basisValues()`, shared by the searches of one bench. */
  readonly valuesAt: (nm: number) => BasisValues;
  /** Explanations that cannot come near enough are given up; null: none. */
  readonly rival: Rival | null;
}

/** What an explanation must come near to. */
export interface Rival {
  /** Lowest `log` that is worth having. */
  readonly worthLog: number;
  /** ln density of each item where it is read exactly as expected, those before it in the order of ordinate known. */
  readonly ideal: readonly number[];
}

interface Trail extends Understood {
  readonly constants: GaussianConstants;
  readonly logPrior: number;
  readonly log: number;
}

/** The likeliest explanations, best first. */
export function searchExplanations(items: readonly KnownItem[], options: SearchOptions): Explanation[] {
  const order = items
    .map((_, i) => i)
    .sort((a, b) => items[a]!.observation.ordinate - items[b]!.observation.ordinate);
  let trails: Trail[] = [
    { constants: options.prior, logPrior: 0, log: 0, pick: null, misnamed: null, slips: 0, last: null },
  ];
  const { rival } = options;
  let toCome = rival === null ? 0 : sum(rival.ideal);
  for (const position of order) {
    const item = items[position]!;
    if (rival !== null) toCome -= rival.ideal[position]!;
    const lowest = rival === null ? Number.NEGATIVE_INFINITY : rival.worthLog - toCome;
    trails = bestSteps(trails, item, lowest, options).map((step) => followed(step, item, options));
    if (trails.length === 0) return [];
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

/** `lowest`: steps below are not worth taking, however well all that follows may fit. */
function bestSteps(
  trails: readonly Trail[],
  item: KnownItem,
  lowest: number,
  options: SearchOptions,
): Step[] {
  let steps: Step[] = [];
  let worthwhile = lowest;
  const own = readingVariance(item.observation, options.settingVariance);
  // No density exceeds that of a reading exactly where it is expected.
  const highest = logNormalDensity(0, own);
  for (const trail of trails) {
    // Choices of one wavelength (as stated, and misread in this way or that) stand side by side.
    let expected: Expected | null = null;
    for (const choice of item.choices) {
      const added = addedPrior(trail, item, choice, options.wavelengthFalls);
      const nm = choice.wavelengthNm;
      if (nm !== null && trail.log + added + highest < worthwhile) continue;
      if (nm !== null && expected?.nm !== nm) expected = expectedAt(trail, nm, options.valuesAt(nm));
      const likelihood = nm === null ? options.logStray : logLikelihood(expected!, item, choice, own);
      const log = trail.log + added + likelihood;
      if (log < worthwhile) continue;
      steps.push({ trail, choice, added, log });
      worthwhile = Math.max(worthwhile, log - HOPELESS);
    }
  }
  steps = steps.filter((step) => step.log >= worthwhile);
  return steps.sort((a, b) => b.log - a.log).slice(0, options.width);
}

/** What a trail's curve expects of a line. */
interface Expected {
  readonly nm: number;
  readonly ordinate: number;
  readonly variance: number;
  /** Per nm. */
  readonly slope: number;
}

function expectedAt(trail: Trail, nm: number, at: BasisValues): Expected {
  const { ordinate, variance } = predicted(trail.constants, at.values);
  return { nm, ordinate, variance, slope: slopeAt(trail, at) };
}

function slopeAt({ constants }: Trail, { slopes }: BasisValues): number {
  let slope = 0;
  for (let k = 0; k < slopes.length; k += 1) slope += slopes[k]! * constants.mean[k]!;
  return slope;
}

/** The reading as it should have been. */
function correctedOrdinate({ observation }: KnownItem, choice: LineChoice): number {
  return observation.ordinate + (choice.slip?.correction ?? 0);
}

/** Its variance, the wavelength's own included; `own`: of the reading. */
function lineVariance(own: number, { wavelengthVariance }: LineChoice, slope: number): number {
  return own + wavelengthVariance * slope ** 2;
}

function logLikelihood(expected: Expected, item: KnownItem, choice: LineChoice, own: number): number {
  const variance = expected.variance + lineVariance(own, choice, expected.slope);
  return logNormalDensity(correctedOrdinate(item, choice) - expected.ordinate, variance);
}

function followed({ trail, choice, added, log }: Step, item: KnownItem, options: SearchOptions): Trail {
  const common = { logPrior: trail.logPrior + added, log, pick: { choice, before: trail.pick } };
  const nm = choice.wavelengthNm;
  if (nm === null) return { ...trail, ...common };
  const at = options.valuesAt(nm);
  const ordinate = correctedOrdinate(item, choice);
  const own = readingVariance(item.observation, options.settingVariance);
  const variance = lineVariance(own, choice, slopeAt(trail, at));
  return {
    constants: learned(trail.constants, at.values, ordinate, variance),
    misnamed: misnamedBy(trail, choice, item),
    slips: trail.slips + (choice.slip ? 1 : 0),
    last: choice.slip ? trail.last : { nm, variance: choice.wavelengthVariance, ordinate },
    ...common,
  };
}

export interface BasisValues {
  readonly values: readonly number[];
  readonly slopes: readonly number[];
}

/** Values of the prism's basis at wavelengths: the same few are asked for again and again, in all searches of one bench. */
export function basisValues(): SearchOptions['valuesAt'] {
  const known = new Map<number, BasisValues>();
  return (nm) => remembered(known, nm, () => ({ values: prismBasis.at(nm), slopes: prismBasis.slopeAt(nm) }));
}

/** `Rival.ideal` for wavelengths like these (nm, null where nothing is known), whatever the lines are named. */
export function idealLogs(
  items: readonly { readonly observation: KnownItem['observation']; readonly nm: number | null }[],
  { prior, settingVariance, valuesAt }: Pick<SearchOptions, 'prior' | 'settingVariance' | 'valuesAt'>,
): number[] {
  const order = [...items.keys()].sort(
    (a, b) => items[a]!.observation.ordinate - items[b]!.observation.ordinate,
  );
  const ideal: number[] = [];
  let constants: GaussianConstants = prior;
  for (const position of order) {
    const { observation, nm } = items[position]!;
    const own = readingVariance(observation, settingVariance);
    const at = nm === null ? null : valuesAt(nm).values;
    const expected = at === null ? { ordinate: 0, variance: 0 } : predicted(constants, at);
    ideal[position] = logNormalDensity(0, own + expected.variance);
    // How well a curve is known depends on where its lines are, not on what they read.
    if (at !== null) constants = learned(constants, at, expected.ordinate, own);
  }
  return ideal;
}
