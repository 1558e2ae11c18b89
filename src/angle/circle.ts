/** A divided circle with its vernier. */
export interface Circle {
  /** Smallest step the vernier can show, arc-minutes. */
  readonly leastCountArcmin: number;
  /** One division of the main scale, arc-minutes. */
  readonly scaleDivisionArcmin: number;
  /** True: divided in decimals of a degree, so that readings are written 231.43° and not 231°26'. */
  readonly decimal: boolean;
}

/**
 * The divisions of usual circles with the least counts that go with each, all in arc-minutes: 1° read to 5′, half a
 * degree read to 1′, a third of a degree read to 30″, and so on (common practice, no source).
 */
const usualCircles: readonly (readonly [division: number, leastCounts: readonly number[]])[] = [
  [10, [1 / 6]],
  [15, [0.3, 0.25]],
  [20, [0.5, 1 / 3]],
  [30, [30, 2, 1, 0.6]],
  [60, [60, 15, 10, 6, 5, 3, 1.2]],
];

/** One division of the main scale (arc-minutes) when only the least count (arc-minutes) is known. */
export function usualScaleDivision(leastCountArcmin: number): number {
  const isUsual = (leastCount: number): boolean => Math.abs(leastCount - leastCountArcmin) < 1e-9;
  const usual = usualCircles.find(([, leastCounts]) => leastCounts.some(isUsual));
  const fitting = usualCircles.find(([division]) => {
    const count = vernierDivisions(division, leastCountArcmin);
    return count !== null && count >= 5 && count <= 60;
  });
  return (usual ?? fitting)?.[0] ?? Math.max(60, leastCountArcmin);
}

/** Number of divisions of the vernier; null when the least count does not divide the main division evenly. */
export function vernierDivisions(scaleDivisionArcmin: number, leastCountArcmin: number): number | null {
  const count = scaleDivisionArcmin / leastCountArcmin;
  const whole = Math.round(count);
  return whole >= 1 && Math.abs(count - whole) < 1e-6 ? whole : null;
}

/** Least counts (arc-minutes) that only a circle divided in decimals of a degree has: 0.02°, 0.01°, 0.005° ... */
export function isDecimalLeastCount(leastCountArcmin: number): boolean {
  return [1.2, 0.6, 0.3, 0.12, 0.06].some((decimal) => Math.abs(decimal - leastCountArcmin) < 1e-9);
}

/** A circle from its least count (arc-minutes), the rest as usual where it is not given. */
export function circleOf(
  leastCountArcmin: number,
  given: { readonly scaleDivisionArcmin?: number; readonly decimal?: boolean } = {},
): Circle {
  return {
    leastCountArcmin,
    scaleDivisionArcmin: given.scaleDivisionArcmin ?? usualScaleDivision(leastCountArcmin),
    decimal: given.decimal ?? isDecimalLeastCount(leastCountArcmin),
  };
}
