/** A prism computed from glass constants, by a code of its own, must come back through the calibration. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { glasses, refractiveIndex } from '../../src/calibrate/curve/glasses.ts';
import { indexAtMinimum, minimumDeviationDeg } from '../../src/calibrate/curve/minimum-deviation.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';

/** Helium, air wavelengths (NIST SRD 108). */
const heliumNm = [706.52, 667.82, 587.56, 501.57, 492.19, 471.31, 447.15, 402.62];

const centralDeg = 100;

/** A bench that reads the exact minimum deviations of a 60° prism, with a circle of one minute of arc. */
function exactBench(glass: string, wavelengthsNm: readonly number[]) {
  const prism = cataloguePrism(glass, 60);
  const reading = (nm: number): number => centralDeg + minimumDeviationArcmin(prism, nm) / 60;
  const record = {
    whichgas: 1,
    instrument: { method: 'central', leastCount: "1'", apexAngle: "60°00'" },
    central: [centralDeg],
    known: { lamp: 'helium', lines: heliumNm.map((nm) => ({ wavelengthNm: nm, readings: [reading(nm)] })) },
    unknown: { lines: wavelengthsNm.map((nm) => ({ readings: [reading(nm)] })) },
  };
  const result = readRecord(JSON.stringify(record));
  if (!result.ok)
    throw new Error(result.problems.map(({ place, message }) => `${place}: ${message}`).join('\n'));
  return result.bench;
}

describe('minimum deviation', () => {
  test('n = 1.5 and A = 60° give 37.1808° (Hecht, Optics, section 5.5: n = sin((A+δ)/2)/sin(A/2))', () => {
    expect(minimumDeviationDeg(60, 1.5)).toBeCloseTo(37.1808, 4);
    expect(indexAtMinimum(60, 37.1807575)).toBeCloseTo(1.5, 6);
  });

  /** Catalogue indices of F2 at the lines C, d, F and g: SCHOTT data sheet F2, values from memory. */
  test.each([
    ['C', 656.27, 1.61503],
    ['d', 587.56, 1.62004],
    ['F', 486.13, 1.63208],
    ['g', 435.84, 1.64202],
  ])('F2 at the %s line: index of the data sheet, and its deviation, from the constants', (_, nm, index) => {
    const f2 = glasses.find((glass) => glass.name === 'F2')!;
    expect(Math.abs(refractiveIndex(f2, nm) - index)).toBeLessThan(1.5e-5);
    const deviationDeg = minimumDeviationArcmin(cataloguePrism('F2', 60), nm) / 60;
    expect(minimumDeviationDeg(60, refractiveIndex(f2, nm))).toBeCloseTo(deviationDeg, 9);
  });
});

describe('exact deviations through a calibration on helium', () => {
  const gridNm = Array.from({ length: 31 }, (_, k) => 405 + 10 * k);

  test.each(glasses.map(({ name }) => name))(
    '%s: every wavelength comes back to better than its uncertainty',
    (glass) => {
      const analysis = analyseBench(exactBench(glass, gridNm));
      const lines = analysis.tubes[0]!.lines;
      expect(lines).toHaveLength(gridNm.length);
      const misses = lines.map(
        (line, k) => Math.abs(line.wavelengthNm! - gridNm[k]!) / line.standardUncertaintyNm!,
      );
      expect(Math.max(...misses)).toBeLessThan(0.5);
      expect(analysis.calibration.lines.every((line) => line.status === 'used')).toBe(true);
    },
  );
});

describe('the glass of a prism', () => {
  test.each(glasses)(
    '$name: indices at the helium lines, nd and Abbe number as in the catalogue, and named first',
    (glass) => {
      const { indices } = analyseBench(exactBench(glass.name, [])).calibration;
      expect(indices!.lines).toHaveLength(heliumNm.length);
      for (const { wavelengthNm, value } of indices!.lines)
        expect(Math.abs(value - refractiveIndex(glass, wavelengthNm))).toBeLessThan(1e-7);
      expect(Math.abs(indices!.nd!.value - glass.nd)).toBeLessThan(2 * indices!.nd!.standardUncertainty);
      expect(Math.abs(indices!.abbeNumber!.value - glass.abbeNumber)).toBeLessThan(
        2 * indices!.abbeNumber!.standardUncertainty,
      );
      expect(indices!.nearestGlasses[0]!.glass.name).toBe(glass.name);
    },
  );
});
