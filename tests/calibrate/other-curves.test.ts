/** The other curves that a laboratory would fit, each against least squares written out anew. */
import { describe, expect, test } from 'vitest';
import { fitPolynomial } from '../../src/calibrate/compare/fit-polynomial.ts';
import { otherCurves, perSquareUm } from '../../src/calibrate/compare/other-curves.ts';
import { leastSquares } from '../../src/calibrate/curve/least-squares.ts';
import type { CurvePoint } from '../../src/calibrate/curve/posterior.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { heliumNm } from './glass-bench.ts';

const point = (wavelengthNm: number, ordinate: number): CurvePoint => ({
  wavelengthNm,
  wavelengthVariance: 0,
  ordinate,
  resolutionVariance: 1,
  settingShare: 1,
});
const scatter = [0.4, -0.3, 0.5, -0.6, 0.1, 0.2, -0.5, 0.3];
/** Hartmann's own curve with a pole at 205 nm, and a scatter about it. */
const hartmannAt = (nm: number): number => 2700 + 69_000 / (nm - 205);
const points = heliumNm.map((nm, i) => point(nm, hartmannAt(nm) + scatter[i]!));
/** The curve in use: what these points scatter about. */
const curve = { rangeNm: [402.62, 706.52], ordinateAt: hartmannAt } as unknown as CalibrationCurve;
const rivalsOf = (of: readonly CurvePoint[]) => otherCurves(of, curve).rivals;
const named = (of: readonly CurvePoint[], name: string) => rivalsOf(of).find((each) => each.name === name)!;

/** The scatter of each line about the polynomial through the others. */
function leftOut(of: readonly CurvePoint[], degree: number): number {
  const row = (nm: number) => Array.from({ length: degree + 1 }, (_, k) => (1e6 / nm ** 2 / 6) ** k);
  const offs = of.map(({ wavelengthNm, ordinate }, i) => {
    const others = of.filter((_, k) => k !== i);
    const [constants] = leastSquares(
      others.map((each) => row(each.wavelengthNm)),
      [others.map((each) => each.ordinate)],
    );
    return ordinate - row(wavelengthNm).reduce((sum, value, k) => sum + value * constants![k]!, 0);
  });
  return Math.hypot(...offs) / Math.sqrt(offs.length);
}

describe('polynomials in 1/λ²', () => {
  test('a wavelength of 500 nm is 4 per square micrometre', () => expect(perSquareUm(500)).toBe(4));

  test.each([1, 2, 3])('of degree %i predict a line left out as well as is told', (degree) => {
    const { leaveOneOutRms, refused } = named(points, `polynomial of degree ${degree} in 1/λ²`);
    expect(refused).toBeNull();
    expect(leaveOneOutRms! / leftOut(points, degree)).toBeCloseTo(1, 6);
  });

  test('are told where there are lines enough, and judged where one can be spared', () => {
    const of = (lines: number) =>
      rivalsOf(points.slice(0, lines)).map((rival) => rival.leaveOneOutRms !== null);
    // Degree 1 has two constants: three lines leave none to spare, four do; Hartmann's formula has three.
    expect(of(2)).toEqual([false]);
    expect(of(3)).toEqual([false, false, false]);
    expect(of(4)).toEqual([true, false, false, false]);
    expect(of(5)).toEqual([true, true, false, true]);
    expect(of(6)).toEqual([true, true, true, true]);
    const written = (lines: number) => otherCurves(points.slice(0, lines), curve).polynomial?.degree;
    expect([written(2), written(3), written(4)]).toEqual([undefined, undefined, 1]);
  });

  test('count lines less than a picometre apart as one', () => {
    const twice = (apartNm: number) => [
      ...points.slice(0, 2),
      point(heliumNm[1] + apartNm, points[1]!.ordinate),
    ];
    const names = (apartNm: number) =>
      rivalsOf(twice(apartNm))
        .map(({ name }) => name)
        .filter((name) => name.startsWith('polynomial'));
    expect(names(0.0009)).toHaveLength(1);
    expect(names(-0.0009)).toHaveLength(1);
    expect(names(0.0011)).toHaveLength(2);
  });

  test('the one that predicts best is written, with its scatter', () => {
    const { polynomial } = otherCurves(points, curve);
    const rms = [1, 2, 3].map((degree) => leftOut(points, degree));
    const best = rms.indexOf(Math.min(...rms)) + 1;
    expect(polynomial!.degree).toBe(best);
    const written = (nm: number) =>
      polynomial!.coefficients.reduce((sum, { value }, k) => sum + value * perSquareUm(nm) ** k, 0);
    const residuals = points.map(({ wavelengthNm, ordinate }) => ordinate - written(wavelengthNm));
    expect(Math.hypot(...residuals) / Math.sqrt(8)).toBeCloseTo(polynomial!.rms, 4);
    for (const { u } of polynomial!.coefficients) expect(u).toBeGreaterThan(0);
    // A straight line in 1/λ² that one line is off is best as a straight line.
    const straight = points.map(({ wavelengthNm }, i) =>
      point(wavelengthNm, 2800 + 50 * perSquareUm(wavelengthNm) + scatter[i]!),
    );
    expect(otherCurves(straight, curve).polynomial!.degree).toBe(1);
  });

  test('of readings without any scatter say nothing of their uncertainty', () => {
    const exact = [706.52, 587.56, 501.57, 447.15].map((nm) => point(nm, 2800));
    // They do not turn, nor do they rise: such a curve is refused.
    expect(otherCurves(exact, curve).polynomial).toBeNull();
    const three = [500, 1000, 2000 / 3, 800].map((nm) => point(nm, 3 + 2 * perSquareUm(nm)));
    const { degree, coefficients, rms } = otherCurves(three, curve).polynomial!;
    expect([degree, rms]).toEqual([1, expect.closeTo(0, 9)]);
    expect(coefficients.map(({ value }) => value)).toEqual([expect.closeTo(3, 9), expect.closeTo(2, 9)]);
    for (const { u } of coefficients) expect(u === null || (u > 0 && u < 1e-12)).toBe(true);
  });
});

test('of degree 0 it is the mean', () => {
  const { coefficients, residuals } = fitPolynomial([1, 2, 4], [2, 4, 9], 0);
  expect(coefficients).toEqual([expect.closeTo(5, 12)]);
  expect(residuals).toEqual([-3, -1, 4].map((each) => expect.closeTo(each, 12)));
  for (const degree of [-1, 0.5])
    expect(() => fitPolynomial([1, 2, 4], [2, 4, 9], degree)).toThrow(RangeError);
});

describe('a curve that turns back within the known lines', () => {
  /** A parabola in 1/λ² with its vertex there. */
  const bent = (vertexNm: number) =>
    heliumNm.map((nm, i) =>
      point(nm, 3000 + 9 * (perSquareUm(nm) - perSquareUm(vertexNm)) ** 2 + scatter[i]! / 100),
    );
  const refusal = (vertexNm: number) => named(bent(vertexNm), 'polynomial of degree 2 in 1/λ²').refused;

  test('is refused, and is not the one that is written', () => {
    expect(refusal(500)).toBe('turns back within the range of the known lines');
    expect(otherCurves(bent(500), curve).polynomial?.degree).not.toBe(2);
  });

  test('at one end of them as at the other; beyond them it may', () => {
    // The range is looked at in 64 steps, here 4.7 nm.
    expect(refusal(697)).not.toBeNull();
    expect(refusal(412)).not.toBeNull();
    expect(refusal(730)).toBeNull();
    expect(refusal(390)).toBeNull();
  });
});

describe("Hartmann's formula", () => {
  test('is judged by lines left out, and told with its distance from the curve in use', () => {
    const { hartmann, rivals } = otherCurves(points, curve);
    expect(rivals.at(-1)).toMatchObject({ name: "Hartmann's formula", refused: null });
    expect(rivals.at(-1)!.leaveOneOutRms).toBeGreaterThan(0.3);
    expect(rivals.at(-1)!.leaveOneOutRms).toBeLessThan(1.2);
    const { lambda0Nm, strength, ordinate0, worstNm } = hartmann!;
    const offs = Array.from({ length: 65 }, (_, i) => {
      const nm = 402.62 + ((706.52 - 402.62) * i) / 64;
      return Math.abs(lambda0Nm + strength / (hartmannAt(nm) - ordinate0) - nm);
    });
    expect(worstNm).toBeCloseTo(Math.max(...offs), 9);
    expect(worstNm).toBeGreaterThan(0.1);
  });

  test('is not told of lines that follow another law, whose pole is anywhere', () => {
    const shaky = (by: number) =>
      otherCurves(
        heliumNm.map((nm, i) => point(nm, 6000 - 2 * nm + by * scatter[i]!)),
        curve,
      );
    expect(shaky(4).hartmann).toBeNull();
    expect(otherCurves(points.slice(0, 2), curve).hartmann).toBeNull();
    // Of three lines nothing says how well its pole is known.
    expect(otherCurves(points.slice(0, 3), curve).hartmann).toMatchObject({ u: null });
  });

  test('is told where twice the uncertainty of its pole is less than how far it is from the lines', () => {
    const by = (factor: number) =>
      otherCurves(
        heliumNm.map((nm, i) => point(nm, hartmannAt(nm) + factor * scatter[i]!)),
        curve,
      ).hartmann;
    let [told, not] = [1, 400];
    for (let i = 0; i < 30; i += 1) {
      const middle = (told + not) / 2;
      if (by(middle) === null) not = middle;
      else told = middle;
    }
    const { lambda0Nm, u } = by(told)!;
    expect((2 * u![0]) / (402.62 - lambda0Nm)).toBeCloseTo(1, 2);
  });
});
