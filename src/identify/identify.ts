/** From one tube's readings to its ranking and verdict: the one call of this folder. */
import type { BenchState } from '../calibrate/calibrate.ts';
import { centralShift, certainty } from '../calibrate/central-doubts.ts';
import { slipSentence } from '../calibrate/known-line-report.ts';
import type { Calibration, CalibrationCurve, Doubt } from '../calibrate/types.ts';
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { tubes } from '../lines/table.ts';
import type { Bench, BenchLine, UnknownTube, Warning } from '../record/bench.ts';
import { type BenchView, benchView } from './bench-view.ts';
import { candidateReport } from './candidate-report.ts';
import { type Evidence, gatherEvidence } from './evidence.ts';
import { nextLook } from './next-look.ts';
import { reasonsAgainstRunnerUp } from './reasons.ts';
import { type Row, rankedRows } from './rows.ts';
import type { Resolution } from './spectra-through.ts';
import { lookedPlaces, type TubeReadings, tubeReadings } from './tube-readings.ts';
import type { TubeAnalysis, TubeLineResult } from './types.ts';
import type { UnknownReading } from './unknown-reading.ts';
import { verdict } from './verdict.ts';

/** Lines closer than this are read as one, arc-minutes, with weights; on a scale in least counts. */
const RESOLUTIONS = [
  { size: 1.8, weight: 0.45 },
  { size: 0.8, weight: 0.3 },
  { size: 3.5, weight: 0.25 },
];
/** A bench moved between lamp and tube without anyone reading the central image anew: how often, and by how much. */
const MOVED = { chance: 0.006, sdArcmin: 6 };
/** Where the two central readings disagree: the chance that one is misread, not that the bench was moved. */
const CENTRAL_MISREAD_CHANCE = 0.6;
/** Where "unlisted" is likelier than this, the tube is tried again with a shift common to all readings. */
const NOTHING_FITS = 0.15;

/** `day`: was the calibration made on the same day, with the bench as it is? */
export function identifyTube(
  bench: Bench,
  tube: UnknownTube,
  calibration: Calibration,
  state: BenchState,
  day: 'same' | 'another' = 'same',
): TubeAnalysis {
  const readings = tubeReadings(bench, tube, state);
  const { curve } = calibration;
  const empty = (warning: Warning | null): TubeAnalysis => ({
    tubeIndex: tube.index,
    label: tube.label,
    lines: tube.lines.map((line) => lineResult(bench, line, readings, curve, new Map())),
    candidates: [],
    verdict: verdict([], null, 0),
    reasons: [],
    doubts: [],
    warnings: warning ? [warning] : [],
  });
  if (!curve)
    return empty({
      code: 'no-calibration',
      message: `${tube.label}: without a calibration curve no wavelength can be given.`,
    });
  if (readings.readings.length === 0) {
    return empty({
      code: 'no-unknown-lines',
      message: `${tube.label}: there is no reading of an unknown line yet.`,
    });
  }

  const { rows, evidence } = ranking(bench, tube, calibration, readings, state, day);
  const slipDoubts = unknownSlips(bench, tube, rows);
  const lines = tube.lines.map((line) => lineResult(bench, line, readings, curve, slipDoubts));
  const candidates = rows.map((row) => candidateReport(row, curve, readings.offsetVariance));
  const look = nextLook(bench, rows, readings, state, curve);
  return {
    tubeIndex: tube.index,
    label: tube.label,
    lines,
    candidates,
    verdict: verdict(candidates, look, evidence.readings.length),
    reasons: reasonsAgainstRunnerUp(candidates, lines),
    doubts: [...movedDoubts(bench, tube, state, rows, day), ...slipDoubts.values()],
    warnings: evidence.readings.length < 2 ? [oneReading(tube)] : [],
  };
}

function oneReading(tube: UnknownTube): Warning {
  return {
    code: 'few-unknown-lines',
    message: `${tube.label}: a single line can belong to many tubes; read more lines.`,
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
  const view = (curve: CalibrationCurve, log: number, shift: number, furtherSd: number): BenchView =>
    benchView(curve, sorted, log, shift, readings.offsetVariance + furtherSd ** 2);
  const misread = centralMisread(bench, tube, state, sorted, day);
  const plain = calibration.hypotheses.flatMap(({ curve, probability }) => {
    const log = Math.log(probability);
    if (misread === null) return [view(curve, log, 0, 0)];
    return [
      view(curve, log + Math.log(CENTRAL_MISREAD_CHANCE), misread, 0),
      view(curve, log + Math.log(1 - CENTRAL_MISREAD_CHANCE), 0, 0),
    ];
  });
  const looked = lookedPlaces(bench, tube, readings, calibration.curve!);
  const gathered = (views: readonly BenchView[]): Evidence =>
    gatherEvidence(sorted, views, resolutions(bench, u), looked, tube.complete);
  const candidates = shelf(tube);
  const evidence = gathered(plain);
  const rows = rankedRows(candidates, evidence, u);
  const unlisted = rows.find((row) => row.tube === null)?.probability ?? 0;
  if (unlisted < NOTHING_FITS || bench.method === 'scale') return { rows, evidence };
  const moved = gathered([...plain, view(calibration.curve!, Math.log(MOVED.chance), 0, MOVED.sdArcmin)]);
  return { rows: rankedRows(candidates, moved, u), evidence: moved };
}

/**
 * Two central readings of one bench that disagree by more than their uncertainty: if one of them is misread, all
 * readings of the tube are off by the difference. That shift of the ordinate, or null where they agree.
 */
function centralMisread(
  bench: Bench,
  tube: UnknownTube,
  state: BenchState,
  readings: readonly UnknownReading[],
  day: 'same' | 'another',
): number | null {
  const shift = day === 'same' ? centralShift(bench, state, tube.central) : null;
  if (shift === null || !centralsDisagree(bench, shift)) return null;
  const side = readings[0]?.observation.side ?? 1;
  return -side * shift.shiftArcmin;
}

function centralsDisagree(bench: Bench, { shiftArcmin, u }: { shiftArcmin: number; u: number }): boolean {
  return Math.abs(shiftArcmin) > 4 * u + bench.leastCount;
}

function resolutions(bench: Bench, u: number): Resolution[] {
  const unit = bench.method === 'scale' ? u : 1;
  return RESOLUTIONS.map(({ size, weight }) => ({ size: size * unit, logWeight: Math.log(weight) }));
}

function shelf(tube: UnknownTube): TubeSpectrum[] {
  const { shelf: names } = tube;
  return names === null ? [...tubes] : tubes.filter(({ substance }) => names.includes(substance));
}

function lineResult(
  bench: Bench,
  line: BenchLine,
  { readings, offsetVariance }: TubeReadings,
  curve: CalibrationCurve | null,
  slips: ReadonlyMap<number, Doubt>,
): TubeLineResult {
  const reading = readings.find((entry) => entry.line.index === line.index);
  const estimate =
    reading && curve ? curve.wavelengthAt(reading.ordinate, reading.totalVariance + offsetVariance) : null;
  const doubt = slips.get(line.index);
  const beyond =
    reading && curve && !estimate ? 'This reading lies beyond what the calibration curve reaches.' : null;
  return {
    index: line.index,
    deviationDeg: reading && bench.method !== 'scale' ? reading.ordinate / 60 : null,
    ordinate: reading?.ordinate ?? null,
    wavelengthNm: estimate?.wavelengthNm ?? null,
    standardUncertaintyNm: estimate?.standardUncertaintyNm ?? null,
    extrapolated: estimate?.extrapolated ?? false,
    status: doubt ? 'slip' : 'used',
    message: doubt?.message ?? beyond ?? (line.use ? null : 'Left out by the record ("use": false).'),
  };
}

/** Slips that are likelier than not, over all rows. */
function unknownSlips(bench: Bench, tube: UnknownTube, rows: readonly Row[]): Map<number, Doubt> {
  const chances = new Map<number, number>();
  for (const row of rows) {
    for (const scene of row.slips?.scenes ?? []) {
      const weight = row.probability * Math.exp(scene.log - (row.slips?.log ?? 0));
      for (const index of scene.slips.keys()) chances.set(index, (chances.get(index) ?? 0) + weight);
    }
  }
  const doubts = new Map<number, Doubt>();
  const lead = rows[0]?.slips?.scenes ?? [];
  for (const [index, probability] of chances) {
    const slip = lead.find((scene) => scene.slips.has(index))?.slips.get(index);
    if (probability < 0.5 || !slip) continue;
    const message = `${tube.label}, reading ${index + 1}: ${slipSentence(bench, slip)}`;
    doubts.set(index, {
      step: 'unknown',
      index,
      kind: 'slip',
      probability: Math.min(1, probability),
      message,
    });
  }
  return doubts;
}

/** The central image read anew differs by more than its uncertainty, or all readings are shifted alike. */
function movedDoubts(
  bench: Bench,
  tube: UnknownTube,
  state: BenchState,
  rows: readonly Row[],
  day: 'same' | 'another',
): Doubt[] {
  const shift = centralShift(bench, state, tube.central);
  const misread = rows[0]?.reading?.assumption.passage.view.shift ?? 0;
  if (misread !== 0) {
    const message = `${tube.label}: its central image and the calibration's differ by ${Math.abs(misread).toFixed(1)}', and the readings fit better as if they were the same: one of the two is misread. Read the central image again.`;
    return [
      { step: 'central', index: null, kind: 'central-misread', probability: rows[0]!.probability, message },
    ];
  }
  // From one day to the next the table is turned; that is no fault.
  if (shift === null || !centralsDisagree(bench, shift) || day === 'another') return [];
  const message = `${tube.label}: its central image differs from the calibration's by ${shift.shiftArcmin.toFixed(1)}' (uncertainty ${shift.u.toFixed(1)}'): the bench was moved between lamp and tube, or one of the two is misread.`;
  return [
    {
      step: 'central',
      index: null,
      kind: 'moved-central',
      probability: certainty(shift.shiftArcmin / shift.u),
      message,
    },
  ];
}
