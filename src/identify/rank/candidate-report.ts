/** What a row of the ranking says of each reading: matches, strays, lines that should have been seen. */
import type { CalibrationCurve, WavelengthEstimate } from '../../calibrate/types.ts';
import { logSum } from '../../numeric/log-sum.ts';
import { remembered } from '../../numeric/remembered.ts';
import { sumOf } from '../../numeric/sum.ts';
import { BRIGHTEST, COUNTED_ON, HAS_IT_TOO_NM, MISSING_REPORTED } from '../assumptions.ts';
import { commonShift } from '../bench/common-shift.ts';
import { readingDensity, type UnknownReading } from '../bench/unknown-reading.ts';
import { matchedLines } from '../evidence/candidate-evidence.ts';
import { placeAt } from '../evidence/pairings.ts';
import { chanceSeen, type Looking } from '../spectrum/detection.ts';
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
  const observer = waysOfObserver(rows);
  const reports = rows.map((row) => ({
    row,
    report: row.reading === null ? NOTHING_READ : readingReport(row.reading, estimateOf, observer),
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

export type ReadingReport = Pick<Candidate, 'matches' | 'unexplained' | 'missing' | 'contributions'>;

const NOTHING_READ: ReadingReport = { matches: [], unexplained: [], missing: [], contributions: [] };

function readingReport(row: RowReading, estimateOf: EstimateOf, observer: WayWeights): ReadingReport {
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
  const byIndex = <T extends { index: number }>(list: T[]): T[] => list.sort((a, b) => a.index - b.index);
  return {
    matches: byIndex(matches),
    unexplained: unexplained.sort((a, b) => a - b),
    missing: missingLines(row, matched, observer),
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

/** How probable each way of looking is, in the order of `ways`; a row's own, or those of the observer. */
type WayWeights = readonly number[];

/** By what a row's readings allow, and the lines that they lack; they sum to 1. */
function waysOfRow({ found: { lookingLogs } }: RowReading): WayWeights {
  const total = logSum(lookingLogs);
  return lookingLogs.map((log) => Math.exp(log - total));
}

/**
 * How the observer looks, whatever the tube is: the mean of all rows by their probability. A row's own would excuse it by
 * the very lines that it lacks: whoever did not see them must have looked badly.
 */
function waysOfObserver(rows: readonly Row[]): WayWeights {
  const weighed = rows.flatMap(({ reading, probability }) =>
    reading === null ? [] : [{ probability, ways: waysOfRow(reading) }],
  );
  const total = sumOf(weighed, ({ probability }) => probability);
  return (weighed[0]?.ways ?? []).map((_, way) =>
    sumOf(weighed, ({ probability, ways }) => (probability / total) * ways[way]!),
  );
}

/** Chance that a row's line is seen, averaged over ways of looking: `lookings`, one for each weight. */
function chancesOf(
  { assumption }: RowReading,
  weights: WayWeights,
  lookings: readonly Looking[],
): (line: ModelLine) => number {
  const { gains } = assumption.detection.strengths;
  return (line) => {
    const seen = { prominence: prominenceWith(line, gains), prominenceSd: line.prominenceSd };
    const chances = lookings.map((looking) => chanceSeen(seen, looking));
    return sumOf(weights, (weight, way) => weight * chances[way]!);
  };
}

/** The same over the ways that the row's readings allow, where the tube is this one; however many are written down. */
export function averagedChances(reading: RowReading): (line: ModelLine) => number {
  const lookings = reading.evidence.spectra.ways.map(({ looking }) => looking);
  return chancesOf(reading, waysOfRow(reading), lookings);
}

/** The ways of looking at a row's tube: whoever writes down so many lines at the most leaves others out. */
function lookingsAt({ assumption, evidence }: RowReading): readonly Looking[] {
  const { seen, detection } = assumption;
  return evidence.spectra.ways.map((_, way) => seen.detections.at(detection.strength, way).looking);
}

/** Lines without a reading that the observer was likelier to see than not, brightest first. */
function missingLines(
  reading: RowReading,
  matched: readonly (ModelLine | null)[],
  observer: WayWeights,
): MissingLine[] {
  const brightestFirst = reading.assumption.seen.lines
    .filter((line) => line.expected)
    .sort((a, b) => b.prominence - a.prominence);
  const chanceOf = chancesOf(reading, observer, lookingsAt(reading));
  const missing: MissingLine[] = [];
  for (const [rank, line] of brightestFirst.entries()) {
    if (matched.includes(line)) continue;
    const chance = chanceOf(line);
    // The brighter a line, the likelier it is seen.
    if (chance < COUNTED_ON || missing.length === MISSING_REPORTED) break;
    missing.push({ wavelengthNm: line.wavelengthNm, chanceSeen: chance, brightest: rank < BRIGHTEST });
  }
  return missing;
}
