/**
 * The evidence of all readings together: the sum over all order-preserving alignments of the readings with a
 * tube's lines, each reading a line seen or a stray, each line seen or missed.
 *
 * A forward recursion as for pairwise alignments (Durbin, Eddy, Krogh & Mitchison, Biological Sequence Analysis,
 * chapter 4). With everything divided by what it would be if every line were missed and every reading a stray,
 * a reading touches only the lines near it, and the cost is that of those few.
 */

/** A possible pair of reading and line. */
export interface Pairing {
  /** Place of the line in ascending order of ordinate. */
  readonly line: number;
  /** Density of the reading at this line over its density as a stray. */
  readonly ratio: number;
}

/**
 * ln of the evidence ratio. `pairings[i]`: for the i-th reading in ascending order of ordinate, ascending in line;
 * `odds[j]`: chance that line j is seen over chance that it is missed. `work` has a place for every line.
 */
export function alignmentLogRatio(
  pairings: readonly (readonly Pairing[])[],
  odds: Readonly<Float64Array>,
  work: Float64Array,
): number {
  const lines = odds.length;
  work.fill(0, 0, lines);
  // work[j]: weight of all alignments so far whose last matched line is j; `none`: with no line matched yet.
  const none = 1;
  let highest = -1;
  for (const pairs of pairings) {
    // Descending, so that what this reading adds does not count for itself.
    for (let k = pairs.length - 1; k >= 0; k -= 1) {
      const { line, ratio } = pairs[k]!;
      let before = none;
      const end = Math.min(line - 1, highest);
      for (let j = 0; j <= end; j += 1) before += work[j]!;
      work[line] = work[line]! + odds[line]! * ratio * before;
    }
    const last = pairs[pairs.length - 1];
    if (last && last.line > highest) highest = last.line;
  }
  let sum = none;
  for (let j = 0; j <= highest; j += 1) sum += work[j]!;
  return Math.log(sum);
}

/** For each reading the line it is matched with in the single best alignment, or null for a stray. */
export function bestAlignment(
  pairings: readonly (readonly Pairing[])[],
  odds: Readonly<Float64Array>,
): (number | null)[] {
  interface Tail {
    readonly log: number;
    readonly line: number;
    readonly picks: readonly (number | null)[];
  }
  let tails: Tail[] = [{ log: 0, line: -1, picks: [] }];
  for (const pairs of pairings) {
    const next = new Map<number, Tail>();
    const offer = (tail: Tail): void => {
      const known = next.get(tail.line);
      if (!known || tail.log > known.log) next.set(tail.line, tail);
    };
    for (const tail of tails) {
      offer({ ...tail, picks: [...tail.picks, null] });
      for (const { line, ratio } of pairs) {
        if (line <= tail.line || !(ratio > 0)) continue;
        offer({ log: tail.log + Math.log(odds[line]! * ratio), line, picks: [...tail.picks, line] });
      }
    }
    tails = [...next.values()];
  }
  return [...tails.reduce((best, tail) => (tail.log > best.log ? tail : best)).picks];
}
