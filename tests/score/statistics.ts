/** Figures of a score with their uncertainties. */

export interface Proportion {
  readonly value: number;
  readonly standardError: number;
}

/**
 * Share of successes when they come in clusters (the lines of one bench share its errors): ratio estimate with the
 * variance between clusters (W. G. Cochran, Sampling Techniques, 3rd ed., section 2.11).
 */
export function clusteredProportion(clusters: readonly { hits: number; trials: number }[]): Proportion {
  const trials = clusters.reduce((sum, cluster) => sum + cluster.trials, 0);
  if (trials === 0) return { value: Number.NaN, standardError: Number.NaN };
  const value = clusters.reduce((sum, cluster) => sum + cluster.hits, 0) / trials;
  const squares = clusters.reduce((sum, { hits, trials: n }) => sum + (hits - value * n) ** 2, 0);
  return { value, standardError: Math.sqrt(squares) / trials };
}

/** Root of the ratio of two sums over benches (squared errors over squared bounds), with its standard error. */
export function rootRatio(benches: readonly { above: number; below: number }[]): Proportion {
  const below = benches.reduce((sum, bench) => sum + bench.below, 0);
  const ratio = benches.reduce((sum, bench) => sum + bench.above, 0) / below;
  const squares = benches.reduce((sum, bench) => sum + (bench.above - ratio * bench.below) ** 2, 0);
  const value = Math.sqrt(ratio);
  return { value, standardError: Math.sqrt(squares) / below / (2 * value) };
}

/** Largest share that is still compatible with so few successes: one-sided 95 % bound (Clopper and Pearson 1934). */
export function upperBound95(successes: number, trials: number): number {
  if (trials === 0 || successes >= trials) return 1;
  const chanceOfSoFew = (p: number): number => {
    let term = (1 - p) ** trials;
    let sum = term;
    for (let k = 1; k <= successes; k++) {
      term *= ((trials - k + 1) / k) * (p / (1 - p));
      sum += term;
    }
    return sum;
  };
  let [low, high] = [successes / trials, 1 - 1e-12];
  // Past this the first term underflows and the sum is 0 anyway: the bisection only moves down from there.
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (chanceOfSoFew(middle) > 0.05) low = middle;
    else high = middle;
  }
  return high;
}

/**
 * Expected calibration error: mean distance between stated probability and frequency, over ten bins of stated
 * probability weighted by their size (Naeini, Cooper and Hauskrecht, AAAI 2015).
 */
export function expectedCalibrationError(
  claims: readonly { probability: number; isRight: boolean }[],
): number {
  const bins = Array.from({ length: 10 }, () => ({ probability: 0, right: 0 }));
  for (const { probability, isRight } of claims) {
    const bin = bins[Math.min(9, Math.floor(10 * probability))]!;
    bin.probability += probability;
    bin.right += isRight ? 1 : 0;
  }
  return bins.reduce((sum, bin) => sum + Math.abs(bin.probability - bin.right), 0) / claims.length;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
