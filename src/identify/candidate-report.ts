/** What a row of the ranking says of each reading: matches, strays, lines that should have been seen. */
import type { CalibrationCurve } from '../calibrate/types.ts';
import { commonShift } from './common-shift.ts';
import { matchedLines, placeAt } from './evidence.ts';
import type { Member, ModelLine } from './model-lines.ts';
import { densitiesOf } from './passage.ts';
import type { Row, RowReading } from './rows.ts';
import type { Candidate, Match, MissingLine } from './types.ts';
import { readingDensity } from './unknown-reading.ts';
import { chanceSeen } from './visibility.ts';

/** A line is called missing when it was likelier seen than not. */
const COUNTED_ON = 0.5;
const MOST_MISSING = 12;

export function candidateReport(row: Row, curve: CalibrationCurve, offsetVariance: number): Candidate {
  const base = {
    substance: row.tube?.substance ?? 'unlisted',
    symbol: row.tube?.symbol ?? null,
    with: row.admixtures.map((tube) => tube.substance),
    indistinguishable: row.indistinguishable.map((tube) => tube.substance),
    probability: row.probability,
    logEvidence: row.logEvidence,
  };
  if (!row.reading) return { ...base, matches: [], unexplained: [], missing: [], contributions: [] };
  const { evidence, assumption } = row.reading;
  const matched = matchedLines(evidence, assumption);
  const shift = commonShift(evidence, assumption, matched);
  const matches: Match[] = [];
  const unexplained: number[] = [];
  const contributions: { index: number; logOdds: number }[] = [];
  evidence.readings.forEach((reading, i) => {
    const { index } = reading.line;
    const line = matched[i] ?? null;
    contributions.push({ index, logOdds: contribution(row.reading!, i, line) });
    const estimate = curve.wavelengthAt(reading.ordinate - shift, reading.totalVariance + offsetVariance);
    if (line === null || estimate === null) {
      unexplained.push(index);
      return;
    }
    const { wavelengthNm } = likelyMember(
      line,
      reading.ordinate - shift + assumption.passage.view.shift,
      reading.totalVariance,
    );
    const residualNm = estimate.wavelengthNm - wavelengthNm;
    matches.push({
      index,
      wavelengthNm,
      residualNm,
      residualSigma: residualNm / estimate.standardUncertaintyNm,
      asRead: reading.ordinate === reading.observation.ordinate && shift === 0,
    });
  });
  const byIndex = <T extends { index: number }>(list: T[]): T[] => list.sort((a, b) => a.index - b.index);
  return {
    ...base,
    matches: byIndex(matches),
    unexplained: unexplained.sort((a, b) => a - b),
    missing: missingLines(row.reading, matched),
    contributions: byIndex(contributions),
  };
}

/** Of several lines read as one, the one that the cross-hairs were on: bright and near. */
function likelyMember(line: ModelLine, ordinate: number, variance: number): Member {
  const score = (member: Member) => member.prominence - (ordinate - member.ordinate) ** 2 / (2 * variance);
  return line.members.reduce((best, member) => (score(member) > score(best) ? member : best));
}

/** ln of how much better the reading fits this row than a line of any wavelength would. */
function contribution({ evidence, assumption }: RowReading, i: number, line: ModelLine | null): number {
  const reading = evidence.readings[i]!;
  const { stray, anywhere } = densitiesOf(assumption.passage.view, reading);
  if (line === null) return Math.log(stray / anywhere);
  const off = reading.ordinate - placeAt(line, assumption.node);
  return Math.log(Math.max(readingDensity(reading, off, line.variance), 1e-12) / anywhere);
}

/** Chance that a line is seen, averaged over the ways of looking that this row's readings allow. */
export function averagedChance(reading: RowReading, line: ModelLine): number {
  const { found, assumption, evidence } = reading;
  const highest = Math.max(...found.lookingLogs);
  let total = 0;
  let chance = 0;
  evidence.spectra.ways.forEach((looking, way) => {
    const weight = Math.exp(found.lookingLogs[way]! - highest);
    total += weight;
    chance += weight * chanceSeen(line.prominence, looking, assumption.scene.shown || line.expected);
  });
  return chance / total;
}

function missingLines(reading: RowReading, matched: readonly (ModelLine | null)[]): MissingLine[] {
  return reading.assumption.seen.lines
    .filter((line) => line.expected && !matched.includes(line))
    .map((line) => ({ wavelengthNm: line.wavelengthNm, chanceSeen: averagedChance(reading, line) }))
    .filter(({ chanceSeen: chance }) => chance >= COUNTED_ON)
    .sort((a, b) => b.chanceSeen - a.chanceSeen)
    .slice(0, MOST_MISSING);
}
