/** What a row of the ranking says of each reading: matches, strays, lines that should have been seen. */
import type { CalibrationCurve, WavelengthEstimate } from '../../calibrate/types.ts';
import { remembered } from '../../numeric/remembered.ts';
import { sum, sumOf } from '../../numeric/sum.ts';
import { BRIGHTEST, COUNTED_ON, HAS_IT_TOO_NM, MISSING_REPORTED } from '../assumptions.ts';
import { commonShift } from '../bench/common-shift.ts';
import { readingDensity, type UnknownReading } from '../bench/unknown-reading.ts';
import { matchedLines } from '../evidence/candidate-evidence.ts';
import { placeAt } from '../evidence/pairings.ts';
import { chanceSeen } from '../spectrum/detection.ts';
import { type Member, type ModelLine, prominenceWith } from '../spectrum/expected-lines.ts';
import type { Candidate, Match, MissingLine } from '../types.ts';
import type { Row, RowReading } from './rank.ts';
import { reasonAgainst } from './reason-against.ts';

/** The wavelength of a reading less a shift; null beyond the curve. */
export type EstimateOf = (reading: UnknownReading, shift: number) => WavelengthEstimate | null;

/** Nearly all rows understand a reading in the same way: each wavelength is worked out once. */
export function estimates(curve: CalibrationCurve, offsetVariance: number): EstimateOf {
  const known = new Map<UnknownReading, Map<number, WavelengthEstimate | null>>();
  return (reading, shift) =>
    remembered(
      remembered(known, reading, () => new Map<number, WavelengthEstimate | null>()),
      shift,
      () => curve.wavelengthAt(reading.ordinate - shift, reading.totalVariance + offsetVariance),
    );
}

/** What the rows say, likeliest first. */
export function candidateReports(rows: readonly Row[], estimateOf: EstimateOf): Candidate[] {
  const reports = rows.map((row) => ({
    row,
    report: row.reading === null ? NOTHING_READ : readingReport(row.reading, estimateOf),
  }));
  const lead = reports[0]!;
  return reports.map(({ row, report }) => ({
    substance: row.tube?.substance ?? 'unlisted',
    symbol: row.tube?.symbol ?? null,
    with: row.admixtures.map((tube) => tube.substance),
    indistinguishable: row.indistinguishable.map((tube) => tube.substance),
    probability: row.probability,
    logEvidence: row.logEvidence,
    matches: report.matches,
    unexplained: report.unexplained,
    missing: report.missing,
    against: row === lead.row ? null : reasonAgainst({ row, report }, lead),
    contributions: report.contributions,
  }));
}

export interface ReadingReport
  extends Pick<Candidate, 'matches' | 'unexplained' | 'missing' | 'contributions'> {
  /** Lines without a reading that one would have expected to be seen, before the readings; brightest first. */
  readonly shouldShow: readonly MissingLine[];
}

const NOTHING_READ: ReadingReport = {
  matches: [],
  unexplained: [],
  missing: [],
  shouldShow: [],
  contributions: [],
};

function readingReport(row: RowReading, estimateOf: EstimateOf): ReadingReport {
  const { evidence, assumption } = row;
  const matched = matchedLines(evidence, assumption);
  const common = commonShift(evidence, assumption, matched);
  const shift = common?.value ?? 0;
  const matches: Match[] = [];
  const unexplained: number[] = [];
  const contributions: { index: number; logOdds: number }[] = [];
  evidence.readings.forEach((reading, i) => {
    const { index } = reading.line;
    const line = matched[i] ?? null;
    contributions.push({ index, logOdds: contribution(row, i, line) });
    const estimate = estimateOf(reading, shift);
    if (line === null || estimate === null) {
      unexplained.push(index);
      return;
    }
    const { substance, wavelengthNm } = likelyMember(line, reading.ordinate - shift, reading.totalVariance);
    const residualNm = estimate.wavelengthNm - wavelengthNm;
    matches.push({
      index,
      substance,
      wavelengthNm,
      residualNm,
      residualSigma: residualNm / estimate.standardUncertaintyNm,
      asRead: reading.ordinate === reading.observation.ordinate && common === null,
    });
  });
  const missing = missingLines(row, matched);
  const byIndex = <T extends { index: number }>(list: T[]): T[] => list.sort((a, b) => a.index - b.index);
  return {
    matches: byIndex(matches),
    unexplained: unexplained.sort((a, b) => a - b),
    missing: missing(averagedOverWays(row)),
    shouldShow: missing(averagedBefore(row)),
    contributions: byIndex(contributions),
  };
}

/** Does a row have a line there too, read or missing? Then the line does not tell another row from it. */
export function hasToo(
  { matches, missing }: Pick<ReadingReport, 'matches' | 'missing'>,
  nm: number,
): boolean {
  return [...matches, ...missing].some(({ wavelengthNm }) => Math.abs(wavelengthNm - nm) < HAS_IT_TOO_NM);
}

/** Of several lines read as one, the one that the cross-hairs were on: bright and near. */
function likelyMember(line: ModelLine, ordinate: number, variance: number): Member {
  const score = (member: Member) => member.prominence - (ordinate - member.ordinate) ** 2 / (2 * variance);
  return line.members.reduce((best, member) => (score(member) > score(best) ? member : best));
}

/** ln of how much better the reading fits this row than a line of any wavelength would. */
function contribution({ evidence, assumption }: RowReading, i: number, line: ModelLine | null): number {
  const reading = evidence.readings[i]!;
  const { stray, anywhere } = assumption.likelihoods.densities.get(reading)!;
  if (line === null) return Math.log(stray / anywhere);
  const off = reading.ordinate - placeAt(line, assumption.node);
  return Math.log(Math.max(readingDensity(reading, off, line.variance), 1e-12) / anywhere);
}

/** Weights of the ways of looking, of any sum, and the chance under each that a line is seen: averaged. */
type Averaged = (chances: readonly number[]) => number;

/** Averaged over the ways of looking that a row's readings allow. */
function averagedOverWays({ found: { lookingLogs } }: RowReading): Averaged {
  const highest = Math.max(...lookingLogs);
  return averaged(lookingLogs.map((log) => Math.exp(log - highest)));
}

/** Averaged as one expects before seeing which lines are there. */
function averagedBefore({ evidence }: RowReading): Averaged {
  return averaged(evidence.spectra.ways.map(({ weight }) => weight));
}

function averaged(weights: readonly number[]): Averaged {
  const total = sum(weights);
  return (chances) => sumOf(weights, (weight, way) => weight * chances[way]!) / total;
}

/** Chance that a line is seen under each way of looking. */
function chancesByWay({ assumption, evidence }: RowReading): (line: ModelLine) => readonly number[] {
  const { gains } = assumption.detection.strengths;
  return (line) => {
    const seen = { prominence: prominenceWith(line, gains), prominenceSd: line.prominenceSd };
    return evidence.spectra.ways.map((way) => chanceSeen(seen, way));
  };
}

/** Chance that a line is seen, averaged over the ways of looking that a row's readings allow. */
export function averagedChances(reading: RowReading): (line: ModelLine) => number {
  const average = averagedOverWays(reading);
  const chancesOf = chancesByWay(reading);
  return (line) => average(chancesOf(line));
}

/** Lines without a reading that were likelier seen than not, brightest first, the ways of looking averaged in one way or another. */
function missingLines(
  reading: RowReading,
  matched: readonly (ModelLine | null)[],
): (average: Averaged) => MissingLine[] {
  const brightestFirst = reading.assumption.seen.lines
    .filter((line) => line.expected)
    .sort((a, b) => b.prominence - a.prominence);
  const chancesOf = chancesByWay(reading);
  const known = new Map<ModelLine, readonly number[]>();
  return (average) => {
    const missing: MissingLine[] = [];
    for (const [rank, line] of brightestFirst.entries()) {
      if (matched.includes(line)) continue;
      const chance = average(remembered(known, line, () => chancesOf(line)));
      // The brighter a line, the likelier it is seen.
      if (chance < COUNTED_ON || missing.length === MISSING_REPORTED) break;
      missing.push({ wavelengthNm: line.wavelengthNm, chanceSeen: chance, brightest: rank < BRIGHTEST });
    }
    return missing;
  };
}
