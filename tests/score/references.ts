/** Rankings to hold the program against, on the same simulated benches. */
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';
import { type AlignmentModel, alignmentEvidence } from './alignment.ts';
import type { SimulatedBench } from './bench-plan.ts';
import { circleShows, type Instrument } from './instrument.ts';
import { type PlainCurve, plainCurve } from './plain-curve.ts';
import { readingErrorDensity } from './reading-error.ts';
import { type DoubtfulReading, slipAlignmentEvidence } from './slip-alignment.ts';
import { beforeSlip } from './slips.ts';

/** Deviation of a central-method reading from a central direction, arc-minutes; the smaller arc. */
function deviationFrom(centralDeg: number, readingDeg: number): number {
  const arc = (((readingDeg - centralDeg) % 360) + 540) % 360;
  return Math.abs(arc - 180) * 60;
}

function firstWindow(setting: SimulatedBench['bench']['central'][number]): number {
  if (setting.kind !== 'one-side') throw new RangeError('the references read one side only');
  return setting.windows[0]!;
}

/** Mean of a line's repeats, as a deviation from the mean of the central image's. */
function deviations(
  lines: readonly { settings: SimulatedBench['bench']['central'] }[],
  central: SimulatedBench['bench']['central'],
): number[] {
  const first = firstWindow(central[0]!);
  const centralDeg =
    first +
    central.reduce((sum, s) => sum + ((firstWindow(s) - first + 540) % 360) - 180, 0) / central.length;
  return lines.map(
    ({ settings }) =>
      settings.reduce((sum, s) => sum + deviationFrom(centralDeg, firstWindow(s)), 0) / settings.length,
  );
}

function knownCurve({ bench }: SimulatedBench): PlainCurve | null {
  const lines = bench.known[0]!.lines;
  const ordinates = deviations(lines, bench.central);
  return plainCurve(
    lines.map((line, k) => ({ wavelengthNm: line.statedWavelengthNm!, deviationArcmin: ordinates[k]! })),
  );
}

function unknownDeviations({ bench }: SimulatedBench): number[] {
  const tube = bench.tubes[0]!;
  return deviations(tube.lines, tube.central ?? bench.central);
}

function best(tubes: readonly TubeSpectrum[], scoreOf: (tube: TubeSpectrum) => number): string {
  const scores = tubes.map(scoreOf);
  return tubes[scores.indexOf(Math.max(...scores))]!.substance;
}

/** Nearest tabulated line: the tube whose lines lie nearest to the wavelengths on average. */
export function nearestLine(simulated: SimulatedBench, tubes: readonly TubeSpectrum[]): string | null {
  const curve = knownCurve(simulated);
  if (curve === null) return null;
  const wavelengths = unknownDeviations(simulated).map((deviation) => curve.wavelengthAt(deviation));
  return best(tubes, (tube) => {
    const listed = tube.lines.filter((line) => line.prominence > -3).map((line) => line.wavelengthNm);
    const distances = wavelengths.map((nm) => Math.min(...listed.map((line) => Math.abs(line - nm))));
    return -distances.reduce((sum, distance) => sum + distance, 0);
  });
}

const strayRate = 0.1;

/** Alignment with a least-squares curve and a normal error, no slips, no doubts. */
export function plainAlignment(simulated: SimulatedBench, tubes: readonly TubeSpectrum[]): string | null {
  const curve = knownCurve(simulated);
  if (curve === null) return null;
  const countArcmin = simulated.bench.leastCount;
  const sd = Math.max(curve.residualSdArcmin, Math.hypot(countArcmin / Math.sqrt(12), 0.8));
  const model: AlignmentModel = {
    deviationAt: curve.deviationAt,
    errorDensity: (error) => Math.exp(-0.5 * (error / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI)),
    prominenceScatter: 0.7,
    strayRate,
  };
  const readings = unknownDeviations(simulated);
  return best(tubes, (tube) => alignmentEvidence(tube, readings, model));
}

/** What the circle would show without its slips, as a deviation from where the central image really is. */
function trueDeviations({ bench, truth }: SimulatedBench): number[] {
  const instrument: Instrument = truth.instrument;
  return bench.tubes[0]!.lines.map((line, k) => {
    const slipped = truth.unknown[k]!.slips.reduce((sum, slip) => sum + slip.shiftArcmin, 0) / 60;
    const readingDeg = firstWindow(line.settings[0]!) - slipped;
    const eccentricityDeg = circleShows(instrument, readingDeg, 0) - readingDeg;
    return deviationFrom(instrument.centralDeg, readingDeg - eccentricityDeg);
  });
}

/** Knows the true curve, the true error and every slip: the ceiling. */
export function oracle(simulated: SimulatedBench, tubes: readonly TubeSpectrum[]): string {
  const model = trueModel(simulated);
  const readings = trueDeviations(simulated);
  return best(tubes, (tube) => alignmentEvidence(tube, readings, model));
}

function trueModel({ truth }: SimulatedBench): AlignmentModel {
  const densities = [450, 600].map((nm) => readingErrorDensity(truth.instrument, nm));
  return {
    deviationAt: truth.deviationAt,
    errorDensity: (error, nm) => densities[nm < 525 ? 0 : 1]!.at(error),
    prominenceScatter: truth.looking.prominenceScatter,
    strayRate: truth.looking.strayRate,
  };
}

/** Knows the true curve, the true error, where the central image is and how often slips are made, but not which readings are slips. */
export function slipOracle(simulated: SimulatedBench, tubes: readonly TubeSpectrum[]): string {
  const { instrument } = simulated.truth;
  const model = trueModel(simulated);
  const deviationOf = (readingDeg: number): number =>
    deviationFrom(instrument.centralDeg, readingDeg - (circleShows(instrument, readingDeg, 0) - readingDeg));
  const readings = simulated.bench.tubes[0]!.lines.map(({ settings }): DoubtfulReading => {
    const shownDeg = firstWindow(settings[0]!);
    const { leastCountArcmin, divisionArcmin, slipChance } = instrument;
    const otherSideDeg = 2 * instrument.centralDeg - shownDeg;
    const before = beforeSlip({ shownDeg, leastCountArcmin, divisionArcmin, otherSideDeg });
    return {
      places: [
        { deviationArcmin: deviationOf(shownDeg), chance: 1 - slipChance },
        ...before.readings.map(({ readingDeg, chance }) => ({
          deviationArcmin: deviationOf(readingDeg),
          chance: slipChance * chance,
        })),
      ],
      anywhere: (slipChance * before.otherMinutes) / 60,
    };
  });
  return best(tubes, (tube) => slipAlignmentEvidence(tube, readings, model));
}
