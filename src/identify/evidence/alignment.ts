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
  /** One more than the highest line that a reading comes near. */
  readonly lines: number;
  /** How many lines a reading comes near that none before it came near or went beyond. */
  readonly touched: number;
  readonly start: readonly number[];
  /** Lines below this are near neither this reading nor any after it; ascending. */
  readonly lowest: readonly number[];
  /** The line's place in ascending order of ordinate, ascending within a reading. */
  readonly line: readonly number[];
  /** Density of the reading at this line over its density as a stray. */
  readonly ratio: readonly number[];
}

/** Takes pairs reading by reading. Its lists are used again and again, for they are made very often. */
export class PairingList {
  #readings = 0;
  #pairs = 0;
  #lines = 0;
  #touched = 0;
  readonly #start: number[] = [0];
  readonly #lowest: number[] = [];
  readonly #line: number[] = [];
  readonly #ratio: number[] = [];

  clear(): void {
    this.#readings = 0;
    this.#pairs = 0;
    this.#lines = 0;
    this.#touched = 0;
  }

  /** `line`: its place in ascending order of ordinate, ascending within a reading. */
  add(line: number, ratio: number): void {
    this.#line[this.#pairs] = line;
    this.#ratio[this.#pairs] = ratio;
    this.#pairs += 1;
    if (line < this.#lines) return;
    this.#lines = line + 1;
    this.#touched += 1;
  }

  endReading(): void {
    this.#readings += 1;
    this.#start[this.#readings] = this.#pairs;
  }

  /** All pairs since `clear`, in the list's own space: they stand until it is cleared. */
  pairings(): Pairings {
    let lowest = this.#lines;
    for (let i = this.#readings - 1; i >= 0; i -= 1) {
      const first = this.#start[i]!;
      if (first < this.#start[i + 1]! && this.#line[first]! < lowest) lowest = this.#line[first]!;
      this.#lowest[i] = lowest;
    }
    return {
      readings: this.#readings,
      pairs: this.#pairs,
      lines: this.#lines,
      touched: this.#touched,
      start: this.#start,
      lowest: this.#lowest,
      line: this.#line,
      ratio: this.#ratio,
    };
  }
}

/** The same pairings in space of their own. */
export function keptPairings(pairings: Pairings): Pairings {
  const { readings, pairs, start, lowest, line, ratio } = pairings;
  return {
    ...pairings,
    start: start.slice(0, readings + 1),
    lowest: lowest.slice(0, readings),
    line: line.slice(0, pairs),
    ratio: ratio.slice(0, pairs),
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
  const { readings, pairs, lines, start, lowest, line, ratio } = pairings;
  if (work.weight.length < lines) work.weight = new Float64Array(2 * lines);
  if (work.added.length < pairs) work.added = new Float64Array(2 * pairs);
  const { weight, added } = work;
  // weight[j]: of all alignments so far whose last matched line is j, for lines from `first` to before `next`; `settled`: of
  // those whose last matched line lies below, or that have none yet.
  let settled = 1;
  let first = 0;
  let next = 0;
  let logScale = 0;
  for (let i = 0; i < readings; i += 1) {
    const begin = start[i]!;
    const end = start[i + 1]!;
    if (begin === end) continue;
    for (; first < next && first < lowest[i]!; first += 1) settled += weight[first]!;
    if (first === next) first = next = Math.max(next, lowest[i]!);
    const beyond = line[end - 1]! + 1;
    let before = settled;
    if (first === next && (i + 1 === readings || lowest[i + 1]! >= beyond)) {
      // Lines that no other reading is near, as mostly where readings are far apart: any of them, or none.
      let sum = 0;
      for (let k = begin; k < end; k += 1) sum += odds[line[k]!]! * ratio[k]!;
      settled += settled * sum;
      before = settled;
      first = next = beyond;
    } else {
      for (; next < beyond; next += 1) weight[next] = 0;
      let j = first;
      for (let k = begin; k < end; k += 1) {
        const at = line[k]!;
        for (; j < at; j += 1) before += weight[j]!;
        added[k] = odds[at]! * ratio[k]! * before;
      }
      // Only now, so that what this reading adds does not count for itself.
      for (let k = begin; k < end; k += 1) weight[line[k]!]! += added[k]!;
    }
    if (before > HEAVY) {
      // Hundreds of matched readings would multiply beyond what a number holds.
      for (let j = first; j < next; j += 1) weight[j]! /= HEAVY;
      settled /= HEAVY;
      logScale += Math.log(HEAVY);
    }
  }
  for (; first < next; first += 1) settled += weight[first]!;
  return logScale + Math.log(settled);
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
  const { readings, pairs, lines, start, line, ratio } = pairings;
  const weight = new Float64Array(pairs);
  for (let k = 0; k < pairs; k += 1) weight[k] = odds[line[k]!]! * ratio[k]!;
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
        ofLine[line[k]!]! += taken[k]!;
      }
    }
    for (let k = 0; k < pairs; k += 1) {
      const fresh = 1 / (ofLine[line[k]!]! - taken[k]!);
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
  const { readings, pairs, lines, start, line, ratio } = pairings;
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
      const at = line[k]!;
      for (; j < at; j += 1) {
        if (best[j]! <= before) continue;
        before = best[j]!;
        last = lastPair[j]!;
      }
      ending[k] = before + Math.log(odds[at]! * ratio[k]!);
      pairBefore[k] = last;
    }
    for (let k = start[i]!; k < end; k += 1) {
      const at = line[k]!;
      if (ending[k]! <= best[at]!) continue;
      best[at] = ending[k]!;
      lastPair[at] = k;
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
    picks[i] = line[pair]!;
    pair = pairBefore[pair]!;
  }
  return picks;
}

const nothing = -1;
