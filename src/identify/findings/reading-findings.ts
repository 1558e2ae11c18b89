/** What may be wrong with single readings of a tube: slips, places where nothing can be seen. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import type { UnknownTube } from '../../record/bench.ts';
import { ANNOUNCED } from '../assumptions.ts';
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

/** Slips that are likelier than not, over all rows. */
function likelySlips(rows: readonly Row[]): Slip[] {
  const chances = new Map<number, number>();
  for (const row of rows) {
    for (const hypothesis of row.slips?.hypotheses ?? []) {
      const weight = row.probability * Math.exp(hypothesis.log - (row.slips?.log ?? 0));
      for (const index of hypothesis.slips.keys()) chances.set(index, (chances.get(index) ?? 0) + weight);
    }
  }
  const lead = rows[0]?.slips?.hypotheses ?? [];
  return [...chances].flatMap(([index, chance]): Slip[] => {
    const slip = lead.find((hypothesis) => hypothesis.slips.has(index))?.slips.get(index);
    if (chance < ANNOUNCED || !slip) return [];
    return [{ what: 'slip', index, probability: Math.min(1, chance), slip }];
  });
}
