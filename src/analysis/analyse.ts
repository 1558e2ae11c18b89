/** The whole way in one call: readings -> deviations -> calibration -> wavelengths -> ranking. */
import { calibrate } from '../calibrate/calibrate.ts';
import { identifyTube } from '../identify/identify.ts';
import type { Bench } from '../record/bench.ts';
import type { Analysis } from './types.ts';

/** Analyses a bench; its known lamp, its tubes, or both may still be without lines. */
export function analyseBench(bench: Bench): Analysis {
  const { calibration, state } = calibrate(bench);
  const tubes = bench.tubes.map((tube) => identifyTube(bench, tube, calibration, state));
  return {
    bench,
    calibration,
    tubes,
    warnings: [...calibration.warnings, ...tubes.flatMap((tube) => tube.warnings)],
  };
}
