/**
 * The evidence of all readings together: the sum over all order-preserving alignments of the readings with a
 * tube's lines, each reading a line seen or a stray, each line seen or missed.
 *
 * A forward recursion as for pairwise alignments (Durbin, Eddy, Krogh & Mitchison, Biological Sequence Analysis,
 * chapter 4). With everything divided by what it would be if every line were missed and every reading a stray,
 * a reading touches only the lines near it, and the cost is that of those few.
 */
import { ANY_ORDER_ROUNDS } from '../assumptions.ts';

/**
 * All possible pairs of reading and line, flat: the pairs of reading i are those from `start[i]` to `start[i + 1]`. The
 * lists may be longer than what they hold.
 */
export interface Pairings {
  readonly readings: number;
  readonly pairs: number;
  /** How many lines any reading comes near. */
  readonly lines: number;
  readonly start: readonly number[];
  /** Place of the line in `touched`, ascending within a reading. */
  readonly touchedLine: readonly number[];
  /** Density of the reading at this line over its density as a stray. */
  readonly ratio: readonly number[];
  /** The lines that any reading comes near, ascending in ordinate. */
  readonly touched: readonly number[];
}

/** Takes pairs reading by reading. Its lists are used again and again, for they are made very often. */
export class PairingList {
  #readings = 0;
  #pairs = 0;
  #highest = -1;
  readonly #start: number[] = [0];
  readonly #line: number[] = [];
  readonly #touchedLine: number[] = [];
  readonly #touched: number[] = [];
  readonly #ratio: number[] = [];
  /** Where each line stands among those touched. */
  readonly #place: number[] = [];

  clear(): void {
    this.#readings = 0;
    this.#pairs = 0;
    this.#highest = -1;
  }

  /** `line`: its place in ascending order of ordinate, ascending within a reading. */
  add(line: number, ratio: number): void {
    this.#line[this.#pairs] = line;
    this.#ratio[this.#pairs] = ratio;
    this.#pairs += 1;
    if (line > this.#highest) this.#highest = line;
  }

  endReading(): void {
    this.#readings += 1;
    this.#start[this.#readings] = this.#pairs;
  }

  /** All pairs since `clear`, in the list's own space: they stand until it is cleared. */
  pairings(): Pairings {
    const pairs = this.#pairs;
    const line = this.#line;
    const place = this.#place;
    for (let j = 0; j <= this.#highest; j += 1) place[j] = 0;
    for (let k = 0; k < pairs; k += 1) place[line[k]!] = 1;
    let lines = 0;
    for (let j = 0; j <= this.#highest; j += 1) {
      if (place[j] === 0) continue;
      place[j] = lines;
      this.#touched[lines] = j;
      lines += 1;
    }
    for (let k = 0; k < pairs; k += 1) this.#touchedLine[k] = place[line[k]!]!;
    return {
      readings: this.#readings,
      pairs,
      lines,
      start: this.#start,
      touchedLine: this.#touchedLine,
      ratio: this.#ratio,
      touched: this.#touched,
    };
  }
}

/** The same pairings in space of their own. */
export function keptPairings(pairings: Pairings): Pairings {
  const { readings, pairs, lines, start, touchedLine, ratio, touched } = pairings;
  return {
    ...pairings,
    start: start.slice(0, readings + 1),
    touchedLine: touchedLine.slice(0, pairs),
    ratio: ratio.slice(0, pairs),
    touched: touched.slice(0, lines),
  };
}

/** Space for one recursion; grows as needed. */
export interface AlignmentWork {
  weight: Float64Array;
  added: Float64Array;
}

/** Fresh buffers, which grow with what is aligned. */
export function alignmentWork(): AlignmentWork {
  return { weight: new Float64Array(64), added: new Float64Array(256) };
}

/** Weights above this are scaled down. */
const HEAVY = 1e100;

/**
 * ln of the evidence ratio. `odds[j]`: chance that line j is seen over chance that it is missed.
 */
export function alignmentLogRatio(pairings: Pairings, odds: readonly number[], work: AlignmentWork): number {
  const { readings, pairs, lines, start, touchedLine, ratio, touched } = pairings;
  if (work.weight.length < lines) work.weight = new Float64Array(2 * lines);
  if (work.added.length < pairs) work.added = new Float64Array(2 * pairs);
  const { weight, added } = work;
  weight.fill(0, 0, lines);
  // weight[j]: of all alignments so far whose last matched line is j; `none`: of those without a matched line yet.
  let none = 1;
  let logScale = 0;
  for (let i = 0; i < readings; i += 1) {
    const end = start[i + 1]!;
    let before = none;
    let j = 0;
    for (let k = start[i]!; k < end; k += 1) {
      const line = touchedLine[k]!;
      for (; j < line; j += 1) before += weight[j]!;
      added[k] = odds[touched[line]!]! * ratio[k]! * before;
    }
    // Only now, so that what this reading adds does not count for itself.
    let heaviest = 0;
    for (let k = start[i]!; k < end; k += 1) {
      const heavier = weight[touchedLine[k]!]! + added[k]!;
      weight[touchedLine[k]!] = heavier;
      if (heavier > heaviest) heaviest = heavier;
    }
    if (heaviest > HEAVY) {
      // Hundreds of matched readings would multiply beyond what a number holds.
      for (let j = 0; j < lines; j += 1) weight[j]! /= HEAVY;
      none /= HEAVY;
      logScale += Math.log(HEAVY);
    }
  }
  let sum = none;
  for (let j = 0; j < lines; j += 1) sum += weight[j]!;
  return logScale + Math.log(sum);
}

/**
 * By how much `ofOrdered`, the result of `alignmentLogRatio`, grows where the readings may stand in another order than
 * their lines, as they do where lines lie closer than readings scatter: ln, never negative.
 *
 * The sum over all matchings of readings with lines is a permanent, which nobody computes. Bethe's approximation to it is
 * a lower bound (P. O. Vontobel, IEEE Trans. Inf. Theory 59, 1866 (2013)), as the sum in order is; messages as for
 * matchings that leave some unmatched (L. Zdeborová, M. Mézard, J. Stat. Mech. P05003 (2006)).
 */
export function anyOrderLogGain(pairings: Pairings, odds: readonly number[], ofOrdered: number): number {
  const { readings, pairs, lines, start, touchedLine, ratio, touched } = pairings;
  const weight = new Float64Array(pairs);
  for (let k = 0; k < pairs; k += 1) weight[k] = odds[touched[touchedLine[k]!]!]! * ratio[k]!;
  // Of each pair: the weight of its reading's other choices, all lines being free, and so of its line's.
  const free = new Float64Array(pairs).fill(1);
  const taken = new Float64Array(pairs);
  const ofLine = new Float64Array(lines);
  let log = 0;
  for (let round = 0; round < ANY_ORDER_ROUNDS.most; round += 1) {
    let change = 0;
    ofLine.fill(1);
    for (let i = 0; i < readings; i += 1) {
      let all = 1;
      for (let k = start[i]!; k < start[i + 1]!; k += 1) all += weight[k]! * free[k]!;
      for (let k = start[i]!; k < start[i + 1]!; k += 1) {
        taken[k] = weight[k]! / (all - weight[k]! * free[k]!);
        ofLine[touchedLine[k]!]! += taken[k]!;
      }
    }
    for (let k = 0; k < pairs; k += 1) {
      const fresh = 1 / (ofLine[touchedLine[k]!]! - taken[k]!);
      change = Math.max(change, Math.abs(fresh - free[k]!));
      free[k] = fresh;
    }
    if (change < ANY_ORDER_ROUNDS.worthAnother) break;
  }
  for (let i = 0; i < readings; i += 1) {
    let all = 1;
    for (let k = start[i]!; k < start[i + 1]!; k += 1) all += weight[k]! * free[k]!;
    log += Math.log(all);
  }
  for (let j = 0; j < lines; j += 1) log += Math.log(ofLine[j]!);
  for (let k = 0; k < pairs; k += 1) log -= Math.log(1 + taken[k]! * free[k]!);
  return Math.max(0, log - ofOrdered);
}

/** For each reading the line it is matched with in the single best alignment, or null for a stray (R. Bellman's recursion). */
export function bestAlignment(pairings: Pairings, odds: readonly number[]): (number | null)[] {
  const { readings, pairs, lines, start, touchedLine, ratio, touched } = pairings;
  // Of the best alignment so far whose last matched line is j: ln of its weight, and its last pair.
  const best = new Float64Array(lines).fill(Number.NEGATIVE_INFINITY);
  const lastPair = new Int32Array(lines).fill(nothing);
  // Of the best alignment that ends with a pair: ln of its weight, and the pair before it.
  const ending = new Float64Array(pairs);
  const pairBefore = new Int32Array(pairs);
  for (let i = 0; i < readings; i += 1) {
    const end = start[i + 1]!;
    let before = 0;
    let last = nothing;
    let j = 0;
    for (let k = start[i]!; k < end; k += 1) {
      const line = touchedLine[k]!;
      for (; j < line; j += 1) {
        if (best[j]! <= before) continue;
        before = best[j]!;
        last = lastPair[j]!;
      }
      ending[k] = before + Math.log(odds[touched[line]!]! * ratio[k]!);
      pairBefore[k] = last;
    }
    for (let k = start[i]!; k < end; k += 1) {
      const line = touchedLine[k]!;
      if (ending[k]! <= best[line]!) continue;
      best[line] = ending[k]!;
      lastPair[line] = k;
    }
  }
  let heaviest = 0;
  let pair = nothing;
  for (let j = 0; j < lines; j += 1) {
    if (best[j]! <= heaviest) continue;
    heaviest = best[j]!;
    pair = lastPair[j]!;
  }
  const picks = new Array<number | null>(readings).fill(null);
  for (let i = readings - 1; i >= 0 && pair !== nothing; i -= 1) {
    if (start[i]! > pair) continue;
    picks[i] = touched[touchedLine[pair]!]!;
    pair = pairBefore[pair]!;
  }
  return picks;
}

const nothing = -1;
