/**
 * The evidence of all readings together: the sum over all order-preserving alignments of the readings with a
 * tube's lines, each reading a line seen or a stray, each line seen or missed.
 *
 * A forward recursion as for pairwise alignments (Durbin, Eddy, Krogh & Mitchison, Biological Sequence Analysis,
 * chapter 4). With everything divided by what it would be if every line were missed and every reading a stray,
 * a reading touches only the lines near it, and the cost is that of those few.
 */

/** All possible pairs of reading and line, flat: the pairs of reading i are those from `start[i]` to `start[i + 1]`. */
export interface Pairings {
  readonly readings: number;
  readonly start: readonly number[];
  /** Place of the line in `touched`, ascending within a reading. */
  readonly touchedLine: readonly number[];
  /** Density of the reading at this line over its density as a stray. */
  readonly ratio: readonly number[];
  /** The lines that any reading comes near, ascending in ordinate. */
  readonly touched: readonly number[];
}

/** Space for one recursion; grows as needed. */
export interface AlignmentWork {
  weight: Float64Array;
  added: Float64Array;
}

export function alignmentWork(): AlignmentWork {
  return { weight: new Float64Array(64), added: new Float64Array(256) };
}

/** Where each line stands in `touched`; used again and again, for these lists are made very often. */
let places = new Int32Array(1024);

/** Pairings from flat lists: `start` and `ratio` as in Pairings, `line` the places of lines in ascending order of ordinate. */
export function compactPairings(
  start: readonly number[],
  line: readonly number[],
  ratio: readonly number[],
): Pairings {
  let highest = -1;
  for (let k = 0; k < line.length; k += 1) if (line[k]! > highest) highest = line[k]!;
  if (places.length <= highest) places = new Int32Array(2 * highest);
  places.fill(0, 0, highest + 1);
  for (let k = 0; k < line.length; k += 1) places[line[k]!] = 1;
  const touched: number[] = [];
  for (let j = 0; j <= highest; j += 1) {
    if (places[j] === 0) continue;
    places[j] = touched.length;
    touched.push(j);
  }
  const touchedLine: number[] = [];
  for (let k = 0; k < line.length; k += 1) touchedLine.push(places[line[k]!]!);
  return { readings: start.length - 1, start, touchedLine, ratio, touched };
}

/** Weights above this are scaled down. */
const HEAVY = 1e100;

/**
 * ln of the evidence ratio. `odds[j]`: chance that line j is seen over chance that it is missed.
 */
export function alignmentLogRatio(pairings: Pairings, odds: readonly number[], work: AlignmentWork): number {
  const { readings, start, touchedLine, ratio, touched } = pairings;
  const lines = touched.length;
  if (work.weight.length < lines) work.weight = new Float64Array(2 * lines);
  if (work.added.length < ratio.length) work.added = new Float64Array(2 * ratio.length);
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

/** The best alignment of the first readings that ends at `line` (-1: none matched), told from its last pick back. */
interface Tail {
  readonly log: number;
  readonly line: number;
  readonly pick: number | null;
  readonly before: Tail | null;
}

/** For each reading the line it is matched with in the single best alignment, or null for a stray. */
export function bestAlignment(pairings: Pairings, odds: readonly number[]): (number | null)[] {
  let tails: Tail[] = [{ log: 0, line: -1, pick: null, before: null }];
  for (let i = 0; i < pairings.readings; i += 1) {
    const next = new Map<number, Tail>();
    const offer = (log: number, line: number, pick: number | null, before: Tail): void => {
      const known = next.get(line);
      if (!known || log > known.log) next.set(line, { log, line, pick, before });
    };
    for (const tail of tails) {
      offer(tail.log, tail.line, null, tail);
      for (let k = pairings.start[i]!; k < pairings.start[i + 1]!; k += 1) {
        const line = pairings.touched[pairings.touchedLine[k]!]!;
        const gain = odds[line]! * pairings.ratio[k]!;
        if (line > tail.line && gain > 0) offer(tail.log + Math.log(gain), line, line, tail);
      }
    }
    tails = [...next.values()];
  }
  const picks: (number | null)[] = [];
  let tail = tails.reduce((best, each) => (each.log > best.log ? each : best));
  for (; tail.before !== null; tail = tail.before) picks.push(tail.pick);
  return picks.reverse();
}
