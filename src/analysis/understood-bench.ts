/** A bench as its known lines have it, and where these leave open when its central image was read, as its tubes do. */
import { calibrate } from '../calibrate/calibrate.ts';
import { allowanceOfEach, WorkAllowance } from '../identify/evidence/work-allowance.ts';
import { identifyTube } from '../identify/identify.ts';
import { sumOf } from '../numeric/sum.ts';
import type { Bench } from '../record/bench.ts';

type Understood = ReturnType<typeof calibrate>;

/**
 * The lines of two lamps alone never tell whether the central image was read before the bench was moved between them, or
 * after; the readings of a tube that has its own do.
 */
export function understoodBench(written: Bench): Understood {
  const first = calibrate(written);
  const otherwise = first.bench.moved?.otherwise;
  if (otherwise === undefined) return first;
  const other = calibrate(written, otherwise.centralsBefore);
  return evidenceOf(other) + otherwise.logOdds > evidenceOf(first) ? other : first;
}

/** ln evidence of the tubes with a central image of their own, each as what fits it best. */
function evidenceOf({ bench, calibration, state }: Understood): number {
  const tubes = bench.tubes.filter(({ central }) => central !== null);
  return sumOf(tubes, (tube) => {
    const allowance = new WorkAllowance(allowanceOfEach(tubes.length, tube.lines.length));
    const { candidates } = identifyTube(bench, tube, calibration, state, 'same', allowance);
    return candidates.length === 0 ? 0 : Math.max(...candidates.map(({ logEvidence }) => logEvidence));
  });
}
