/** A bench calibrated, and told in words: for tests that ask nothing of its tubes. */
import { tellCalibration } from '../src/analysis/tell-calibration.ts';
import type { ToldCalibration } from '../src/analysis/types.ts';
import { type BenchState, calibrate } from '../src/calibrate/calibrate.ts';
import type { Bench } from '../src/record/bench.ts';

export function calibrateAndTell(bench: Bench): { calibration: ToldCalibration; state: BenchState } {
  const { calibration, state } = calibrate(bench);
  return { calibration: tellCalibration(bench, calibration), state };
}
