/** Readings left over that stand where another reading has its line already: one line written down twice, or a close pair. */
import { ANNOUNCED, AS_NEAR_AS_LIGHT } from '../assumptions.ts';
import type { CommonShift } from '../bench/common-shift.ts';
import type { UnknownReading } from '../bench/unknown-reading.ts';
import type { Candidate } from '../types.ts';
import type { TubeFinding } from './tube-finding.ts';

type ReadAgain = Extract<TubeFinding, { what: 'read-again' }>;

/** One finding for all of them; a reading left over goes with the nearest that fits a line as it was read. */
export function readAgainFindings(
  [lead]: readonly Candidate[],
  readings: readonly Pick<UnknownReading, 'line' | 'ordinate' | 'totalVariance'>[],
  shift: CommonShift | null,
): ReadAgain[] {
  if (!lead || lead.symbol === null || lead.probability < ANNOUNCED) return [];
  // With a shift of all readings taken off every match is one, and none is as it was read.
  const fitting = lead.matches.filter(({ asRead }) => asRead || shift !== null).map(({ index }) => index);
  const byIndex = (index: number) => readings.find(({ line }) => line.index === index);
  const pairs = lead.unexplained.flatMap((index) => {
    const left = byIndex(index);
    if (left === undefined) return [];
    const near = fitting
      .flatMap((other) => byIndex(other) ?? [])
      .map((other) => ({ index: other.line.index, off: Math.abs(other.ordinate - left.ordinate), other }))
      .filter(
        ({ off, other }) =>
          off <= AS_NEAR_AS_LIGHT.sigmas * Math.sqrt(left.totalVariance + other.totalVariance),
      )
      .sort((a, b) => a.off - b.off)[0];
    return near === undefined ? [] : [{ index, of: near.index }];
  });
  return pairs.length === 0 ? [] : [{ what: 'read-again', pairs }];
}
