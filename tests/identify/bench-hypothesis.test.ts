/** One understanding of the bench: the end of the curve, and the common error sampled along it. */
import { describe, expect, test } from 'vitest';
import {
  benchView,
  modeAt,
  nearestWavelength,
  residualVarianceAt,
} from '../../src/identify/bench/bench-hypothesis.ts';
import { commonError } from '../../src/identify/bench/common-error.ts';
import { handCurve, handReading } from './hand-made.ts';

// 3200' at 400 nm, 2600' at 700 nm, straight.
const plain = {
  explanation: 'plain',
  logWeight: -0.5,
  shift: 0,
  central: null,
  offsetVariance: 0,
  shiftVariance: 0,
} as const;

describe('the wavelength of an ordinate', () => {
  test.each([
    [2930, 535],
    [3200.1, 400],
    [5000, 400],
    [2599.9, 700],
    [0, 700],
  ])('%d is nearest to %d nm', (ordinate, nm) => expect(nearestWavelength(handCurve, ordinate)).toBe(nm));

  test('rises with the ordinate on a scale that does', () => {
    const rising = { ...handCurve, ordinateAt: (nm: number) => 2 * nm, wavelengthAt: () => null };
    expect(nearestWavelength(rising, 1500)).toBe(700);
    expect(nearestWavelength(rising, 700)).toBe(400);
  });
});

describe('the common error of a view', () => {
  /** What leans about 550 nm: 0.8' at 100 nm from there; and the variances that all readings share. */
  const covariance = (one: number, other: number) => 0.64 * ((one - 550) / 100) * ((other - 550) / 100);
  const curve = { ...handCurve, covariance };
  const at = (nms: readonly number[], totalVariance = 0.25) =>
    nms.map((nm, i) => handReading(i, handCurve.ordinateAt(nm), { totalVariance }));
  const shared = { ...plain, offsetVariance: 0.5, shiftVariance: 0.25 };
  const whole = (one: number, other: number) => covariance(one, other) + 0.75;

  test('is that of the curve, the central image and the shift together, at the readings', () => {
    const nms = [450, 500, 560, 640];
    const view = benchView(curve, at(nms), shared);
    const expected = commonError(whole, nms, 0.5);
    expect(view.common.nodes).toEqual(expected.nodes);
    expect(expected.modes).toHaveLength(2);
    for (const nm of [450, 510, 590, 650]) {
      // Each mode is linear, its square is not: a table of steps of 10 nm.
      expected.modes.forEach((mode, k) => {
        expect(modeAt(view, k, nm)).toBeCloseTo(mode.at(nm), 9);
      });
      expect(residualVarianceAt(view, nm)).toBeCloseTo(expected.residualVariance(nm), 9);
    }
    expect(view).toMatchObject({ explanation: 'plain', logWeight: -0.5, shift: 0, offsetVariance: 0.5 });
  });

  test('is taken at six places at the most, evenly among the readings, the outermost among them', () => {
    const nms = Array.from({ length: 11 }, (_, i) => 450 + 20 * i);
    const mixed = [nms[7]!, ...nms.slice(0, 7), ...nms.slice(8)];
    const expected = commonError(whole, [450, 490, 530, 570, 610, 650], 0.5);
    expect(benchView(curve, at(mixed), shared).common.nodes).toEqual(expected.nodes);
    // Errors that only neighbours share: here it matters where they are taken.
    const near = (one: number, other: number) => Math.exp(-Math.abs(one - other) / 100);
    const sizeAt = (nms: readonly number[]) => Math.abs(commonError(near, nms, 0.5).modes[0]!.at(510));
    const view = benchView({ ...curve, covariance: near }, at(mixed), plain);
    expect(Math.abs(modeAt(view, 0, 510))).toBeCloseTo(sizeAt([450, 490, 530, 570, 610, 650]), 9);
    expect(sizeAt(nms)).not.toBeCloseTo(sizeAt([450, 490, 530, 570, 610, 650]), 4);
    const six = [450, 460, 470, 640, 650, 655];
    expect(benchView(curve, at(six), shared).common.nodes).toEqual(commonError(whole, six, 0.5).nodes);
  });

  test('is measured by the best of the readings', () => {
    const nms = [450, 500, 560, 640];
    const readings = at(nms, 4).map((reading, i) =>
      i === 2 ? { ...reading, totalVariance: 0.25 } : reading,
    );
    expect(benchView(curve, readings, shared).common.nodes).toEqual(commonError(whole, nms, 0.5).nodes);
  });

  test('is where the lines are with the shift taken off', () => {
    const nms = [450, 500, 560, 640];
    const moved = at(nms).map((reading) => ({ ...reading, ordinate: reading.ordinate + 30 }));
    const view = benchView(curve, moved, { ...shared, explanation: 'moved', shift: 30 });
    expect(view.common.nodes).toEqual(commonError(whole, nms, 0.5).nodes);
    expect(view.shift).toBe(30);
  });

  test('is straight between places 10 nm apart from 370 nm on, and beyond the table as at its ends', () => {
    const bent = (one: number, other: number) => ((one * other) / 550 ** 2) ** 3;
    const view = benchView({ ...handCurve, covariance: bent }, at([450, 550, 650]), plain);
    const [mode] = view.common.modes;
    expect(modeAt(view, 0, 370)).toBeCloseTo(mode!.at(370), 9);
    expect(modeAt(view, 0, 373)).toBeCloseTo(0.7 * mode!.at(370) + 0.3 * mode!.at(380), 9);
    expect(modeAt(view, 0, 300)).toBe(modeAt(view, 0, 370));
    expect(modeAt(view, 0, 799)).toBeCloseTo(0.1 * mode!.at(790) + 0.9 * mode!.at(800), 9);
    expect(modeAt(view, 0, 900)).toBeCloseTo(mode!.at(800), 2);
  });
});
