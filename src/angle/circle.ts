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
 * The usual circle for a least count, both in arc-minutes: 1° read to 5′, half a degree read to 1′, a third of a
 * degree read to 30″, and so on (common practice, no source).
 */
const usualDivisions: ReadonlyMap<number, number> = new Map([
  [60, 60],
  [30, 30],
  [15, 60],
  [10, 60],
  [6, 60],
  [5, 60],
  [3, 60],
  [2, 30],
  [1.2, 60],
  [1, 30],
  [0.6, 30],
  [0.5, 20],
  [1 / 3, 20],
  [0.3, 15],
  [0.25, 15],
  [1 / 6, 10],
]);

const divisionsOnCircles = [10, 15, 20, 30, 60];

/** One division of the main scale (arc-minutes) when only the least count (arc-minutes) is known. */
export function usualScaleDivision(leastCountArcmin: number): number {
  for (const [leastCount, division] of usualDivisions) {
    if (Math.abs(leastCount - leastCountArcmin) < 1e-9) return division;
  }
  const fitting = divisionsOnCircles.find((division) => {
    const count = vernierDivisions(division, leastCountArcmin);
    return count !== null && count >= 5 && count <= 60;
  });
  return fitting ?? Math.max(60, leastCountArcmin);
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
