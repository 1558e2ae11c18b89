/** One simulated bench through the program's calibration, held against the truth. */
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { ToldCalibration } from '../../src/analysis/types.ts';
import type { WavelengthEstimate } from '../../src/calibrate/types.ts';
import type { Bench, Setting } from '../../src/record/bench.ts';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';
import type { BenchTruth, SimulatedBench } from './bench-plan.ts';
import { leastCurveVariance } from './bound.ts';
import { circleShows, scaleAt } from './instrument.ts';
import { type ErrorDensity, readingErrorDensity } from './reading-error.ts';

/** Sums over the wavelengths of one bench. */
export interface WavelengthScore {
  readonly trials: number;
  readonly within1u: number;
  readonly within2u: number;
  /** Squared errors, and the least that can be expected of them, nm². Null where no bound is computed. */
  readonly squaredError: number;
  readonly squaredBound: number | null;
  /** Wavelengths that the program did not give. */
  readonly refused: number;
}

export interface CleanResult {
  /** The curve itself, every 10 nm between the outermost known lines. */
  readonly curve: WavelengthScore;
  /** Readings of the unknown tube between the outermost known lines, and beyond them. */
  readonly readings: WavelengthScore;
  readonly beyond: WavelengthScore;
  readonly lines: number;
  readonly accused: number;
  readonly doubts: number;
}

export interface FaultResult {
  /** False where the fault does no harm (differs by less than 4u) or could not be planted. */
  readonly counts: boolean;
  readonly noticed: boolean;
  readonly corrected: boolean;
  readonly setAside: boolean;
  /** Sound lines on the same bench, and how many of them were accused. */
  readonly bystanders: number;
  readonly accused: number;
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** Mean direction of the recorded central image in each window, degrees. */
function centralWindowsDeg(central: readonly Setting[]): number[] {
  const takes = central.map((setting) => (setting.kind === 'one-side' ? setting.windows : setting.left));
  return takes[0]!.map((first, window) => {
    const offsets = takes.map((take) => ((take[window]! - first + 540) % 360) - 180);
    return first + meanOf(offsets);
  });
}

/** What the program's curve should say at a wavelength: the mean reading, from the central image as recorded. */
function trueOrdinate(bench: Bench, { instrument, deviationAt }: BenchTruth, wavelengthNm: number): number {
  const deviation = deviationAt(wavelengthNm);
  if (bench.method === 'scale') return scaleAt(instrument, deviation);
  const windows = ([0, 1] as const).slice(0, bench.windows);
  const shownDeg = (direction: number, window: 0 | 1): number =>
    circleShows(instrument, instrument.centralDeg + (direction * deviation) / 60, window);
  if (bench.method === 'both-sides') {
    return meanOf(windows.map((window) => (Math.abs(shownDeg(1, window) - shownDeg(-1, window)) * 60) / 2));
  }
  const central = centralWindowsDeg(bench.central);
  return meanOf(
    windows.map((window) => {
      const arc = (((shownDeg(instrument.side, window) - central[window]!) % 360) + 540) % 360;
      return Math.abs(arc - 180) * 60;
    }),
  );
}

const slopeAt = (truth: BenchTruth, nm: number): number =>
  truth.deviationAt(nm + 0.5) - truth.deviationAt(nm - 0.5);

function scoreWavelengths(
  estimates: readonly { trueNm: number; estimate: WavelengthEstimate | null }[],
  bounds: readonly number[] | null,
): WavelengthScore {
  let [within1u, within2u, squaredError, squaredBound, refused] = [0, 0, 0, 0, 0];
  estimates.forEach(({ trueNm, estimate }, k) => {
    if (estimate === null) {
      refused++;
      return;
    }
    const error = Math.abs(estimate.wavelengthNm - trueNm);
    if (error <= estimate.standardUncertaintyNm) within1u++;
    if (error <= 2 * estimate.standardUncertaintyNm) within2u++;
    squaredError += error ** 2;
    squaredBound += bounds?.[k] ?? 0;
  });
  return {
    trials: estimates.length,
    within1u,
    within2u,
    squaredError,
    squaredBound: bounds === null ? null : squaredBound,
    refused,
  };
}

/** The error of one reading where the bound is known: one window, one side. */
function errorDensity(bench: Bench, truth: BenchTruth): ErrorDensity | null {
  return bench.method === 'central' && bench.windows === 1 ? readingErrorDensity(truth.instrument) : null;
}

/** Least variance of the curve at wavelengths, arcmin²; with what is known of prisms where the lines are few. */
function curveVariance(truth: BenchTruth, density: ErrorDensity, atNm: readonly number[]): number[] {
  const knownNm = truth.known.map((line) => line.wavelengthNm);
  return leastCurveVariance(knownNm, density.information, atNm, knownNm.length < 5);
}

/** Variance that a central image read anew brings into every reading of the tube, arcmin². */
function rereadVariance(bench: Bench, { instrument }: BenchTruth): number {
  const again = bench.tubes[0]?.central ?? null;
  if (again === null) return 0;
  const { leastCountArcmin: count, settingScatterArcmin: scatter, tickChance } = instrument;
  const single = count ** 2 * (1 / 12 + tickChance) + scatter ** 2;
  return single / again.length + single / bench.central.length;
}

/** A bench without faults: are the wavelengths as good as they can be, and as uncertain as they are said to be? */
export function scoreCleanBench({ bench, truth }: SimulatedBench): CleanResult {
  const { calibration, tubes } = analyseBench(bench);
  const { curve } = calibration;
  const density = errorDensity(bench, truth);
  const knownNm = truth.known.map((line) => line.wavelengthNm);
  const [lowest, highest] = [Math.min(...knownNm), Math.max(...knownNm)];
  const grid = Array.from({ length: Math.floor((highest - lowest) / 10) + 1 }, (_, k) => lowest + 10 * k);
  const onGrid = grid.map((trueNm) => ({
    trueNm,
    estimate: curve?.wavelengthAt(trueOrdinate(bench, truth, trueNm), 0) ?? null,
  }));
  const nmPerArcmin2 = (nm: number): number => 1 / slopeAt(truth, nm) ** 2;
  const gridBounds = density && curveVariance(truth, density, grid).map((v, k) => v * nmPerArcmin2(grid[k]!));

  const isInside = (nm: number): boolean => nm >= lowest && nm <= highest;
  const readings = truth.unknown.map(({ wavelengthNm: trueNm }, k) => {
    const line = tubes[0]!.lines[k]!;
    const isGiven = line.wavelengthNm !== null && line.standardUncertaintyNm !== null;
    const estimate = isGiven
      ? {
          wavelengthNm: line.wavelengthNm,
          standardUncertaintyNm: line.standardUncertaintyNm,
          extrapolated: line.extrapolated,
        }
      : null;
    return { trueNm, estimate };
  });
  const inside = readings.filter(({ trueNm }) => isInside(trueNm));
  const insideNm = inside.map(({ trueNm }) => trueNm);
  const ownVariance = (density?.varianceArcmin2 ?? 0) + rereadVariance(bench, truth);
  const insideBounds =
    density &&
    curveVariance(truth, density, insideNm).map((v, k) => (v + ownVariance) * nmPerArcmin2(insideNm[k]!));
  return {
    curve: scoreWavelengths(onGrid, gridBounds),
    readings: scoreWavelengths(inside, insideBounds),
    beyond: scoreWavelengths(
      readings.filter(({ trueNm }) => !isInside(trueNm)),
      null,
    ),
    lines: calibration.lines.length,
    accused: calibration.lines.filter((line) => line.status !== 'used').length,
    doubts: calibration.doubts.length,
  };
}

/** Lines whose stated wavelength is wrong by more than 4u of a reading on this bench. */
function harmfulNames({ bench, truth }: SimulatedBench): number[] {
  const density = readingErrorDensity(truth.instrument);
  const sides = bench.method === 'both-sides' ? 2 : 1;
  return truth.known.flatMap(({ wavelengthNm, statedNm }, index) => {
    const [curve] = curveVariance(truth, density, [wavelengthNm]);
    const u = Math.sqrt((density.varianceArcmin2 + curve!) / sides);
    return Math.abs(truth.deviationAt(wavelengthNm) - truth.deviationAt(statedNm)) > 4 * u ? [index] : [];
  });
}

/** Within the closest pairs that school tables hold (577 and 579 as 578.0). */
const sameLineNm = 1.3;

/** The line's place on the curve is the true one: to 4u of a reading. */
function isCurveRightAt(
  { bench, truth }: SimulatedBench,
  calibration: ToldCalibration,
  index: number,
): boolean {
  const { wavelengthNm } = truth.known[index]!;
  const slope = slopeAt(truth, wavelengthNm);
  const u = Math.sqrt(readingErrorDensity(truth.instrument, wavelengthNm).varianceArcmin2) / Math.abs(slope);
  const estimate = calibration.curve?.wavelengthAt(trueOrdinate(bench, truth, wavelengthNm), 0);
  return estimate != null && Math.abs(estimate.wavelengthNm - wavelengthNm) < 4 * u;
}

/** A bench with one planted fault: was it noticed, and was it put right? */
export function scoreFaultyBench(simulated: SimulatedBench): FaultResult {
  const { bench, truth } = simulated;
  const { calibration } = calibrate(bench);
  const { lines, doubts } = calibration;
  const isWrongLamp = truth.fault != null && 'naming' in truth.fault && truth.fault.naming === 'wrong-lamp';
  const isSlip = truth.fault != null && 'slip' in truth.fault;
  const faulty = isSlip
    ? truth.known.flatMap(({ slips }, index) => (slips.length > 0 ? [index] : []))
    : harmfulNames(simulated);
  const touched = new Set(
    truth.known.flatMap((k, index) => (k.slips.length > 0 || k.statedNm !== k.wavelengthNm ? [index] : [])),
  );
  const bystanders = lines.filter((line) => !touched.has(line.index));
  const isNamedRight = (index: number): boolean => {
    const given = lines[index]!.wavelengthNm;
    return given !== null && Math.abs(given - truth.known[index]!.wavelengthNm) < sameLineNm;
  };
  const isPutRight = (index: number): boolean =>
    isSlip
      ? lines[index]!.status === 'slip' && isCurveRightAt(simulated, calibration, index)
      : isNamedRight(index);
  const speaksOfLamp = doubts.some((doubt) => doubt.kind === 'wrong-lamp');
  return {
    counts: faulty.length > 0,
    noticed: isWrongLamp
      ? speaksOfLamp
      : faulty.some((index) => lines[index]!.status !== 'used' || doubts.some((d) => d.index === index)),
    corrected: faulty.every(isPutRight),
    setAside: faulty.every((index) => lines[index]!.status === 'set-aside'),
    bystanders: bystanders.length,
    accused: bystanders.filter((line) => line.status !== 'used').length,
  };
}
