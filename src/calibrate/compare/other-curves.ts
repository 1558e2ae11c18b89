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
  const x = points.map(({ wavelengthNm }) => perSquareUm(wavelengthNm));
  const y = points.map(({ ordinate }) => ordinate);
  const largest = Math.max(...x);
  const polynomials = POLYNOMIAL_DEGREES.filter((degree) => linesApart(points) > degree).map((degree) => {
    const fit = fitPolynomial(x, y, degree);
    const predict = (nm: number): number => fit.predict(perSquareUm(nm));
    const design = x.map((value) => Array.from({ length: degree + 1 }, (_, k) => (value / largest) ** k));
    return { fit, rival: judged(`polynomial of degree ${degree} in 1/λ²`, predict, design, points) };
  });
  const best = polynomials
    .filter(({ rival }) => rival.refused === null && rival.leaveOneOutRms !== null)
    .sort((a, b) => a.rival.leaveOneOutRms! - b.rival.leaveOneOutRms!)[0];
  return {
    rivals: [
      ...polynomials.map(({ rival }) => rival),
      ...(hartmann === null
        ? []
        : [judged("Hartmann's formula", hartmann.ordinateAt, hartmann.design, points)]),
    ],
    hartmann: hartmann === null || isWithoutPole(hartmann, points) ? null : formulaOf(hartmann, curve),
    polynomial: best === undefined ? null : written(best.fit),
  };
}

/** How many wavelengths there are; closer ones than 1 pm are one, and two of them would make the regression singular. */
function linesApart(points: readonly CurvePoint[]): number {
  const sorted = points.map(({ wavelengthNm }) => wavelengthNm).sort((first, second) => first - second);
  return sorted.filter((nm, at) => at === 0 || nm - sorted[at - 1]! > 0.001).length;
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

function formulaOf(fit: HartmannFit, { rangeNm, ordinateAt }: CalibrationCurve): HartmannFormula {
  const { lambda0Nm, strength, ordinate0, u } = fit;
  const [shortest, longest] = rangeNm;
  const steps = 64;
  const offs = Array.from({ length: steps + 1 }, (_, i) => {
    const nm = shortest + ((longest - shortest) * i) / steps;
    return Math.abs(fit.wavelengthAt(ordinateAt(nm)) - nm);
  });
  return { lambda0Nm, strength, ordinate0, u, worstNm: Math.max(...offs) };
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
  const ordinates = Array.from({ length: 65 }, (_, i) => predict(low + i * step));
  const rises = ordinates.slice(1).map((ordinate, i) => ordinate - ordinates[i]!);
  return rises.every((rise) => rise > 0) || rises.every((rise) => rise < 0);
}
