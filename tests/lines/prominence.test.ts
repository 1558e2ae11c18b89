import { describe, expect, it } from 'vitest';
import { logEyeSensitivity } from '../../src/lines/eye.ts';
import { lineFile } from '../../src/lines/line-file.ts';
import { gradedGroups } from '../../src/lines/prominence.ts';
import { tubeNamed, tubes } from '../../src/lines/table.ts';

const prominence = (substance: string, nm: number): number =>
  tubeNamed(substance)!.lines.find((line) => Math.abs(line.wavelengthNm - nm) < 0.06)!.prominence;

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
  ])('%s: the lines in every student table have a fair chance', (substance, places) => {
    for (const nm of places) expect(prominence(substance, nm)).toBeGreaterThanOrEqual(-1.3);
  });

  it('a grade counts as it stands: the eye is not weighed in again', () => {
    expect(prominence('mercury', 404.66)).toBe(0);
    expect(prominence('mercury', 546.07)).toBe(0);
    expect(prominence('neon', 630.48)).toBeGreaterThanOrEqual(-2.6);
  });

  it.each(['helium', 'neon', 'argon', 'krypton', 'xenon'])(
    'nearly all ion lines of %s are hardly ever seen',
    (gas) => {
      const ions = tubeNamed(gas)!.lines.filter((line) => line.spectrum.endsWith(' II'));
      const hidden = ions.filter((line) => line.prominence < -4);
      expect(hidden.length / ions.length).toBeGreaterThan(0.85);
    },
  );

  it('an ungraded line of a fully graded spectrum is fainter than weak', () => {
    const complete = new Set(
      lineFile.spectra.filter((each) => each.gradedComplete).map((each) => each.spectrum),
    );
    const ungraded = tubes
      .flatMap((tube) => tube.lines)
      .filter((line) => complete.has(line.spectrum) && !line.brightness);
    expect(ungraded.length).toBeGreaterThan(100);
    expect(Math.max(...ungraded.map((line) => line.prominence))).toBeLessThanOrEqual(-3.2);
  });

  it('a far red line is faint however large its photographic intensity', () => {
    expect(prominence('helium', 728.14)).toBeLessThanOrEqual(-2.6);
    expect(prominence('cadmium', 734.57)).toBeLessThanOrEqual(-2.6);
  });

  it.each(tubes.map((tube) => tube.substance))(
    '%s: its brightest line is near the grade strong',
    (substance) => {
      const most = Math.max(...tubeNamed(substance)!.lines.map((line) => line.prominence));
      expect(most).toBeGreaterThan(-1);
      expect(most).toBeLessThanOrEqual(0.35);
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
