/** What a row of the ranking says of each reading, checked by hand on a clean bench of neon. */
import { describe, expect, test } from 'vitest';
import { COUNTED_ON, MISSING_REPORTED } from '../../src/identify/assumptions.ts';
import { candidateEvidence } from '../../src/identify/evidence/candidate-evidence.ts';
import { averagedChances, candidateReports, estimates } from '../../src/identify/rank/candidate-report.ts';
import { type Row, type RowReading, rankedRows } from '../../src/identify/rank/rank.ts';
import { boundedLooking, chanceSeen, type Looking } from '../../src/identify/spectrum/detection.ts';
import { tubeNamed, tubes } from '../../src/lines/table.ts';
import { recordOf, unknownTube } from '../calibrate/glass-bench.ts';
import { evidenceOf } from './evidence-bench.ts';
import { reader } from './tube-bench.ts';

// Neon in air: NIST SRD 108, without 607.43 and 638.30. The last is no line of neon (mercury 435.83).
const readNm = [
  659.9, 650.65, 640.22, 633.44, 626.65, 616.36, 614.31, 609.62, 603.0, 594.48, 585.25, 540.06, 435.83,
];
const STRAY = readNm.length - 1;
const { evidence, curve } = evidenceOf(recordOf(reader, { unknown: unknownTube(reader, readNm) }));
const rows: readonly Row[] = rankedRows([...tubes], evidence, 0.5);
const reports = candidateReports(rows, estimates(curve, 0));
const alone = (name: string) =>
  reports.find(({ substance, with: rest }) => substance === name && rest.length === 0)!;

/** Neon's row as it is understood without a slip. */
const found = candidateEvidence(tubeNamed('neon')!, evidence);
const reading: RowReading = { corrected: false, evidence, found, assumption: found.best! };

describe('each reading of a row', () => {
  test('is a match or unexplained, once, in the order of the record', () => {
    for (const { matches, unexplained, contributions, substance } of reports) {
      if (substance === 'unlisted') continue;
      const told = [...matches.map(({ index }) => index), ...unexplained].sort((a, b) => a - b);
      expect(told).toEqual(readNm.map((_, i) => i));
      expect(contributions.map(({ index }) => index)).toEqual(told);
      expect(matches.map(({ index }) => index)).toEqual(
        [...matches.map(({ index }) => index)].sort((a, b) => a - b),
      );
    }
  });

  test('meets the line it was read at: of neon, its own', () => {
    const { matches } = alone('neon');
    for (const [index, nm] of readNm.slice(0, STRAY).entries()) {
      const match = matches.find((each) => each.index === index)!;
      expect(match.substance).toBe('neon');
      expect(Math.abs(match.wavelengthNm - nm)).toBeLessThan(0.1);
      expect(match.residualSigma * match.residualNm).toBeGreaterThanOrEqual(0);
      expect(Math.abs(match.residualNm)).toBeLessThan(2);
    }
  });

  test('counts against the row that has no line for it', () => {
    const { contributions, unexplained } = alone('neon');
    expect(unexplained).toEqual([STRAY]);
    const ofTheStray = contributions.find(({ index }) => index === STRAY)!.logOdds;
    for (const { index, logOdds } of contributions)
      if (index !== STRAY) expect(logOdds).toBeGreaterThan(ofTheStray);
  });
});

describe('the chance that a line is seen', () => {
  test('is the mean over the ways of looking, each weighed by what the readings say of it', () => {
    const line = reading.assumption.seen.lines.find(({ prominence }) => prominence < -1 && prominence > -2)!;
    const { ways } = evidence.spectra;
    const weights = found.lookingLogs.map((log) => Math.exp(log));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const gain = reading.assumption.detection.strengths.gains[line.component]!;
    const seen = { prominence: line.prominence + gain, prominenceSd: line.prominenceSd };
    const mean =
      weights.reduce((sum, weight, way) => sum + weight * chanceSeen(seen, ways[way]!.looking), 0) / total;
    expect(averagedChances(reading)(line)).toBeCloseTo(mean, 6);
  });

  test('of a missing line is that of the observer, whatever the tube is: a row is not excused by the lines that it lacks', () => {
    const { ways } = evidence.spectra;
    const weights = ways.map(() => 0);
    for (const { reading: row, probability } of rows) {
      if (row === null) continue;
      const own = row.found.lookingLogs.map((log) => Math.exp(log - row.found.lookingLogs[0]!));
      const total = own.reduce((sum, weight) => sum + weight, 0);
      for (const [way, weight] of own.entries()) weights[way]! += (probability * weight) / total;
    }
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    for (const name of ['neon', 'xenon', 'argon']) {
      const row = rows.find(({ tube, admixtures }) => tube?.substance === name && admixtures.length === 0)!;
      const { assumption } = row.reading!;
      const { gains } = assumption.detection.strengths;
      const chanceOf = (
        { prominence, prominenceSd, component }: (typeof assumption.seen.lines)[number],
        looking: Looking,
      ) => chanceSeen({ prominence: prominence + gains[component]!, prominenceSd }, looking);
      // Whoever writes down a dozen lines at the most leaves some of a rich tube out.
      const lookings = ways.map(({ looking }) =>
        boundedLooking(
          looking,
          assumption.seen.lines.reduce((sum, line) => sum + chanceOf(line, looking), 0),
        ),
      );
      for (const { wavelengthNm, chanceSeen: told } of alone(name).missing) {
        const line = assumption.seen.lines.find((each) => each.wavelengthNm === wavelengthNm)!;
        const mean =
          lookings.reduce((sum, looking, i) => sum + weights[i]! * chanceOf(line, looking), 0) / total;
        expect(told).toBeCloseTo(mean, 9);
        if (name !== 'neon') expect(told).toBeGreaterThan(averagedChances(row.reading!)(line));
      }
    }
    expect(alone('xenon').missing.length).toBeGreaterThan(0);
  });

  test('of a missing line is told from one in two on, brightest lines first, no line twice, none that was read', () => {
    for (const { missing, matches } of reports) {
      expect(missing.length).toBeLessThanOrEqual(MISSING_REPORTED);
      for (const { chanceSeen: chance } of missing) expect(chance).toBeGreaterThanOrEqual(COUNTED_ON);
      const places = missing.map(({ wavelengthNm }) => wavelengthNm);
      expect(new Set(places).size).toBe(places.length);
      for (const { wavelengthNm } of matches) expect(places).not.toContain(wavelengthNm);
    }
    const missingNm = alone('neon').missing.map(({ wavelengthNm }) => wavelengthNm);
    for (const nm of [607.43, 638.3]) expect(missingNm.some((each) => Math.abs(each - nm) < 0.1)).toBe(true);
  });
});

test('of a list that has just begun no line is expected that would have been left for later', () => {
  const begun = recordOf(reader, { unknown: unknownTube(reader, [585.25]) });
  const first = evidenceOf(begun);
  const rowsOfOne = rankedRows([...tubes], first.evidence, 0.5);
  const neon = candidateReports(rowsOfOne, estimates(first.curve, 0)).find(
    ({ substance, with: rest }) => substance === 'neon' && rest.length === 0,
  )!;
  expect(neon.matches).toHaveLength(1);
  expect(neon.missing).toEqual([]);
});

test('the leading row has nothing against it, every other row has', () => {
  expect(reports[0]!.against).toBeNull();
  for (const { against } of reports.slice(1)) expect(against).not.toBeNull();
});
