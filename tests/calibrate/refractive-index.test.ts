import { describe, expect, test } from 'vitest';
import type { ToldCalibration, ToldCalibrationLine } from '../../src/analysis/types.ts';
import { type Glass, glasses, refractiveIndex } from '../../src/calibrate/curve/glasses.ts';
import {
  excessPerDegreeSquaredArcmin,
  indexAtMinimum,
  indexSensitivities,
  minimumDeviationDeg,
} from '../../src/calibrate/curve/minimum-deviation.ts';
import { ABBE_LINES_NM, refractiveIndices } from '../../src/calibrate/refractive-index.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';

import type { Bench } from '../../src/record/bench.ts';

const glassNamed = (name: string): Glass => glasses.find((glass) => glass.name === name)!;
const deviationArcmin = (glass: Glass, nm: number): number =>
  60 * minimumDeviationDeg(60, refractiveIndex(glass, nm));

const bench: Bench = {
  title: '',
  method: 'central',
  leastCount: 1,
  scaleDivisionArcmin: 30,
  windows: 1,
  prism: 'each-line',
  setAtNm: null,
  apexAngle: { valueDeg: 60, uDeg: 2 / 60 },
  central: [],
  known: [],
  tubes: [],
  check: [],
  ranking: 'always',
  about: {},
};

/** The exact curve of a glass, known to `sharedArcmin` as a whole and to `ownArcmin` at each wavelength. */
function exactCurve(glass: Glass, sharedArcmin: number, ownArcmin: number): CalibrationCurve {
  return {
    unit: 'arcmin',
    rangeNm: [404.66, 706.52],
    domainNm: [380, 780],
    ordinateAt: (nm) => deviationArcmin(glass, nm),
    slopeAt: () => Number.NaN,
    covariance: (a, b) => sharedArcmin ** 2 + (a === b ? ownArcmin ** 2 : 0),
    wavelengthAt: () => null,
  };
}

function calibrated(glass: Glass, wavelengthsNm: number[], curve: CalibrationCurve | null): ToldCalibration {
  const lines = wavelengthsNm.map(
    (wavelengthNm, index): ToldCalibrationLine => ({
      index,
      lampIndex: 0,
      statedWavelengthNm: wavelengthNm,
      wavelengthNm,
      deviationDeg: deviationArcmin(glass, wavelengthNm) / 60,
      ordinate: deviationArcmin(glass, wavelengthNm),
      standardUncertainty: 0.5,
      residual: 0,
      status: 'used',
      message: null,
    }),
  );
  return { unit: 'arcmin', lines, curve, settingScatter: 0.4 } as Partial<ToldCalibration> as ToldCalibration;
}

describe('a prism at minimum deviation', () => {
  test('the worked example n = 1.5, A = 60° deviates by 37.1808°', () => {
    // 2·asin(1.5·sin 30°) - 60°, evaluated from the formula of Born & Wolf, section 4.7.2.
    expect(minimumDeviationDeg(60, 1.5)).toBeCloseTo(37.1808, 4);
    expect(indexAtMinimum(60, 37.1808)).toBeCloseTo(1.5, 5);
  });

  test('F2 changes by -2.4e-4 per arc-minute of apex angle and +1.7e-4 per arc-minute of deviation', () => {
    const delta = minimumDeviationDeg(60, 1.62004);
    const { perApexArcmin, perDeviationArcmin } = indexSensitivities(60, delta);
    expect(perApexArcmin * 1e4).toBeCloseTo(-2.4, 1);
    expect(perDeviationArcmin * 1e4).toBeCloseTo(1.7, 1);
  });

  test('the derivatives agree with differences', () => {
    const { perApexArcmin, perDeviationArcmin } = indexSensitivities(59.7, 50.2);
    const step = 1 / 60;
    const byApex = (indexAtMinimum(59.7 + step, 50.2) - indexAtMinimum(59.7 - step, 50.2)) / 2;
    const byDeviation = (indexAtMinimum(59.7, 50.2 + step) - indexAtMinimum(59.7, 50.2 - step)) / 2;
    expect(perApexArcmin / byApex).toBeCloseTo(1, 6);
    expect(perDeviationArcmin / byDeviation).toBeCloseTo(1, 6);
  });

  test('a misset prism deviates more, as an exact ray through it does', () => {
    const n = 1.5168;
    const minimum = minimumDeviationDeg(60, n);
    const incidence = (60 + minimum) / 2 + 1;
    const rad = Math.PI / 180;
    const inside = 60 - Math.asin(Math.sin(incidence * rad) / n) / rad;
    const exact = incidence + Math.asin(n * Math.sin(inside * rad)) / rad - 60;
    expect((exact - minimum) * 60).toBeGreaterThan(0);
    expect(excessPerDegreeSquaredArcmin(60, minimum) / ((exact - minimum) * 60)).toBeCloseTo(1, 1);
  });
});

describe('indices of a bench', () => {
  test.each(glasses.map((glass) => glass.name))('%s gives its catalogue nd and Abbe number', (name) => {
    const glass = glassNamed(name);
    const result = refractiveIndices(bench, calibrated(glass, [404.66, 706.52], exactCurve(glass, 0, 0)))!;
    // The catalogue rounds nd to 1e-5 and Vd to 0.01.
    expect(Math.abs(result.nd!.value - glass.nd)).toBeLessThan(3e-5);
    expect(Math.abs(result.abbeNumber!.value - glass.abbeNumber)).toBeLessThan(0.03);
    expect(result.nearestGlasses[0]!.glass.name).toBe(name);
  });

  test('the index of a line carries the deviation and the apex angle in quadrature', () => {
    const glass = glassNamed('F2');
    const line = refractiveIndices(bench, calibrated(glass, [587.56], null))!.lines[0]!;
    expect(line.value).toBeCloseTo(refractiveIndex(glass, 587.56), 8);
    expect(line.fromReading).toBeCloseTo(0.5 * 1.7e-4, 5);
    expect(line.fromApexAngle).toBeCloseTo(2 * 2.4e-4, 5);
    expect(line.standardUncertainty).toBeCloseTo(Math.hypot(line.fromReading, line.fromApexAngle), 12);
  });

  test('the uncertainty of nd and of the Abbe number adds up the causes one at a time', () => {
    const glass = glassNamed('F2');
    const shared = 0.4;
    const own = 0.3;
    const result = refractiveIndices(bench, calibrated(glass, [587.56], exactCurve(glass, shared, own)))!;
    // Linear propagation checked against plain differences of the exact formulae, one cause at a time.
    const abbeOf = (apex: number, shiftD: number, shiftF: number, shiftC: number): number => {
      const n = (nm: number, shift: number) =>
        indexAtMinimum(apex, (deviationArcmin(glass, nm) + shift) / 60);
      const { d, F, C } = ABBE_LINES_NM;
      return (n(d, shiftD) - 1) / (n(F, shiftF) - n(C, shiftC));
    };
    const centre = abbeOf(60, 0, 0, 0);
    const causes = [
      abbeOf(60, shared, shared, shared),
      abbeOf(60, own, 0, 0),
      abbeOf(60, 0, own, 0),
      abbeOf(60, 0, 0, own),
      abbeOf(60 + 2 / 60, 0, 0, 0),
    ].map((value) => value - centre);
    expect(result.abbeNumber!.standardUncertainty / Math.hypot(...causes)).toBeCloseTo(1, 1);
    expect(result.nd!.standardUncertainty).toBeCloseTo(
      Math.hypot(Math.hypot(shared, own) * 1.7e-4, 2 * 2.4e-4),
      5,
    );
  });

  test('the reading of the central image moves all indices alike, and cancels only where both sides are read', () => {
    const glass = glassNamed('F2');
    const calibration = calibrated(glass, [435.83, 587.56], exactCurve(glass, 0, 0));
    const read = { ...bench, central: [{ kind: 'one-side' as const, windows: [181.07] }] };
    const result = refractiveIndices(read, calibration)!;
    // One reading to 1': rectangular, a fiftieth of the readings a tick off, and one setting of 0.4'.
    const centralArcmin = Math.sqrt(1 / 12 + 0.02 + 0.4 ** 2);
    expect(result.lines[1]!.fromCentral / centralArcmin).toBeCloseTo(1.7e-4, 5);
    const nd = Math.hypot(result.lines[1]!.fromCentral, result.lines[1]!.fromApexAngle);
    expect(result.nd!.standardUncertainty / nd).toBeCloseTo(1, 3);
    expect(refractiveIndices({ ...read, method: 'both-sides' }, calibration)!.lines[1]!.fromCentral).toBe(0);
  });

  test('lines set aside or slipped give no index', () => {
    const calibration = calibrated(glassNamed('F2'), [435.83, 546.07], null);
    const [first, second] = calibration.lines;
    const doubtful = { ...calibration, lines: [{ ...first!, status: 'slip' as const }, second!] };
    expect(refractiveIndices(bench, doubtful)!.lines.map((line) => line.index)).toEqual([1]);
  });

  test('an exact apex angle adds nothing, and the reader is told', () => {
    const exact = { ...bench, apexAngle: { valueDeg: 60, uDeg: null } };
    const result = refractiveIndices(exact, calibrated(glassNamed('F2'), [546.07], null))!;
    expect(result.lines[0]!.fromApexAngle).toBe(0);
    expect(result.notes.join(' ')).toContain('for that angle exactly');
  });

  test('without an apex angle, or on an arbitrary scale, there is no index', () => {
    const calibration = calibrated(glassNamed('F2'), [546.07], null);
    expect(refractiveIndices({ ...bench, apexAngle: null }, calibration)).toBeNull();
    expect(refractiveIndices({ ...bench, method: 'scale' }, calibration)).toBeNull();
  });

  test('a prism set once gives the index of the line it was set for, and no Abbe number', () => {
    const glass = glassNamed('F2');
    const calibration = calibrated(glass, [435.83, 589.3, 656.28], exactCurve(glass, 0, 0));
    const fixed = { ...bench, prism: 'fixed' as const, setAtNm: 589 };
    const result = refractiveIndices(fixed, calibration)!;
    expect(result.lines.map((line) => line.wavelengthNm)).toEqual([589.3]);
    expect(result.nd).toBeNull();
    expect(result.abbeNumber).toBeNull();
    const unnamed = refractiveIndices({ ...fixed, setAtNm: null }, calibration)!;
    expect(unnamed.lines).toEqual([]);
    expect(unnamed.notes.join(' ')).toContain('setAtNm');
  });

  test('lines outside the calibrated range are marked', () => {
    const glass = glassNamed('F2');
    const short = { ...exactCurve(glass, 0, 0), rangeNm: [404.66, 579.07] as const };
    expect(refractiveIndices(bench, calibrated(glass, [546.07], short))!.extrapolated).toBe(true);
    const narrow = { ...short, domainNm: [404.66, 579.07] as const };
    expect(refractiveIndices(bench, calibrated(glass, [546.07], narrow))!.nd).toBeNull();
  });
});
