/** ln(e^a + e^b) without overflow; -Infinity stands for probability zero. */
export function logAdd(a: number, b: number): number {
  if (a < b) return logAdd(b, a);
  if (b === Number.NEGATIVE_INFINITY) return a;
  return a + Math.log1p(Math.exp(b - a));
}

/** ln of the sum of exponentials; -Infinity for an empty list. */
export function logSum(logs: readonly number[]): number {
  let highest = Number.NEGATIVE_INFINITY;
  for (const log of logs) if (log > highest) highest = log;
  if (highest === Number.NEGATIVE_INFINITY) return highest;
  let sum = 0;
  for (const log of logs) sum += Math.exp(log - highest);
  return highest + Math.log(sum);
}

/** Probabilities that sum to 1 from logarithms of weights. Throws RangeError when all are zero. */
export function normalised(logWeights: readonly number[]): number[] {
  const total = logSum(logWeights);
  if (!Number.isFinite(total)) throw new RangeError('no weight is above zero');
  return logWeights.map((log) => Math.exp(log - total));
}

/** ln(e^a - e^b); minus infinity where nothing is left. */
export function logDifference(a: number, b: number): number {
  return a > b ? a + Math.log1p(-Math.exp(b - a)) : Number.NEGATIVE_INFINITY;
}
