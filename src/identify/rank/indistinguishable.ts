/** Tubes that this bench cannot tell apart, because what they show coincides within what it resolves. */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { ALIKE_PLACE, ALIKE_PROMINENCE, FAINTEST_OF_A_LOOK } from '../assumptions.ts';
import { type LineOnCurve, mergedLines } from '../spectrum/expected-lines.ts';

/** Groups of tubes in the order given; a tube unlike all others is a group of its own. `linesOf`: as this bench shows them, none merged; `u`: of one reading. */
export function indistinguishableGroups(
  candidates: readonly TubeSpectrum[],
  linesOf: (tube: TubeSpectrum) => readonly LineOnCurve[],
  u: number,
  resolution: number,
): TubeSpectrum[][] {
  const looks = candidates.map((tube) =>
    mergedLines(
      linesOf(tube).filter((line) => line.prominence > FAINTEST_OF_A_LOOK && line.expected),
      resolution,
    ),
  );
  const groups: number[][] = [];
  candidates.forEach((_, i) => {
    const group = groups.find((members) => members.some((k) => alike(looks[i]!, looks[k]!, u)));
    if (group) group.push(i);
    else groups.push([i]);
  });
  return groups.map((members) => members.map((i) => candidates[i]!));
}

function alike(first: readonly LineOnCurve[], second: readonly LineOnCurve[], u: number): boolean {
  return first.length > 0 && covers(first, second, u) && covers(second, first, u);
}

function covers(first: readonly LineOnCurve[], second: readonly LineOnCurve[], u: number): boolean {
  return first.every((line) =>
    second.some(
      (other) =>
        Math.abs(other.ordinate - line.ordinate) < ALIKE_PLACE * u &&
        Math.abs(other.prominence - line.prominence) < ALIKE_PROMINENCE,
    ),
  );
}
