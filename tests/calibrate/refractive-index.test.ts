import { describe, expect, test } from 'vitest';
import type { ToldCalibration, ToldCalibrationLine } from '../../src/analysis/types.ts';
import { cauchyIndex } from '../../src/calibrate/cauchy.ts';
import { type Glass, glasses, refractiveIndex } from '../../src/calibrate/curve/glasses.ts';
import {
  excessPerDegreeSquaredArcmin,
  indexAtMinimum,
  indexSensitivities,
  minimumDeviationDeg,
} from '../../src/calibrate/curve/minimum-deviation.ts';
import { ABBE_LINES_NM, refractiveIndices } from '../../src/calibrate/refractive-index.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';

import { usualScatter } from '../../src/observe/setting-scatter.ts';
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
    slopeAt: (nm) => (deviationArcmin(glass, nm + 0.01) - deviationArcmin(glass, nm - 0.01)) / 0.02,
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
    expect(result.notes).toContainEqual({ what: 'apex-exact' });
  });

  test.each([
    ['6°, for 60', 6, true],
    ['a glass of 1.9 by an apex angle of 45°', 45, false],
    ['as it is', 60, false],
    ['120°, for 60', 120, true],
  ])('an index that nothing has is said to be none: %s', (_, valueDeg, isSaid) => {
    const result = refractiveIndices(
      { ...bench, apexAngle: { valueDeg, uDeg: null } },
      calibrated(glassNamed('F2'), [435.83, 546.07], null),
    )!;
    expect(result.notes.some(({ what }) => what === 'no-such-index')).toBe(isSaid);
  });

  test('a deviation that no prism has gives no index', () => {
    const calibration = calibrated(glassNamed('F2'), [435.83, 546.07], null);
    const [first, second] = calibration.lines;
    const wild = (deviationDeg: number) =>
      refractiveIndices(bench, { ...calibration, lines: [{ ...first!, deviationDeg }, second!] })!.lines
        .length;
    expect([119.99, 120, 170].map(wild)).toEqual([2, 1, 1]);
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
    expect(result.lines.map(({ index, wavelengthNm }) => [index, wavelengthNm])).toEqual([[1, 589.3]]);
    expect(result.nd).toBeNull();
    expect(result.abbeNumber).toBeNull();
    expect(result.cauchy).toBeNull();
    const unnamed = refractiveIndices({ ...fixed, setAtNm: null }, calibration)!;
    expect(unnamed.lines).toEqual([]);
    expect(unnamed.notes).toContainEqual({ what: 'set-where' });
  });

  test('a prism set once where no line was read gives the index of the curve there, with its uncertainty', () => {
    const glass = glassNamed('F2');
    const own = 0.6;
    const calibration = calibrated(glass, [435.83, 546.07, 656.28], exactCurve(glass, 0, own));
    const fixed = { ...bench, prism: 'fixed' as const, setAtNm: 589.3 };
    const result = refractiveIndices(fixed, calibration)!;
    const [line, ...others] = result.lines;
    expect(others).toEqual([]);
    expect(line).toMatchObject({ index: null, wavelengthNm: 589.3 });
    expect(line!.value).toBeCloseTo(refractiveIndex(glass, 589.3), 8);
    expect(line!.fromReading).toBeCloseTo(own * 1.7e-4, 5);
    expect(result.extrapolated).toBe(false);
    expect(result.notes).toContainEqual({ what: 'set-once', setAtNm: 589.3, isRead: false });
    expect(refractiveIndices({ ...fixed, setAtNm: 720 }, calibration)!.extrapolated).toBe(true);
    const beyond = refractiveIndices({ ...fixed, setAtNm: 1014 }, calibration)!;
    expect(beyond.lines).toEqual([]);
    expect(beyond.notes).toContainEqual({ what: 'set-beyond-curve', setAtNm: 1014 });
  });

  test('an apex angle from two reflected images has resolution and setting of both readings in its uncertainty', () => {
    const glass = glassNamed('F2');
    const images = { ...bench, apexAngle: { valueDeg: 60, uDeg: null, images: [] } };
    const calibration = calibrated(glass, [546.07], null);
    const u = (settingScatter: number, windows: 1 | 2) =>
      60 * refractiveIndices({ ...images, windows }, { ...calibration, settingScatter })!.apexUncertaintyDeg!;
    // Half a difference of two readings, each to 1': rectangular, one in fifty a tick off, and one setting.
    expect(u(0, 1)).toBeCloseTo(Math.sqrt(1 / 12 + 0.02) / Math.SQRT2, 9);
    expect(u(0.7, 1)).toBeCloseTo(Math.sqrt(1 / 12 + 0.02 + 0.7 ** 2) / Math.SQRT2, 9);
    // The second window averages the reading, not the setting.
    expect(u(0.7, 2)).toBeCloseTo(Math.sqrt((1 / 12 + 0.02) / 2 + 0.7 ** 2) / Math.SQRT2, 9);
    const { notes, lines } = refractiveIndices(images, calibration)!;
    expect(notes).toContainEqual({ what: 'apex-from-images' });
    expect(lines[0]!.fromApexAngle).toBeCloseTo(u(0.4, 1) * 2.44e-4, 5);
  });

  test('lines outside the calibrated range are marked', () => {
    const glass = glassNamed('F2');
    const short = { ...exactCurve(glass, 0, 0), rangeNm: [404.66, 579.07] as const };
    expect(refractiveIndices(bench, calibrated(glass, [546.07], short))!.extrapolated).toBe(true);
    const narrow = { ...short, domainNm: [404.66, 579.07] as const };
    expect(refractiveIndices(bench, calibrated(glass, [546.07], narrow))!.nd).toBeNull();
  });
});

describe('dispersion', () => {
  const glass = glassNamed('F2');
  const at = (nm: number) =>
    refractiveIndices(bench, calibrated(glass, [nm], exactCurve(glass, 0.2, 0.5)))!.lines[0]!;

  test('the resolving power of 1 mm of base is |dn/dλ| of the catalogue glass', () => {
    const slopePerMm =
      (1e6 * (refractiveIndex(glass, 589.3 - 0.05) - refractiveIndex(glass, 589.3 + 0.05))) / 0.1;
    expect(at(589.3).resolvingPowerPerMm!.value / slopePerMm).toBeCloseTo(1, 4);
  });

  test('it is what the width of the beam resolves: λ/Δλ = w·dδ/dλ (Rayleigh)', () => {
    const { deviationDeg, angularDispersion, resolvingPowerPerMm } = at(546.07);
    const rad = Math.PI / 180;
    // A base of 1 mm, both faces filled: each face is 0.5 mm / sin(A/2) long, the beam cos i of it.
    const beamMm = (0.5 / Math.sin(30 * rad)) * Math.cos(((60 + deviationDeg) / 2) * rad);
    const radPerMm = -angularDispersion!.value * (rad / 60) * 1e6;
    expect(resolvingPowerPerMm!.value / (beamMm * radPerMm)).toBeCloseTo(1, 6);
  });

  test('its uncertainty is that of the slope: what moves the whole curve is no part of it', () => {
    // Two ordinates 4 nm apart, each with an error of 0.5' of its own.
    expect(at(546.07).angularDispersion!.standardUncertainty).toBeCloseTo((0.5 * Math.SQRT2) / 4, 6);
    expect(
      refractiveIndices(bench, calibrated(glass, [546.07], null))!.lines[0]!.angularDispersion,
    ).toBeNull();
  });
});

describe("Cauchy's formula", () => {
  const heliumNm = [706.52, 667.82, 587.56, 501.57, 492.19, 471.31, 447.15];
  const indicesOf = (name: string, nm: number[], reading = 0.05) => {
    const told = calibrated(glassNamed(name), nm, null);
    const lines = told.lines.map((line) => ({ ...line, standardUncertainty: reading }));
    return refractiveIndices(bench, { ...told, lines })!;
  };

  test.each(glasses.map(({ name }) => name))('%s: it follows the catalogue in the visible', (name) => {
    const { cauchy } = indicesOf(name, heliumNm, 0.005);
    expect(cauchy!.worst).toBeLessThan(2e-4);
    for (const nm of [460, 546.07, 620])
      expect(Math.abs(cauchyIndex(cauchy!, nm) - refractiveIndex(glassNamed(name), nm))).toBeLessThan(2e-4);
  });

  test('has three terms where the readings show a third', () => {
    expect(indicesOf('F2', heliumNm).cauchy!.constants).toHaveLength(3);
  });

  test('has two terms where the readings do not show a third, or where there are but three lines', () => {
    expect(indicesOf('N-BK7', heliumNm, 5).cauchy!.constants).toHaveLength(2);
    expect(indicesOf('F2', [667.82, 587.56, 447.15]).cauchy!.constants).toHaveLength(2);
    expect(indicesOf('F2', [587.56]).cauchy).toBeNull();
    expect(indicesOf('F2', [587.56, 587.56]).cauchy).toBeNull();
  });

  test('through two lines are the constants worked out by hand', () => {
    const { lines, cauchy } = indicesOf('F2', [667.82, 447.15]);
    const [red, violet] = [lines[0]!.value, lines[1]!.value];
    const b = (violet - red) / (1 / 0.44715 ** 2 - 1 / 0.66782 ** 2);
    expect(cauchy!.constants[1]!.value).toBeCloseTo(b, 9);
    expect(cauchy!.constants[0]!.value).toBeCloseTo(red - b / 0.66782 ** 2, 9);
  });

  test('its uncertainties are those of the indices, one cause at a time', () => {
    const told = calibrated(glassNamed('F2'), heliumNm, null);
    const exact = refractiveIndices(bench, told)!;
    const shifted = (shift: (at: number) => number, apexDeg = 60) => {
      const lines = told.lines.map((line, at) => ({
        ...line,
        deviationDeg: line.deviationDeg! + shift(at) / 60,
      }));
      const apexAngle = { valueDeg: apexDeg, uDeg: 2 / 60 };
      return refractiveIndices({ ...bench, apexAngle }, { ...told, lines })!.cauchy!.constants;
    };
    const causes = [
      ...told.lines.map((_, k) => shifted((at) => (at === k ? 0.5 : 0))),
      shifted(() => 0, 60 + 2 / 60),
    ];
    exact.cauchy!.constants.forEach(({ value, standardUncertainty }, k) => {
      const moved = causes.map((constants) => constants[k]!.value - value);
      expect(standardUncertainty / Math.hypot(...moved)).toBeCloseTo(1, 2);
    });
  });
});

test('without a curve the usual scatter of setting stands for the bench, in the central image as in the apex angle', () => {
  const one: Bench = {
    ...bench,
    central: [{ kind: 'one-side', windows: [181] }],
    apexAngle: { valueDeg: 60, uDeg: null, images: [] },
  };
  const told = (settingScatter: number | null) =>
    refractiveIndices(one, { ...calibrated(glassNamed('F2'), [546.07], null), settingScatter })!;
  expect(told(null)).toEqual(told(usualScatter(one)));
  expect(told(null).lines[0]).not.toEqual(told(0).lines[0]);
});
