/** The evidence of a tube on a clean bench, as `identifyTube` gathers it, for tests of single steps. */
import { calibrate } from '../../src/calibrate/calibrate.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { benchView } from '../../src/identify/bench/bench-hypothesis.ts';
import { tubeReadings } from '../../src/identify/bench/tube-readings.ts';
import { type Evidence, gatherEvidence } from '../../src/identify/evidence/candidate-evidence.ts';
import { allowanceOfEach, WorkAllowance } from '../../src/identify/evidence/work-allowance.ts';
import { benchOf, type PlainRecord } from '../calibrate/glass-bench.ts';

/** Through the likeliest curve alone, with the finest resolution alone. */
export function evidenceOf(record: PlainRecord): { evidence: Evidence; curve: CalibrationCurve } {
  const bench = benchOf(record);
  const tube = bench.tubes[0]!;
  const { calibration, state } = calibrate(bench);
  const curve = calibration.curve!;
  const { readings, offsetVariance } = tubeReadings(bench, tube, state);
  const sorted = [...readings].sort((a, b) => a.ordinate - b.ordinate);
  const plain = { explanation: 'plain', logWeight: 0, shift: 0, central: null, shiftVariance: 0 } as const;
  const view = benchView(curve, sorted, { ...plain, offsetVariance });
  const allowance = new WorkAllowance(allowanceOfEach(1));
  const finest = [{ size: 0, logWeight: 0 }];
  return { evidence: gatherEvidence(sorted, [view], finest, [], false, allowance), curve };
}
