/** The whole way in one call: readings -> deviations -> calibration -> wavelengths -> ranking. */
import type { BenchState } from '../calibrate/calibrate.ts';
import { allowanceOfEach, WorkAllowance } from '../identify/evidence/work-allowance.ts';
import { identifyTube } from '../identify/identify.ts';
import { signedText } from '../numeric/signed-text.ts';
import { lampOrigin, originShift, withMove } from '../observe/origin.ts';
import { asWritten } from '../observe/reading-step.ts';
import type { Bench, UnknownTube, Warning } from '../record/bench.ts';
import { roundedKnownLines, roundedLines } from '../words/rounded-readings.ts';
import { tellCalibration } from './tell-calibration.ts';
import { tellTube } from './tell-tube.ts';
import type { Analysis } from './types.ts';
import { understoodBench } from './understood-bench.ts';

export interface AnalysisOptions {
  /** Another bench whose known lamp is to be used: last week's calibration. */
  readonly calibrationFrom?: Bench;
}

/**
 * Analyses a bench; its known lamp, its tubes, or both may still be without lines. With a calibration of another
 * day the tube's deviations are taken from today's central image, and both central readings are in the budget.
 * Throws RangeError when the other bench measures something else (a scale instead of angles).
 */
export function analyseBench(bench: Bench, options: AnalysisOptions = {}): Analysis {
  const { calibrationFrom } = options;
  const written = asWritten(bench);
  if (calibrationFrom === undefined) return analysed(written, written, written.tubes, () => []);
  if ((calibrationFrom.method === 'scale') !== (bench.method === 'scale')) {
    throw new RangeError('a calibration of a scale cannot be used for angles, nor one of angles for a scale');
  }
  const calibrated = asWritten(calibrationFrom);
  const today = { ...written, known: calibrated.known };
  const tubes = written.tubes.map((tube) => ({
    ...tube,
    central: tube.central ?? (written.central.length > 0 ? written.central : null),
  }));
  return analysed(today, calibrated, tubes, (state) => otherDayWarnings(written, state));
}

/** The bench with its calibration alone: its tubes are not weighed, but how they were written down counts. */
export function calibrateBench(bench: Bench): Analysis {
  const written = asWritten(bench);
  return analysed(written, written, [], () => []);
}

function analysed(
  written: Bench,
  calibrated: Bench,
  tubes: readonly UnknownTube[],
  warningsOf: (state: BenchState) => readonly Warning[],
): Analysis {
  const { calibration: found, state, bench: understood } = understoodBench(calibrated);
  const calibration = tellCalibration(understood, found, roundedKnownLines(calibrated));
  const day = calibrated === written ? 'same' : 'another';
  // What has no central image of its own counts from that of the other day, where it stood after the last lamp.
  const moved = written.central.length === 0 ? found.moved : null;
  const bench = day === 'same' ? understood : withMove(written, moved);
  const results = tubes.map((tube) => {
    const allowance = new WorkAllowance(allowanceOfEach(tubes.length, tube.lines.length));
    const result = tellTube(bench, tube, identifyTube(bench, tube, found, state, day, allowance));
    return { ...result, warnings: [...roundedLines(bench, tube.label, tube.lines), ...result.warnings] };
  });
  return {
    bench,
    calibration,
    tubes: results,
    warnings: [...calibration.warnings, ...warningsOf(state), ...results.flatMap((tube) => tube.warnings)],
  };
}

/** What the two central readings say of the time between. */
function otherDayWarnings(bench: Bench, { origin, settingVariance }: BenchState): Warning[] {
  if (bench.method !== 'central') return [];
  // The record's own central reading stands for its tubes as one of their own would.
  const shift = originShift(origin, { ...lampOrigin(bench), isOwn: true }, settingVariance);
  const [code, message] =
    shift === null
      ? [
          'calibration-central',
          'This record has no central reading of its own: the one of the calibration serves, and a bench moved since then would go unnoticed.',
        ]
      : [
          'calibration-drift',
          `The central image stands ${signedText(shift.shiftArcmin, 1)}' (uncertainty ${shift.u.toFixed(1)}') from where it stood at the calibration: deviations are taken from today's, and both readings are in the uncertainty.`,
        ];
  return [{ code, message }];
}
