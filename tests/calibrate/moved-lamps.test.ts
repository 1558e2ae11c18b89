/** A bench that is moved between two of its known lamps, planted in exact readings of catalogue glass. */
import { describe, expect, test } from 'vitest';
import type { ToldCalibration } from '../../src/analysis/types.ts';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  hydrogenNm,
  knownLamp,
  mercuryNm,
  type PlainRecord,
  recordOf,
} from './glass-bench.ts';

const reader = new GlassReader();

const lamp = (name: string, wavelengthsNm: readonly number[], movedArcmin = 0, slips: number[] = []) =>
  knownLamp(reader, {
    lamp: name,
    lines: wavelengthsNm.map((nm, i) => ({ nm, slipArcmin: movedArcmin + (slips[i] ?? 0) })),
  });

const mercury = mercuryNm.slice(1);
const helium = [667.82, 587.56, 501.57, 447.15];

const calibrated = (known: unknown, parts: PlainRecord = {}): ToldCalibration =>
  calibrate(benchOf(recordOf(reader, { known, ...parts }))).calibration;
const kinds = ({ doubts }: ToldCalibration) => doubts.map(({ kind }) => kind);
const wrong = ({ lines }: ToldCalibration) => lines.filter(({ status }) => status !== 'used');
/** Largest distance of the curve from the deviations on the bench moved so, arc-minutes. */
const worstMiss = ({ curve }: ToldCalibration, movedArcmin: number): number =>
  Math.max(
    ...[450, 500, 550, 600, 650].map((nm) =>
      Math.abs(curve!.ordinateAt(nm) - reader.deviationArcmin(nm) - movedArcmin),
    ),
  );

describe('a bench moved between mercury and helium', () => {
  // 8' made nitrogen of the helium lamp, 30' four misread verniers, 12' a curve that was 5' off everywhere.
  test.each([-20, -8, 3, 5, 8, 12, 20, 30, 45])("by %i' is told so, and no line is blamed", (movedArcmin) => {
    const calibration = calibrated([lamp('mercury', mercury), lamp('helium', helium, movedArcmin)]);
    expect(kinds(calibration)).toEqual(['moved-lamp']);
    expect(wrong(calibration)).toEqual([]);
    const [doubt] = calibration.doubts;
    expect(doubt!.message).toContain('The lines of helium lie ');
    expect(doubt!.message).toContain(movedArcmin > 0 ? 'further from' : 'nearer to');
    const told = Number(/lie ([\d.]+)'/.exec(doubt!.message)![1]);
    expect(Math.abs(told - Math.abs(movedArcmin))).toBeLessThan(1);
    // The tubes come after the lamps: the curve is that of the bench as it was left.
    expect(worstMiss(calibration, movedArcmin)).toBeLessThan(1);
    expect(calibration.rms!).toBeLessThan(0.5);
  });

  test("the curve's uncertainty holds that of the move", () => {
    const still = calibrated([lamp('mercury', mercury), lamp('helium', helium)]);
    const moved = calibrated([lamp('mercury', mercury), lamp('helium', helium, 12)]);
    expect(moved.curve!.covariance(404.66, 404.66)).toBeGreaterThan(still.curve!.covariance(404.66, 404.66));
  });

  test('a misread vernier beside it is still found', () => {
    const calibration = calibrated([lamp('mercury', mercury, 0, [0, 0, 0, 30]), lamp('helium', helium, 12)]);
    expect(kinds(calibration)).toEqual(['moved-lamp', 'slip']);
    expect(wrong(calibration).map(({ index }) => index)).toEqual([3]);
  });

  test('with a third lamp in between, the lamps on either side are named', () => {
    const [doubt] = calibrated([
      lamp('mercury', mercury),
      lamp('hydrogen', hydrogenNm),
      lamp('helium', helium, 9),
    ]).doubts;
    expect(doubt!.message).toContain('those of mercury and hydrogen');
  });
});

describe('no move is seen', () => {
  test.each([0, 1])("where helium lies %i' off", (movedArcmin) => {
    expect(calibrated([lamp('mercury', mercury), lamp('helium', helium, movedArcmin)]).doubts).toEqual([]);
  });

  test('where one line of the second lamp is misread', () => {
    const calibration = calibrated([lamp('mercury', mercury), lamp('helium', helium, 0, [0, 30])]);
    expect(kinds(calibration)).toEqual(['slip']);
  });

  test('where the second lamp is another than it is called', () => {
    const misnamed = knownLamp(reader, {
      lamp: 'helium',
      lines: [643.85, 508.58, 479.99, 467.81].map((nm, i) => ({ nm, statedNm: helium[i]! })),
    });
    expect(kinds(calibrated([lamp('mercury', mercury), misnamed]))).toEqual(['wrong-lamp']);
  });

  test('in one lamp, however its lines lie', () => {
    expect(kinds(calibrated(lamp('helium', heliumNm, 0, [0, 0, 0, 0, 12, 12, 12, 12])))).not.toContain(
      'moved-lamp',
    );
  });
});
