/** From one tube's readings to its ranking and verdict: the one call of this folder. */
import { lineBudget } from '../calibrate/budget.ts';
import type { BenchState } from '../calibrate/calibrate.ts';
import type { Calibration, CalibrationCurve } from '../calibrate/types.ts';
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { tubes } from '../lines/table.ts';
import {
  type CentralLists,
  type CentralStory,
  centralStories,
  isWritten,
} from '../observe/central-hypotheses.ts';
import type { Bench, UnknownTube } from '../record/bench.ts';
import { benchView } from './bench/bench-hypothesis.ts';
import { lookedPlaces, type TubeReadings, tubeReadings } from './bench/tube-readings.ts';
import { type Evidence, gatherEvidence, matchedLines, withView } from './evidence/candidate-evidence.ts';
import { ownCentralFindings, sharedFindings } from './findings/central-findings.ts';
import { onceForAll, readingFindings } from './findings/reading-findings.ts';
import { reasonsAgainstRunnerUp } from './findings/runner-up.ts';
import type { ReadingFinding } from './findings/tube-finding.ts';
import { verdict } from './findings/verdict.ts';
import { candidateReport, estimates } from './rank/candidate-report.ts';
import { nextLook } from './rank/next-look.ts';
import { leadingShift, type Row, rankedRows } from './rank/rank.ts';
import type { Resolution } from './spectrum/spectra-through.ts';
import type { TubeIdentification, TubeLine } from './types.ts';

/** Lines closer than this are read as one, arc-minutes, with weights; on a scale in least counts. */
const RESOLUTIONS = [
  { size: 1.6, weight: 0.45 },
  { size: 0.7, weight: 0.2 },
  { size: 2.7, weight: 0.35 },
];
/** A bench moved between lamp and tube without anyone reading the central image anew: how often, and by how much. */
const MOVED = { chance: 0.01, sdArcmin: 12 };
/** Where "unlisted" is likelier than this, something may be wrong with all readings alike. */
const NOTHING_FITS = 0.05;

/** `day`: was the calibration made on the same day, with the bench as it is? */
export function identifyTube(
  bench: Bench,
  tube: UnknownTube,
  calibration: Calibration,
  state: BenchState,
  day: 'same' | 'another' = 'same',
): TubeIdentification {
  const readings = tubeReadings(bench, tube, state);
  const { curve } = calibration;
  const linesWith = (findings: ReadonlyMap<number, ReadingFinding>): TubeLine[] =>
    tube.lines.map(({ index }) => tubeLine(bench, index, readings, curve, findings.get(index) ?? null));
  const own = ownCentralFindings(bench, tube, state);
  if (!curve || readings.readings.length === 0)
    return {
      lines: linesWith(new Map()),
      candidates: [],
      verdict: verdict([], () => null),
      readings: 0,
      reasons: [],
      findings: own,
      lacks: curve ? 'readings' : 'calibration',
    };
  const { rows, evidence } = ranking(bench, tube, calibration, readings, state, day);
  const found = readingFindings(readings, curve, rows, leadingShift(rows));
  const estimateOf = estimates(curve, readings.offsetVariance);
  const candidates = rows.map((row) => candidateReport(row, estimateOf));
  return {
    lines: linesWith(found),
    candidates,
    verdict: verdict(candidates, () => nextLook(bench, tube, rows, readings.readings, curve)),
    readings: evidence.readings.length,
    reasons: reasonsAgainstRunnerUp(candidates),
    findings: [
      ...own,
      ...sharedFindings(bench, tube, state, rows, day),
      ...onceForAll(tube, [...found.values()]),
    ],
    lacks: evidence.readings.length < 2 ? 'more-readings' : null,
  };
}

function ranking(
  bench: Bench,
  tube: UnknownTube,
  calibration: Calibration,
  readings: TubeReadings,
  state: BenchState,
  day: 'same' | 'another',
): { rows: Row[]; evidence: Evidence } {
  const sorted = [...readings.readings].sort((a, b) => a.ordinate - b.ordinate);
  const u = Math.sqrt(Math.min(...sorted.map((reading) => reading.totalVariance)));
  const { offsetVariance } = readings;
  const stories = storiesOf(bench, tube, readings, state, day);
  const plain = calibration.hypotheses.flatMap(({ curve, probability }) =>
    stories.map((central) =>
      benchView(curve, sorted, {
        story: central === null || isWritten(central) ? 'plain' : 'central-misread',
        logWeight: Math.log(probability * (central?.probability ?? 1)),
        shift: central?.shiftArcmin ?? 0,
        central,
        offsetVariance,
      }),
    ),
  );
  const looked = lookedPlaces(bench, tube, readings, calibration.curve!);
  const candidates = shelf(tube);
  const evidence = gatherEvidence(sorted, plain, resolutions(bench, u, sorted.length), looked, tube.complete);
  const rows = rankedRows(candidates, evidence, u);
  if (bench.method === 'scale' || explainsEverything(rows)) return { rows, evidence };
  const moved = benchView(calibration.curve!, sorted, {
    story: 'moved',
    logWeight: Math.log(MOVED.chance),
    shift: 0,
    central: null,
    offsetVariance: offsetVariance + MOVED.sdArcmin ** 2,
  });
  const further = withView(evidence, moved);
  return { rows: rankedRows(candidates, further, u), evidence: further };
}

/** What the central readings may be; one null where the tube has none of its own to compare. */
function storiesOf(
  bench: Bench,
  tube: UnknownTube,
  { origin }: TubeReadings,
  state: BenchState,
  day: 'same' | 'another',
): readonly (CentralStory | null)[] {
  if (bench.method !== 'central' || tube.central === null) return [null];
  const tubeSide = origin.side || 1;
  const lists: CentralLists = {
    calibration: { settings: state.origin.settings, side: state.origin.side || tubeSide },
    tube: { settings: tube.central, side: tubeSide },
    day,
  };
  const stories = centralStories(bench, lists, state);
  return stories.length > 0 ? stories : [null];
}

/** The leading row needs no slip, leaves no reading unexplained, and "unlisted" is no rival. */
function explainsEverything(rows: readonly Row[]): boolean {
  const lead = rows[0]!;
  const unlisted = rows.find((row) => row.tube === null)?.probability ?? 0;
  if (unlisted > NOTHING_FITS || !lead.reading || lead.reading.mended) return false;
  return matchedLines(lead.reading.evidence, lead.reading.assumption).every((line) => line !== null);
}

/** Of more readings than anyone takes at a bench the usual resolution alone is tried, so that the time stays in bounds. */
const MANY_READINGS = 120;

function resolutions(bench: Bench, u: number, readings: number): Resolution[] {
  const unit = bench.method === 'scale' ? u : 1;
  const tried = readings > MANY_READINGS ? RESOLUTIONS.slice(0, 1) : RESOLUTIONS;
  return tried.map(({ size, weight }) => ({ size: size * unit, logWeight: Math.log(weight) }));
}

function shelf(tube: UnknownTube): TubeSpectrum[] {
  const { shelf: names } = tube;
  return names === null ? [...tubes] : tubes.filter(({ substance }) => names.includes(substance));
}

function tubeLine(
  bench: Bench,
  index: number,
  { readings, offsetVariance }: TubeReadings,
  curve: CalibrationCurve | null,
  finding: ReadingFinding | null,
): TubeLine {
  const reading = readings.find(({ line }) => line.index === index);
  const estimate =
    reading && curve ? curve.wavelengthAt(reading.ordinate, reading.totalVariance + offsetVariance) : null;
  const budget =
    reading && estimate && curve
      ? lineBudget(reading.varianceTerms, offsetVariance, curve, estimate.wavelengthNm)
      : [];
  return {
    index,
    deviationDeg: reading && bench.method !== 'scale' ? reading.ordinate / 60 : null,
    ordinate: reading?.ordinate ?? null,
    wavelengthNm: estimate?.wavelengthNm ?? null,
    standardUncertaintyNm: estimate?.standardUncertaintyNm ?? null,
    extrapolated: estimate?.extrapolated ?? (reading !== undefined && curve !== null),
    budget,
    status: finding?.what === 'slip' ? 'slip' : 'used',
    finding,
  };
}
