/** The other curves a laboratory would fit, judged by how well each predicts a line that was left out. */
import type { CurvePoint } from '../curve/posterior.ts';
import type { CalibrationCurve, CurveRival, HartmannFormula, PolynomialFormula } from '../types.ts';
import { fitPolynomial, type PolynomialFit } from './fit-polynomial.ts';
import { fitHartmann, type HartmannFit } from './hartmann.ts';
import { leaveOneOutRms, leverages } from './leave-one-out.ts';

const POLYNOMIAL_DEGREES = [1, 2, 3] as const;

/** Squared wave number in µm⁻², the variable of Cauchy's series. */
export const perSquareUm = (wavelengthNm: number): number => (1000 / wavelengthNm) ** 2;

export interface OtherCurves {
  /** Each with its leave-one-out scatter; those that are not monotone or lack lines are refused. */
  readonly rivals: readonly CurveRival[];
  /** Null with fewer than three lines, or where the readings do not tell where its pole lies (a grating has none). */
  readonly hartmann: HartmannFormula | null;
  /** The degree that predicts left-out lines best; null where no degree has a line to spare. */
  readonly polynomial: PolynomialFormula | null;
}

/** `curve`: the one in use, from which the others' largest difference is told. */
export function otherCurves(points: readonly CurvePoint[], curve: CalibrationCurve): OtherCurves {
  const hartmann = fitHartmann(points);
  const polynomials = POLYNOMIAL_DEGREES.flatMap((degree) => {
    const fit = polynomialFit(degree, points);
    return fit === null ? [] : [{ fit, rival: polynomialRival(fit, points) }];
  });
  const best = polynomials
    .filter(({ rival }) => rival.refused === null && rival.leaveOneOutRms !== null)
    .sort((a, b) => a.rival.leaveOneOutRms! - b.rival.leaveOneOutRms!)[0];
  return {
    rivals: [
      ...polynomials.map(({ rival }) => rival),
      ...(hartmann === null ? [] : [hartmannRival(hartmann, points)]),
    ],
    hartmann:
      hartmann === null || isWithoutPole(hartmann, points)
        ? null
        : { ...constantsOf(hartmann), worstNm: worstNm(hartmann, curve) },
    polynomial: best === undefined ? null : written(best.fit),
  };
}

function polynomialFit(degree: number, points: readonly CurvePoint[]): PolynomialFit | null {
  const x = points.map(({ wavelengthNm }) => perSquareUm(wavelengthNm));
  if (linesApart(points) < degree + 1) return null;
  return fitPolynomial(
    x,
    points.map(({ ordinate }) => ordinate),
    degree,
  );
}

/** How many wavelengths there are; closer ones than 1 pm are one, and two of them would make the regression singular. */
function linesApart(points: readonly CurvePoint[]): number {
  const sorted = points.map(({ wavelengthNm }) => wavelengthNm).sort((first, second) => first - second);
  return sorted.filter((nm, at) => at === 0 || nm - sorted[at - 1]! > 0.001).length;
}

function polynomialRival(fit: PolynomialFit, points: readonly CurvePoint[]): CurveRival {
  const x = points.map(({ wavelengthNm }) => perSquareUm(wavelengthNm));
  const largest = Math.max(...x);
  const design = x.map((value) => Array.from({ length: fit.degree + 1 }, (_, k) => (value / largest) ** k));
  const name = `polynomial of degree ${fit.degree} in 1/λ²`;
  return judged(name, (nm) => fit.predict(perSquareUm(nm)), design, points);
}

function hartmannRival(fit: HartmannFit, points: readonly CurvePoint[]): CurveRival {
  return judged("Hartmann's formula", fit.ordinateAt, fit.design, points);
}

function judged(
  name: string,
  predict: (wavelengthNm: number) => number,
  design: readonly (readonly number[])[],
  points: readonly CurvePoint[],
): CurveRival {
  const refused = monotone(predict, points) ? null : 'turns back within the range of the known lines';
  // With one line left out there must still be one more line than constants.
  const enough = points.length >= design[0]!.length + 2;
  const residuals = points.map(({ ordinate, wavelengthNm }) => ordinate - predict(wavelengthNm));
  return { name, leaveOneOutRms: enough ? leaveOneOutRms(residuals, leverages(design)) : null, refused };
}

/** λ0 is known to no better than half its distance from the lines: they would go with any, its constants tell nothing. */
function isWithoutPole({ lambda0Nm, u }: HartmannFit, points: readonly CurvePoint[]): boolean {
  return u !== null && 2 * u[0] > Math.min(...points.map(({ wavelengthNm }) => wavelengthNm)) - lambda0Nm;
}

function constantsOf({ lambda0Nm, strength, ordinate0, u }: HartmannFit): Omit<HartmannFormula, 'worstNm'> {
  return { lambda0Nm, strength, ordinate0, u };
}

/** Largest difference in wavelength between the formula and the curve in use, within the known lines. */
function worstNm({ wavelengthAt }: HartmannFit, { rangeNm, ordinateAt }: CalibrationCurve): number {
  const [shortest, longest] = rangeNm;
  const steps = 64;
  const offs = Array.from({ length: steps + 1 }, (_, i) => {
    const nm = shortest + ((longest - shortest) * i) / steps;
    return Math.abs(wavelengthAt(ordinateAt(nm)) - nm);
  });
  return Math.max(...offs);
}

function written({ degree, coefficients, standardErrors, residuals }: PolynomialFit): PolynomialFormula {
  return {
    degree,
    // Of readings without any scatter nothing can be said of it.
    coefficients: coefficients.map((value, k) => ({ value, u: standardErrors?.[k] || null })),
    rms: Math.hypot(...residuals) / Math.sqrt(residuals.length),
  };
}

function monotone(predict: (nm: number) => number, points: readonly CurvePoint[]): boolean {
  const wavelengths = points.map((point) => point.wavelengthNm);
  const low = Math.min(...wavelengths);
  const step = (Math.max(...wavelengths) - low) / 64;
  let sign = 0;
  for (let i = 0; i < 64; i += 1) {
    const turn = Math.sign(predict(low + (i + 1) * step) - predict(low + i * step));
    if (turn === 0 || (sign !== 0 && turn !== sign)) return false;
    sign = turn;
  }
  return true;
}
