import { describe, expect, it } from 'vitest';
import { brightnessFile } from '../../src/lines/brightness-file.ts';
import { logEyeSensitivity } from '../../src/lines/eye.ts';
import { gradeProminence } from '../../src/lines/grade-prominence.ts';
import { lineFile } from '../../src/lines/line-file.ts';
import { gradedGroups, settledLines } from '../../src/lines/prominence.ts';
import { tubeNamed, tubes } from '../../src/lines/table.ts';
import { tubeFile } from '../../src/lines/tube-file.ts';

const lineOf = (substance: string, nm: number) =>
  tubeNamed(substance)!.lines.find((line) => Math.abs(line.wavelengthNm - nm) < 0.06)!;
const settled = settledLines(lineFile, tubeFile, brightnessFile);
const prominence = (substance: string, nm: number): number => lineOf(substance, nm).prominence;

describe('the eye', () => {
  it('sees best near 555 nm', () => {
    expect(Math.exp(logEyeSensitivity(555))).toBeGreaterThan(0.99);
    expect(logEyeSensitivity(555)).toBeGreaterThan(logEyeSensitivity(530));
    expect(logEyeSensitivity(555)).toBeGreaterThan(logEyeSensitivity(580));
  });

  // CIE 1924 photopic sensitivity, ISO/CIE 23539: 0.000396 at 400, 0.0040 at 420, 0.503 at 510 and 610, 0.0041 at 700 nm.
  it.each([
    [400, 0.000396, 7.1],
    [420, 0.004, 4.4],
    [510, 0.503, 1],
    [610, 0.503, 1],
    [700, 0.004102, 1],
  ])('at %i nm is that of CIE 1924, %f, times %f', (nm, cie1924, factor) => {
    expect(Math.exp(logEyeSensitivity(nm)) / cie1924).toBeCloseTo(factor, 1);
  });

  it('is interpolated between the steps and goes on beyond the ends', () => {
    expect(logEyeSensitivity(425)).toBeCloseTo((logEyeSensitivity(420) + logEyeSensitivity(430)) / 2, 10);
    expect(logEyeSensitivity(370)).toBeLessThan(logEyeSensitivity(380));
    expect(logEyeSensitivity(770)).toBeLessThan(logEyeSensitivity(760));
  });
});

describe('prominence', () => {
  it.each([
    ['mercury', [404.66, 435.83, 546.07, 576.96, 579.07]],
    ['helium', [447.15, 501.57, 587.56, 667.82, 706.52]],
    ['sodium', [589.0, 589.59]],
    ['neon', [585.25, 614.31, 640.22, 540.06]],
    ['cadmium', [643.85, 508.58, 479.99, 467.81]],
    ['hydrogen', [656.28, 486.13, 434.05]],
  ])('%s: the lines in every student table are medium at least', (substance, places) => {
    for (const nm of places) expect(prominence(substance, nm)).toBeGreaterThanOrEqual(-1.95);
  });

  // Measured by several laboratories (data/brightness.json), against the grade from memory.
  it.each([
    ['neon', 594.48, 'medium', 'brighter'],
    ['neon', 588.19, 'medium', 'brighter'],
    ['neon', 659.9, 'strong', 'fainter'],
    ['neon', 576.44, 'weak', 'brighter'],
    ['neon', 692.95, 'medium', 'fainter'],
    ['neon', 703.24, 'medium', 'fainter'],
    ['helium', 504.77, 'weak', 'brighter'],
    ['helium', 492.19, 'medium', 'brighter'],
    ['hydrogen', 486.13, 'medium', 'brighter'],
    ['mercury', 491.61, 'weak', 'brighter'],
    ['mercury', 623.44, 'weak', 'brighter'],
    ['mercury', 690.75, 'weak', 'brighter'],
    ['hydrogen', 612.18, 'medium', 'fainter'],
  ] as const)('%s %f nm, graded %s from memory, is %s', (substance, nm, grade, way) => {
    const { value } = settled.find(
      ({ row, spectrum }) =>
        Math.abs(row.nm - nm) < 0.06 && spectrum.spectrum === lineOf(substance, nm).spectrum,
    )!;
    const moved = value - gradeProminence[grade];
    expect(way === 'brighter' ? moved : -moved).toBeGreaterThan(0.25);
  });

  it('what several laboratories measured and observers read is known best, an intensity alone badly', () => {
    const sd = (substance: string, nm: number) => lineOf(substance, nm).prominenceSd;
    expect(sd('helium', 587.56)).toBeLessThan(0.35);
    expect(sd('neon', 585.25)).toBeLessThan(sd('krypton', 645.63));
    expect(sd('krypton', 645.63)).toBeLessThan(sd('krypton', 769.45));
    expect(sd('potassium', 511.22)).toBeGreaterThan(0.6);
    expect(sd('hydrogen', 583.61)).toBeGreaterThan(0.8);
    for (const line of tubes.flatMap((tube) => tube.lines)) {
      expect(line.prominenceSd).toBeGreaterThan(0.15);
      expect(line.prominenceSd).toBeLessThanOrEqual(1.2);
    }
  });

  it.each(['helium', 'neon', 'argon', 'krypton', 'xenon'])(
    'nearly all ion lines of %s are hardly ever seen in an ordinary tube',
    (gas) => {
      const ions = tubeNamed(gas)!.lines.filter((line) => line.spectrum.endsWith(' II'));
      const hidden = ions.filter((line) => line.brightness === null);
      expect(hidden.length / ions.length).toBeGreaterThan(0.85);
    },
  );

  it('a far red line is faint however large its photographic intensity', () => {
    expect(prominence('helium', 728.14)).toBeLessThanOrEqual(-2.6);
    expect(prominence('cadmium', 734.57)).toBeLessThanOrEqual(-2.6);
  });

  it.each(tubes.map((tube) => tube.substance))(
    '%s: its brightest line is near the grade strong',
    (substance) => {
      const most = Math.max(...tubeNamed(substance)!.lines.map((line) => line.prominence));
      expect(most).toBeGreaterThan(-0.2);
      expect(most).toBeLessThanOrEqual(0.6);
    },
  );

  it('the power 0.35 lies between least squares and the ratio of the spreads', () => {
    const pairs = [...gradedGroups(lineFile.spectra).values()].flatMap((group) => {
      const mean = (key: 'visible' | 'grade') =>
        group.reduce((sum, line) => sum + line[key], 0) / group.length;
      const [visible, grade] = [mean('visible'), mean('grade')];
      return group.map((line) => [line.visible - visible, line.grade - grade] as const);
    });
    const sum = (f: (x: number, y: number) => number) => pairs.reduce((total, [x, y]) => total + f(x, y), 0);
    const leastSquares = sum((x, y) => x * y) / sum((x) => x * x);
    const ratioOfSpreads = Math.sqrt(sum((_, y) => y * y) / sum((x) => x * x));
    expect(pairs.length).toBeGreaterThan(250);
    expect(leastSquares).toBeCloseTo(0.21, 2);
    expect(ratioOfSpreads).toBeCloseTo(0.45, 2);
  });
});
