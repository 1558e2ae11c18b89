/** What may be wrong with what all readings of a tube share: its central image, a bench that was moved. */
import type { BenchState } from '../../calibrate/calibrate.ts';
import { spectrumLength } from '../../calibrate/curve/spectrum-length.ts';
import type { CalibrationCurve } from '../../calibrate/types.ts';
import { sumOf } from '../../numeric/sum.ts';
import { NOTICED } from '../../observe/assumptions.ts';
import { movedProbability, moveSize } from '../../observe/bench-move.ts';
import { isWritten } from '../../observe/central-hypotheses.ts';
import { centralApart } from '../../observe/central-list.ts';
import { originShift, tubeOrigin } from '../../observe/origin.ts';
import type { Bench, UnknownTube } from '../../record/bench.ts';
import type { BenchView } from '../bench/bench-hypothesis.ts';
import type { CommonShift } from '../bench/common-shift.ts';
import type { Row } from '../rank/rank.ts';
import { shiftedPart } from './shifted-part.ts';
import type { TubeFinding } from './tube-finding.ts';

/** Central readings of the tube's own that lie further apart than repeats do; `shared`: what is told of them besides. */
export function ownCentralFindings(
  bench: Bench,
  tube: UnknownTube,
  state: BenchState,
  shared: readonly TubeFinding[] = [],
): TubeFinding[] {
  const own = tube.central ?? [];
  // With a calibration of another day all tubes share the record's own list.
  const isShared = own === bench.central && tube.index > 0;
  const found = isShared ? null : centralApart(bench, own, state);
  const isTold = found?.leftOut.length === 0 && shared.some(blamesOwnCentral);
  return found === null || isTold ? [] : [{ what: 'central-apart', found }];
}

const blamesOwnCentral = (finding: TubeFinding): boolean =>
  finding.what === 'central-misread' &&
  finding.alternatives.some(({ misread }) => misread.some(({ readBy }) => readBy === 'tube'));

/** The central image read anew differs by more than its uncertainty, or all readings are shifted alike: by `common`. */
export function sharedFindings(
  bench: Bench,
  tube: UnknownTube,
  state: BenchState,
  curve: CalibrationCurve,
  rows: readonly Row[],
  common: CommonShift | null,
  day: 'same' | 'another',
): TubeFinding[] {
  const lead = rows[0]!;
  const view = viewOf(lead);
  const origin = tubeOrigin(bench, tube, state.origin);
  if (common !== null && view?.explanation !== 'central-misread') {
    const isMoved =
      view?.explanation === 'moved'
        ? lead.reading!.found.movedShare
        : movedProbability(common.value, common.u ** 2, moveSize(bench, spectrumLength(curve)));
    // From one day to the next the circle is turned, and windows and sides compare no more.
    const only = day === 'same' ? shiftedPart(bench, tube, common.value) : null;
    const further = bench.method === 'scale' ? common.value : origin.side * common.value;
    const probability = lead.probability * isMoved;
    return [{ what: 'moved', probability, shift: common, only, isBack: isBack(bench, further, common.u) }];
  }
  const shift = originShift(state.origin, origin, state.settingVariance);
  if (shift === null) return [];
  const central = view?.central ?? null;
  const misread = central !== null && !isWritten(central);
  const apartArcmin = misread ? central.apartArcmin : shift.shiftArcmin;
  // From one day to the next the table is turned; that is no fault.
  const differs = day === 'same' && Math.abs(apartArcmin) > NOTICED * shift.u + shift.stepArcmin;
  const findings: TubeFinding[] = [];
  if (misread)
    findings.push({
      what: 'central-misread',
      probability: misreadChance(rows),
      alternatives: central.alternatives,
    });
  if (differs)
    findings.push({
      what: 'central-differs',
      probability: movedProbability(apartArcmin, shift.u ** 2, moveSize(bench, 0)),
      apartArcmin,
      u: shift.u,
      misread,
      isBack: isBack(bench, apartArcmin, shift.u),
    });
  return findings;
}

/** Do readings that lie so much further on, with this u, stand as the bench stood before it was moved between two lamps? */
function isBack({ moved, known }: Bench, further: number, u: number): boolean {
  // A move of another day is between lamps that this bench has not, and one put back for a lamp is so for the tube.
  if (moved === undefined || moved.until !== undefined || moved.lampIndex >= known.length) return false;
  return Math.abs(further + moved.shift) < NOTICED * Math.hypot(u, moved.u);
}

const viewOf = (row: Row): BenchView | null => row.reading?.assumption.likelihoods.view ?? null;

/** Over all rows, each understood as it fits best. */
function misreadChance(rows: readonly Row[]): number {
  const understood = rows.filter((row) => viewOf(row) !== null);
  const total = sumOf(understood, ({ probability }) => probability);
  const misread = understood.filter((row) => viewOf(row)!.explanation === 'central-misread');
  return Math.min(1, sumOf(misread, ({ probability }) => probability) / total);
}
