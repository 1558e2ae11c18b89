/** What may be wrong with single readings of a tube: slips, places where nothing can be seen. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import { sumOf } from '../../numeric/sum.ts';
import type { ReadingAlternative } from '../../observe/slip-hypotheses.ts';
import type { UnknownTube } from '../../record/bench.ts';
import { ANNOUNCED, PART_OF_SEVERAL } from '../assumptions.ts';
import type { TubeReadings } from '../bench/tube-readings.ts';
import type { Row } from '../rank/rank.ts';
import type { ReadingFinding, TubeFinding } from './tube-finding.ts';

type Slip = Extract<ReadingFinding, { what: 'slip' }>;

/**
 * By the line's index. `shift`: of all readings, where the leading row takes the central image for misread. A slip
 * explains a reading that lies off the spectrum.
 */
export function readingFindings(
  { readings }: TubeReadings,
  curve: CalibrationCurve,
  rows: readonly Row[],
  shift: number,
): ReadonlyMap<number, ReadingFinding> {
  return new Map<number, ReadingFinding>([
    ...readings
      .filter(({ ordinate }) => curve.wavelengthAt(ordinate - shift, 0) === null)
      .map(({ line: { index } }) => [index, { what: 'beyond-the-curve', index }] as const),
    ...likelySlips(rows).map((slip) => [slip.index, slip] as const),
  ]);
}

/** Where no reading at all can be seen it is not each reading that is wrong, but what all of them share. */
export function onceForAll(tube: UnknownTube, findings: readonly ReadingFinding[]): readonly TubeFinding[] {
  const used = tube.lines.filter((line) => line.use).length;
  const beyond = findings.filter(({ what }) => what === 'beyond-the-curve').length;
  return used < 2 || beyond < used ? findings : [{ what: 'all-beyond-the-curve', readings: used }];
}

/**
 * One reading of several is likelier misread than not, though none of them by itself: two that read the same, of which
 * one is off. `found`: what is said of single readings.
 */
export function oneOfSeveral(
  rows: readonly Row[],
  found: ReadonlyMap<number, ReadingFinding>,
): Extract<TubeFinding, { what: 'slip-of-several' }>[] {
  const together = sumOf(slipWeights(rows), ({ weight, slips }) =>
    [...slips.keys()].some((index) => !found.has(index)) ? weight : 0,
  );
  if (together < ANNOUNCED) return [];
  const several = [...slipChances(rows)]
    .filter(([index]) => !found.has(index))
    .filter(([, chance]) => chance >= PART_OF_SEVERAL * together)
    .sort(([, one], [, other]) => other - one)
    .flatMap(([index]) => {
      const slip = leadingSlip(rows, index);
      return slip === null ? [] : [{ index, slip }];
    });
  return several.length < 2 ? [] : [{ what: 'slip-of-several', probability: Math.min(1, together), several }];
}

/** Slips that are likelier than not, over all rows. */
function likelySlips(rows: readonly Row[]): Slip[] {
  return [...slipChances(rows)].flatMap(([index, chance]): Slip[] => {
    const slip = leadingSlip(rows, index);
    if (chance < ANNOUNCED || !slip) return [];
    return [{ what: 'slip', index, probability: Math.min(1, chance), slip }];
  });
}

/** The chance of each reading, by its index, that it is misread, over all rows. */
function slipChances(rows: readonly Row[]): ReadonlyMap<number, number> {
  const chances = new Map<number, number>();
  for (const { weight, slips } of slipWeights(rows))
    for (const index of slips.keys()) chances.set(index, (chances.get(index) ?? 0) + weight);
  return chances;
}

/** Every slip hypothesis of every row with its probability. */
function slipWeights(rows: readonly Row[]) {
  return rows.flatMap((row) =>
    (row.slips?.hypotheses ?? []).map(({ log, slips }) => ({
      weight: row.probability * Math.exp(log - (row.slips?.log ?? 0)),
      slips,
    })),
  );
}

/** How a reading is misread if the leading row is right. */
function leadingSlip(rows: readonly Row[], index: number): ReadingAlternative | null {
  const lead = rows[0]?.slips?.hypotheses ?? [];
  return lead.find(({ slips }) => slips.has(index))?.slips.get(index) ?? null;
}
