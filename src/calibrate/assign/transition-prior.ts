/**
 * What is likely of the next known line, given how the lines before it along the spectrum were understood, and what it
 * costs that others of the lamp are passed over.
 */
import { isSameLine } from '../../lines/same-line.ts';
import { remembered } from '../../numeric/remembered.ts';
import type { Observation } from '../../observe/observation.ts';
import { logOddsOfFurtherSlip } from '../../observe/slips.ts';
import * as assumed from '../assumptions.ts';
import type { LampLine, LineChoice } from './line-hypotheses.ts';

/** A known line with everything it may be. */
export interface KnownItem {
  readonly observation: Observation;
  readonly choices: readonly LineChoice[];
  /** Of its lamp. */
  readonly passedOver: PassedOver;
}

/** How the lines up to here were understood. */
export interface Understood {
  /** The last choice, and those before it; null at the start. */
  readonly pick: Pick | null;
  /** The last line, if it was given a wrong name. */
  readonly misnamed: Misnamed | null;
  /** How many lines were misread. */
  readonly slips: number;
  /** The last line that was not set aside and not misread. */
  readonly last: { readonly nm: number; readonly variance: number; readonly ordinate: number } | null;
}

interface Pick {
  readonly choice: LineChoice;
  readonly before: Pick | null;
}

interface Misnamed {
  readonly statedNm: number;
  readonly rightNm: number;
  /** How many lines in a row are named too far towards one side. */
  readonly inARow: number;
}

const logOf = ({ again, exchanged, inStep }: Readonly<Record<keyof typeof assumed.AFTER_ONE, number>>) => ({
  again: Math.log(again),
  exchanged: Math.log(exchanged),
  inStep: Math.log(inStep),
});
const LOG_AFTER_ONE = logOf(assumed.AFTER_ONE);
const LOG_AFTER_MORE = logOf(assumed.AFTER_MORE);
/** What a choice's own prior already holds of being named for a line on that side. */
const ONE_SIDE = Math.log(assumed.FAULT_CHANCE.neighbour / 2);

/** ln prior of a choice after a trail; -Infinity where the order of the lines would be broken. */
export function addedPrior(
  before: Understood,
  item: KnownItem,
  choice: LineChoice,
  wavelengthFalls: boolean,
): number {
  if (choice.wavelengthNm === null) return choice.logPrior;
  return (
    choice.logPrior +
    (choice.slip === null ? 0 : logOddsOfFurtherSlip(before.slips)) +
    orderPrior(before, item, choice, wavelengthFalls) +
    givenTwice(before, item, choice)
  );
}

/** ln prior of a line that an earlier reading was already given, one of the two under another name. */
function givenTwice(before: Understood, item: KnownItem, choice: LineChoice): number {
  for (let { pick } = before; pick !== null; pick = pick.before) {
    const { kind, wavelengthNm } = pick.choice;
    const isSame = wavelengthNm !== null && isSameLine(wavelengthNm, choice.wavelengthNm!);
    if (!isSame || (kind !== 'neighbour' && choice.kind !== 'neighbour')) continue;
    return before.last?.ordinate === item.observation.ordinate
      ? Math.log(assumed.READ_TWICE)
      : Math.log(assumed.GIVEN_TWICE);
  }
  return 0;
}

/** How a choice misnames its line, in a row with the one before it; null where it does not. */
export function misnamedBy({ misnamed }: Understood, choice: LineChoice, item: KnownItem): Misnamed | null {
  const statedNm = item.choices[0]?.wavelengthNm ?? null;
  const rightNm = choice.wavelengthNm;
  if (choice.kind !== 'neighbour' || rightNm === null || statedNm === null) return null;
  const goesOn = misnamed !== null && rightNm > statedNm === misnamed.rightNm > misnamed.statedNm;
  return { statedNm, rightNm, inARow: goesOn ? misnamed.inARow + 1 : 1 };
}

/** What the last line's choice says of this one; -Infinity where the order of the lines would be broken. */
function orderPrior(
  before: Understood,
  item: KnownItem,
  choice: LineChoice,
  wavelengthFalls: boolean,
): number {
  const nm = choice.wavelengthNm!;
  const free = choice.kind === 'neighbour' || choice.kind === 'assigned';
  const { last } = before;
  if (free && last !== null && !choice.slip) {
    // Two readings of the same place may be one line written down twice.
    const again = isSameLine(nm, last.nm) && item.observation.ordinate === last.ordinate;
    const ahead = wavelengthFalls ? nm < last.nm : nm > last.nm;
    if (!again && !ahead) return Number.NEGATIVE_INFINITY;
    const eitherPair = choice.wavelengthVariance > 0.1 || last.variance > 0.1;
    if (choice.kind === 'assigned' && eitherPair && Math.abs(nm - last.nm) < assumed.PAIR_APART_NM) {
      return Number.NEGATIVE_INFINITY;
    }
  }
  if (choice.kind === 'assigned') return last === null ? 0 : item.passedOver(last.nm, nm);
  return afterMisnamed(before, item, choice);
}

function afterMisnamed(before: Understood, item: KnownItem, choice: LineChoice): number {
  const last = before.misnamed;
  if (last === null) return 0;
  const log = last.inARow > 1 ? LOG_AFTER_MORE : LOG_AFTER_ONE;
  const now = misnamedBy(before, choice, item);
  if (now === null) return log.inStep;
  if (now.inARow > last.inARow) return log.again - ONE_SIDE;
  const isExchange = isSameLine(now.rightNm, last.statedNm) && isSameLine(now.statedNm, last.rightNm);
  // To which line this one belongs is settled by the exchange, no longer by how often that line is taken.
  return isExchange ? log.exchanged - choice.logPrior : 0;
}

/** ln chance that none of a lamp's lines between two wavelengths (nm, in either order) was read. */
export type PassedOver = (fromNm: number, toNm: number) => number;

/** Lines as close as this to either end are the ends. */
const SAME_NM = 0.01;

/** `lamp`: ascending in wavelength. Pairs read as one are no lines of their own here, and no line is missed that need not be there. */
export function passedOverOf(lamp: readonly LampLine[]): PassedOver {
  const lines = lamp.filter((line) => line.variance === 0 && !line.optional);
  const upTo = [0];
  for (const line of lines) upTo.push(upTo.at(-1)! + Math.log1p(-line.chance));
  const below = kept((nm) => lines.filter((line) => line.wavelengthNm < nm - SAME_NM).length);
  const through = kept((nm) => lines.filter((line) => line.wavelengthNm <= nm + SAME_NM).length);
  return (fromNm, toNm) => {
    const first = through(Math.min(fromNm, toNm));
    const last = below(Math.max(fromNm, toNm));
    return last > first ? upTo[last]! - upTo[first]! : 0;
  };
}

/** The search asks for the same few wavelengths thousands of times: kept as long as the prior of one lamp. */
function kept(count: (nm: number) => number): (nm: number) => number {
  const known = new Map<number, number>();
  return (nm) => remembered(known, nm, () => count(nm));
}
