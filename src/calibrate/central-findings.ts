/** Has the central image been misread, or the bench been moved? */
import { wrapDegrees } from '../angle/wrap.ts';
import { mean, sumOf } from '../numeric/sum.ts';
import { NOTICED } from '../observe/assumptions.ts';
import { benchConstants, lineSettings } from '../observe/bench-constants.ts';
import { movedProbability, moveSize } from '../observe/bench-move.ts';
import { centralImage, centralVariance } from '../observe/central-image.ts';
import { type CentralKnowledge, centralApart } from '../observe/central-list.ts';
import { observe } from '../observe/observation.ts';
import type { Origin } from '../observe/origin.ts';
import { stepOf } from '../observe/reading-step.ts';
import { resolutionVariance } from '../observe/reading-variance.ts';
import type { Bench } from '../record/bench.ts';
import { LARGEST_DEVIATION_DEG } from './assumptions.ts';
import { spectrumLength } from './curve/spectrum-length.ts';
import type { CalibrationFinding } from './findings.ts';
import type { CalibrationCurve, CheckedLine } from './types.ts';

interface CentralState extends CentralKnowledge {
  readonly origin: Origin;
}

/** Everything that looks wrong with what all readings of the calibration count from. */
export function centralFindings(
  bench: Bench,
  checks: readonly CheckedLine[],
  curve: CalibrationCurve | null,
  state: CentralState,
): CalibrationFinding[] {
  // Those before and after a move of the bench are no repeats of each other.
  const before = bench.moved?.centralsBefore ?? bench.central.length;
  const lists = [bench.central.slice(0, before), bench.central.slice(before)];
  const apart = lists.flatMap((list) => centralApart(bench, list, state) ?? []);
  return [
    ...opposite(bench, state),
    ...apart.map((found) => ({ what: 'central-apart' as const, found })),
    ...offMiddle(bench, state),
    ...checksMoved(bench, checks, curve),
  ];
}

/** Do the lines lie so far from the central image that it must have been read in the opposite window? */
export function centralIsOpposite(deviationsArcmin: readonly number[]): boolean {
  const far = deviationsArcmin.filter((deviation) => deviation > 60 * LARGEST_DEVIATION_DEG).length;
  return deviationsArcmin.length >= 2 && far > deviationsArcmin.length / 2;
}

function opposite(bench: Bench, { origin }: CentralState): CalibrationFinding[] {
  if (origin.central === null) return [];
  const deviations = bench.known
    .flatMap((lamp) => lamp.lines)
    .flatMap((line) => observe(bench, line.settings, origin.central)?.ordinate ?? []);
  return centralIsOpposite(deviations) ? [{ what: 'opposite-window' }] : [];
}

/** With both sides the central image is not needed, but it must lie midway between them. */
function offMiddle(bench: Bench, { settingVariance }: CentralState): CalibrationFinding[] {
  const image = bench.method === 'both-sides' ? centralImage(bench, bench.central) : null;
  const readDeg = image?.windowsDeg[0];
  if (image === null || readDeg === undefined) return [];
  // A bench that was turned between two lamps, or lamp and tube, has another middle since, and that is no fault.
  const middles = [bench, ...listsAlone(bench)].flatMap((list) => benchConstants(list).midpointDeg ?? []);
  const offOf = (middle: number): number => Math.abs(wrapDegrees(readDeg - middle));
  const [middleDeg] = middles.sort((a, b) => offOf(a) - offOf(b));
  if (middleDeg === undefined) return [];
  const off = 60 * wrapDegrees(readDeg - middleDeg);
  // The middle of many lines adds little: half of one reading's variance at the most.
  const step = stepOf(bench, lineSettings(bench));
  // Lines that are rounded more than the image is add more than that.
  const asLines =
    step > image.step ? { ...image, resolutionVariance: resolutionVariance(step) / bench.windows } : image;
  const variance = centralVariance(image, settingVariance) + 0.5 * centralVariance(asLines, settingVariance);
  if (Math.abs(off) < NOTICED * Math.sqrt(variance) + Math.max(step, image.step)) return [];
  const probability = movedProbability(off, variance, moveSize(bench, 0));
  return [{ what: 'central-off-middle', probability, readDeg, middleDeg }];
}

/** The bench with one lamp alone, or one tube. */
function listsAlone(bench: Bench): Bench[] {
  const alone = { ...bench, central: [], known: [], tubes: [] };
  return [
    ...bench.known.map((lamp) => ({ ...alone, known: [lamp] })),
    ...bench.tubes.map((tube) => ({ ...alone, tubes: [{ ...tube, central: null }] })),
  ];
}

/** Known lines read again at the end: a common shift means that the bench has moved. */
function checksMoved(
  bench: Bench,
  checks: readonly CheckedLine[],
  curve: CalibrationCurve | null,
): CalibrationFinding[] {
  const shifts = checks.flatMap(({ wavelengthNm, residual, standardUncertainty }) =>
    residual === null || standardUncertainty === null
      ? []
      : [{ wavelengthNm, residual, standardUncertainty }],
  );
  if (curve === null || shifts.length === 0) return [];
  const shift = mean(shifts.map(({ residual }) => residual));
  // The curve's error is nearly the same for all of them and does not average out.
  const curveVariance = (nm: number): number => curve.covariance(nm, nm);
  const own = sumOf(
    shifts,
    ({ wavelengthNm, standardUncertainty }) => standardUncertainty ** 2 - curveVariance(wavelengthNm),
  );
  const variance = own / shifts.length ** 2 + curveVariance(shifts[0]!.wavelengthNm);
  if (Math.abs(shift) < NOTICED * Math.sqrt(variance)) return [];
  const probability = movedProbability(shift, variance, moveSize(bench, spectrumLength(curve)));
  return [{ what: 'check-moved', probability, checks: shifts.length, shift }];
}
