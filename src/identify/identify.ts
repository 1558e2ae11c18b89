/** From one tube's readings to its ranking and verdict: the one call of this folder. */
import { lineBudget } from '../calibrate/budget.ts';
import type { BenchState } from '../calibrate/calibrate.ts';
import { spectrumLength } from '../calibrate/curve/spectrum-length.ts';
import type { Calibration, CalibrationCurve } from '../calibrate/types.ts';
import { substancesIn } from '../lines/mixed-lamps.ts';
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { tubeNamed, tubes } from '../lines/table.ts';
import { BETWEEN_TWO_LAMPS } from '../observe/assumptions.ts';
import { moveSize } from '../observe/bench-move.ts';
import {
  type CentralHypothesis,
  type CentralLists,
  centralHypotheses,
  isWritten,
} from '../observe/central-hypotheses.ts';
import { apartOrigins, type Origin } from '../observe/origin.ts';
import type { Bench, UnknownTube } from '../record/bench.ts';
import { MANY_READINGS, RESOLUTIONS } from './assumptions.ts';
import { benchView } from './bench/bench-hypothesis.ts';
import type { CommonShift } from './bench/common-shift.ts';
import { type LookedPlace, lookedPlaces } from './bench/looked-places.ts';
import { type TubeReadings, tubeReadings } from './bench/tube-readings.ts';
import { type Evidence, gatherEvidence, withViews } from './evidence/candidate-evidence.ts';
import { likelyShifts, type ShiftPrior } from './evidence/shift-search.ts';
import { allowanceOfEach, WorkAllowance } from './evidence/work-allowance.ts';
import { ownCentralFindings, sharedFindings } from './findings/central-findings.ts';
import { colourFindings } from './findings/colour-findings.ts';
import { readAgainFindings } from './findings/read-again.ts';
import { onceForAll, oneOfSeveral, readingFindings } from './findings/reading-findings.ts';
import { roomLightFindings } from './findings/room-light.ts';
import { reasonsAgainstRunnerUp } from './findings/runner-up.ts';
import { seenAndNotSeen } from './findings/seen-and-not-seen.ts';
import type { ReadingFinding } from './findings/tube-finding.ts';
import { verdict } from './findings/verdict.ts';
import { candidateReports, estimates } from './rank/candidate-report.ts';
import { nextLook } from './rank/next-look.ts';
import { type Row, rankedRows, shiftOf } from './rank/rank.ts';
import type { Resolution } from './spectrum/spectra-through.ts';
import type { TubeIdentification, TubeLine } from './types.ts';

/**
 * `day`: was the calibration made on the same day, with the bench as it is? `allowance`: what may be computed.
 */
export function identifyTube(
  bench: Bench,
  tube: UnknownTube,
  calibration: Calibration,
  state: BenchState,
  day: 'same' | 'another' = 'same',
  allowance = new WorkAllowance(allowanceOfEach(1)),
): TubeIdentification {
  const readings = tubeReadings(bench, tube, state);
  const curve = curveOfTube(calibration, readings.origin);
  const linesWith = (findings: ReadonlyMap<number, ReadingFinding>, shift: CommonShift | null): TubeLine[] =>
    tube.lines.map(({ index }) =>
      tubeLine(bench, index, readings, curve, shift, findings.get(index) ?? null),
    );
  if (!curve || readings.readings.length === 0)
    return {
      lines: linesWith(new Map(), null),
      candidates: [],
      verdict: verdict([], () => null),
      readings: 0,
      shift: null,
      reasons: [],
      findings: ownCentralFindings(bench, tube, state),
      lacks: curve ? 'readings' : 'calibration',
    };
  const looked = lookedPlaces(bench, tube, readings, curve);
  const { rows, evidence } = ranking(
    bench,
    tube,
    calibration,
    curve,
    readings,
    looked,
    state,
    day,
    allowance,
  );
  const leading = rows[0]!.reading;
  const shift = leading && shiftOf(leading);
  const shared = sharedFindings(bench, tube, state, curve, rows, shift, day);
  const found = readingFindings(readings, curve, rows, shift?.value ?? 0);
  const estimateOf = estimates(curve, readings.offsetVariance);
  const candidates = candidateReports(rows, estimateOf);
  const lines = linesWith(found, shift);
  return {
    lines,
    candidates,
    verdict: verdict(
      candidates,
      () => nextLook(bench, rows, readings, looked, curve, shift?.value ?? 0),
      shared.some(({ what }) => what === 'moved'),
    ),
    readings: evidence.readings.length,
    shift,
    reasons: reasonsAgainstRunnerUp(candidates),
    findings: [
      ...ownCentralFindings(bench, tube, state, shared),
      ...shared,
      ...onceForAll(tube, [...found.values()]),
      ...oneOfSeveral(rows, found),
      ...colourFindings(rows[0]!),
      ...roomLightFindings(candidates, lines),
      ...readAgainFindings(candidates, readings.readings, shift),
      ...seenAndNotSeen(bench, tube, readings, curve),
    ],
    lacks: evidence.readings.length < 2 ? 'more-readings' : null,
  };
}

function ranking(
  bench: Bench,
  tube: UnknownTube,
  calibration: Calibration,
  curve: CalibrationCurve,
  readings: TubeReadings,
  looked: readonly LookedPlace[],
  state: BenchState,
  day: 'same' | 'another',
  allowance: WorkAllowance,
): { rows: Row[]; evidence: Evidence } {
  const sorted = [...readings.readings].sort((a, b) => a.ordinate - b.ordinate);
  const u = Math.sqrt(Math.min(...sorted.map((reading) => reading.totalVariance)));
  const { offsetVariance } = readings;
  const { origin } = readings;
  const plain = calibration.hypotheses.flatMap((hypothesis) => {
    const lamp = { ...state, origin: hypothesis.origin };
    // Where the calibration was moved otherwise, so was what shares its central image.
    const otherwise = origin.isOwn ? 0 : origin.side * apartOrigins(state.origin, hypothesis.origin);
    return centralsOfTube(bench, tube, readings, lamp, day).map((central) =>
      benchView(curveOfTube(hypothesis, origin), sorted, {
        explanation: central === null || isWritten(central) ? 'plain' : 'central-misread',
        logWeight: Math.log(hypothesis.probability * (central?.probability ?? 1)),
        shift: (central?.shiftArcmin ?? 0) + otherwise,
        central,
        offsetVariance,
        shiftVariance: 0,
      }),
    );
  });
  const candidates = shelf(tube);
  const asRecorded = gatherEvidence(
    sorted,
    plain,
    resolutions(bench, u, sorted.length),
    looked,
    tube.complete,
    allowance,
  );
  const shifts = likelyShifts(candidates, asRecorded, shiftPrior(bench, curve));
  const moved = shifts.map(({ shift, sd, logPrior }) =>
    benchView(curve, sorted, {
      explanation: 'moved',
      logWeight: logPrior,
      shift,
      central: null,
      offsetVariance,
      shiftVariance: sd ** 2,
    }),
  );
  const evidence = moved.length === 0 ? asRecorded : withViews(asRecorded, moved);
  return { rows: rankedRows(candidates, evidence, u), evidence };
}

function shiftPrior(bench: Bench, curve: CalibrationCurve): ShiftPrior {
  const { sd, reach } = moveSize(bench, spectrumLength(curve));
  const { knocked, turned } = BETWEEN_TWO_LAMPS;
  return { moved: { chance: knocked, sd }, turned: { chance: turned, reach } };
}

/** A tube that shares the record's central image shares a move of the bench with the known lines that were read last. */
function curveOfTube<C extends CalibrationCurve | null>(
  { curve, curveNow }: { readonly curve: C; readonly curveNow: C },
  { isOwn }: Origin,
): C {
  return isOwn ? curve : curveNow;
}

/** What the central readings may be; one null where the tube has none of its own to compare. */
function centralsOfTube(
  bench: Bench,
  tube: UnknownTube,
  { origin }: TubeReadings,
  state: BenchState,
  day: 'same' | 'another',
): readonly (CentralHypothesis | null)[] {
  if (bench.method !== 'central' || tube.central === null) return [null];
  const tubeSide = origin.side || 1;
  const lists: CentralLists = {
    calibration: {
      settings: state.origin.settings,
      side: state.origin.side || tubeSide,
      carried: state.origin.carried,
    },
    tube: { settings: tube.central, side: tubeSide },
    day,
  };
  const hypotheses = centralHypotheses(bench, lists, state);
  return hypotheses.length > 0 ? hypotheses : [null];
}

function resolutions(bench: Bench, u: number, readings: number): Resolution[] {
  const unit = bench.method === 'scale' ? u : 1;
  const tried = readings > MANY_READINGS ? RESOLUTIONS.slice(0, 1) : RESOLUTIONS;
  return tried.map(({ size, weight }) => ({ size: size * unit, logWeight: Math.log(weight) }));
}

function shelf(tube: UnknownTube): TubeSpectrum[] {
  const { shelf: names } = tube;
  if (names === null) return [...tubes];
  // In the order of the line table, mixed lamps after the tubes.
  const mixed = names.filter((name) => substancesIn(name).length > 1);
  return [
    ...tubes.filter(({ substance }) => names.includes(substance)),
    ...mixed.flatMap((name) => tubeNamed(name) ?? []),
  ];
}

function tubeLine(
  bench: Bench,
  index: number,
  { readings, offsetVariance }: TubeReadings,
  curve: CalibrationCurve | null,
  shift: CommonShift | null,
  finding: ReadingFinding | null,
): TubeLine {
  const reading = readings.find(({ line }) => line.index === index);
  const estimateOf = (ordinate: number) =>
    reading && curve ? curve.wavelengthAt(ordinate, reading.totalVariance + offsetVariance) : null;
  const estimate = reading ? estimateOf(reading.ordinate) : null;
  const corrected = reading && shift ? estimateOf(reading.ordinate - shift.value) : null;
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
    correctedNm: corrected?.wavelengthNm ?? null,
    correctedUncertaintyNm: corrected?.standardUncertaintyNm ?? null,
    extrapolated: estimate?.extrapolated ?? (reading !== undefined && curve !== null),
    budget,
    status: finding?.what === 'slip' ? 'slip' : 'used',
    finding,
  };
}
