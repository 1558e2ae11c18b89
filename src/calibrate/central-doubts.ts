/** Has the central image been misread, or the bench been moved? */
import { formatAngle } from '../angle/format-angle.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import { normalCdf } from '../numeric/normal.ts';
import { benchConstants } from '../observe/bench-constants.ts';
import { agreeingCentrals, centralImage, leftOutOf } from '../observe/central-image.ts';
import { type CentralKnowledge, type MisreadCentral, misreadOfOneList } from '../observe/central-list.ts';
import { observe } from '../observe/observation.ts';
import type { Origin } from '../observe/origin.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { amountText } from '../words/amount-text.ts';
import type { CalibrationCurve, CheckedLine, Doubt } from './types.ts';

interface CentralState extends CentralKnowledge {
  readonly origin: Origin;
}

/** Differences beyond this many standard uncertainties are announced. */
const NOTICED = 4;

export function centralDoubts(
  bench: Bench,
  checks: readonly CheckedLine[],
  curve: CalibrationCurve | null,
  state: CentralState,
): Doubt[] {
  return [
    ...oppositeDoubts(bench, state),
    ...repeatDoubts(bench, state),
    ...middleDoubts(bench, state),
    ...checkDoubts(bench, checks, curve),
  ];
}

/** No prism on a bench deviates the visible spectrum by more than this, degrees. */
const LARGEST_DEVIATION_DEG = 100;

/** Do the lines lie so far from the central image that it must have been read in the opposite window? */
export function centralIsOpposite(deviationsArcmin: readonly number[]): boolean {
  const far = deviationsArcmin.filter((deviation) => deviation > 60 * LARGEST_DEVIATION_DEG).length;
  return deviationsArcmin.length >= 2 && far > deviationsArcmin.length / 2;
}

function oppositeDoubts(bench: Bench, state: CentralState): Doubt[] {
  if (bench.method !== 'central' || !state.origin.central) return [];
  const deviations = bench.known
    .flatMap((lamp) => lamp.lines)
    .flatMap((line) => observe(bench, line.settings, state.origin.central)?.ordinate ?? []);
  if (!centralIsOpposite(deviations)) return [];
  const message =
    'Most known lines lie more than 100° from the central image: was it read in the opposite window (180° off), or in the mirror of the prism? Read the central image again in the window of the lines.';
  return [{ step: 'central', index: null, kind: 'opposite-window', probability: 0.99, message }];
}

/** By how much repeats of the central image differ, arc-minutes, and the u of one difference; null for less than two. */
function repeatSpread(
  settings: readonly Setting[],
  leastCount: number,
  settingVariance: number,
): { spread: number; u: number } | null {
  const directions = settings.flatMap((setting) => (setting.kind === 'one-side' ? [setting.windows] : []));
  const [first, ...others] = directions;
  if (first === undefined || others.length === 0) return null;
  const u = Math.sqrt(2 * (leastCount ** 2 / 12 + settingVariance));
  const spreads = first.map((origin, window) => {
    const offsets = others.map((windows) => 60 * wrapDegrees((windows[window] ?? origin) - origin));
    return Math.max(0, ...offsets) - Math.min(0, ...offsets);
  });
  return { spread: Math.max(...spreads), u };
}

/** Repeats of the calibration's central image that cannot be the same setting. */
function repeatDoubts(bench: Bench, state: CentralState): Doubt[] {
  const found = repeatSpread(bench.central, bench.leastCount, state.settingVariance);
  const isApart = found !== null && found.spread >= NOTICED * found.u + bench.leastCount;
  if (!isApart && leftOutOf(bench, bench.central) === 0) return [];
  return listDoubts(bench, bench.central, state, 'The readings of the central image');
}

/** Central readings of one list that lie apart; `named`: what the sentence calls them. */
export function listDoubts(
  bench: Bench,
  settings: readonly Setting[],
  knowledge: CentralKnowledge,
  named: string,
): Doubt[] {
  const found = repeatSpread(settings, bench.leastCount, knowledge.settingVariance);
  if (found === null) return [];
  const text = (direction: number): string => formatAngle(direction, bench.leastCount);
  const texts = (list: readonly Setting[], between: string): string =>
    list
      .flatMap((setting) => (setting.kind === 'one-side' ? [setting.windows.map(text).join(' / ')] : []))
      .join(between);
  const misread = misreadOfOneList(bench, settings, knowledge);
  const agreeing = agreeingCentrals(bench, settings);
  const apart = settings.filter((setting) => !agreeing.includes(setting));
  const which =
    misread === null
      ? `${apart.length > 1 ? 'some of them are' : 'one of them is'} misread.`
      : misreadText(misread, text);
  const leftOut =
    apart.length === 0
      ? ''
      : ` ${texts(apart, ' and ')} ${apart.length === 1 ? 'is' : 'are'} left out of their mean.`;
  const message = `${named} (${texts(settings, ', ')}) lie ${found.spread.toFixed(1)}' apart, more than repeats do: ${which}${leftOut} Read the central image again.`;
  return [
    { step: 'central', index: null, kind: 'slip', probability: certainty(found.spread / found.u), message },
  ];
}

function misreadText({ readingDeg, mended }: MisreadCentral, text: (direction: number) => string): string {
  if (mended === null) return `${text(readingDeg)} is probably misread.`;
  return `${text(readingDeg)} reads like ${text(mended.readingDeg)}: ${mended.words}?`;
}

/** With both sides the central image is not needed, but it must lie midway between them. */
function middleDoubts(bench: Bench, { settingVariance }: CentralState): Doubt[] {
  const read = centralImage(bench, bench.central)?.windowsDeg[0];
  const middle = benchConstants(bench).midpointDeg;
  if (bench.method !== 'both-sides' || read === undefined || middle === null) return [];
  const off = 60 * wrapDegrees(read - middle);
  const u = Math.sqrt(1.5 * (bench.leastCount ** 2 / 12 + settingVariance));
  if (Math.abs(off) < NOTICED * u + bench.leastCount) return [];
  const [readText, middleText] = [read, middle].map((direction) => formatAngle(direction, bench.leastCount));
  const message = `The central image was read at ${readText}, but the lines on both sides have their middle at ${middleText}: one of these readings is wrong. The wavelengths rest on the two sides alone; read the central image again.`;
  return [
    { step: 'central', index: null, kind: 'central-misread', probability: certainty(off / u), message },
  ];
}

/** Known lines read again at the end: a common shift means that the bench has moved. */
function checkDoubts(bench: Bench, checks: readonly CheckedLine[], curve: CalibrationCurve | null): Doubt[] {
  const shifts = checks.flatMap(({ wavelengthNm, residual, standardUncertainty }) =>
    residual === null || standardUncertainty === null
      ? []
      : [{ wavelengthNm, residual, standardUncertainty }],
  );
  if (curve === null || shifts.length === 0) return [];
  const mean = shifts.reduce((sum, { residual }) => sum + residual, 0) / shifts.length;
  // The curve's error is nearly the same for all of them and does not average out.
  const curveVariance = (nm: number): number => curve.covariance(nm, nm);
  const own = shifts.reduce(
    (sum, { wavelengthNm, standardUncertainty }) =>
      sum + standardUncertainty ** 2 - curveVariance(wavelengthNm),
    0,
  );
  const u = Math.sqrt(own / shifts.length ** 2 + curveVariance(shifts[0]!.wavelengthNm));
  if (Math.abs(mean) < NOTICED * u) return [];
  const message = `The check line${shifts.length > 1 ? 's have' : ' has'} moved by ${amountText(mean, curve.unit)} since the calibration: ${WHAT_MOVED[bench.method]}`;
  // Only the method that has a central image can be mended by reading it again.
  const found = bench.method === 'central' ? CENTRAL_MOVED : BENCH_MOVED;
  return [{ ...found, index: null, probability: certainty(mean / u), message }];
}

const CENTRAL_MOVED = { step: 'central', kind: 'moved-central' } as const;
const BENCH_MOVED = { step: 'known', kind: 'moved' } as const;

const WHAT_MOVED: Record<Bench['method'], string> = {
  central:
    "the table, the slit or the telescope's zero has shifted. Read the central image again for the tube.",
  // A turned table moves both sides alike, and half of the angle between them stays.
  'both-sides':
    'the prism is set otherwise, or one side is misread. Read the known lines again for the tube.',
  scale: 'the scale, the slit or the prism has shifted. Read the known lines again for the tube.',
};

/** Probability that a difference of z standard uncertainties is no chance, at even odds beforehand. */
export function certainty(z: number): number {
  const byChance = 2 * normalCdf(-Math.abs(z));
  return 1 / (1 + byChance);
}
