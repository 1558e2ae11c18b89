/** The other curves a laboratory would fit, judged by how well each predicts a line that was left out. */
import { type CurveBasis, cauchyBasis, hartmannBasis } from '../curve/basis.ts';
import type { CurvePoint } from '../curve/posterior.ts';
import type { CurveRival } from '../types.ts';
import { fitPolynomial } from './fit-polynomial.ts';
import { leaveOneOutRms, leverages } from './leave-one-out.ts';

const POLYNOMIAL_DEGREES = [1, 2, 3] as const;
/** Poles tried for Hartmann's formula, nm: from well in the ultraviolet to just short of the violet lines. */
const POLES_NM = { shortest: 60, longest: 330, step: 3 } as const;

/** A curve fitted by least squares: what it says at a wavelength, and how it would be written as a sum of terms. */
export interface FittedRival extends CurveRival {
  readonly basis: CurveBasis;
}

type Predict = (wavelengthNm: number) => number;
interface Fit {
  readonly predict: Predict;
  readonly basis: CurveBasis;
}

/** All rivals with their leave-one-out scatter; those that are not monotone or lack lines are refused. */
export function rivals(points: readonly CurvePoint[]): FittedRival[] {
  const fits = [...POLYNOMIAL_DEGREES.map((degree) => polynomialFit(degree, points)), hartmannFit(points)];
  return fits.filter((curve) => curve !== null).map((curve) => judged(curve, points));
}

function judged({ basis, predict }: Fit, points: readonly CurvePoint[]): FittedRival {
  const refused = monotone(predict, points) ? null : 'turns back within the range of the known lines';
  // With one line left out there must still be one more line than constants.
  const enough = points.length >= basis.size + 2;
  const residuals = points.map((point) => point.ordinate - predict(point.wavelengthNm));
  const scatter = enough
    ? leaveOneOutRms(residuals, leverages(points.map((point) => [...basis.at(point.wavelengthNm)])))
    : null;
  return { name: basis.name, basis, leaveOneOutRms: scatter, refused };
}

function polynomialFit(degree: number, points: readonly CurvePoint[]): Fit | null {
  const x = points.map((point) => 1 / point.wavelengthNm ** 2);
  if (new Set(x).size < degree + 1) return null;
  const polynomial = fitPolynomial(
    x,
    points.map((point) => point.ordinate),
    degree,
  );
  return { predict: (nm) => polynomial.predict(1 / nm ** 2), basis: cauchyBasis(degree) };
}

/** For each pole a straight line in 1/(λ - λ0); the pole with the smallest sum of squares. */
function hartmannFit(points: readonly CurvePoint[]): Fit | null {
  if (new Set(points.map((point) => point.wavelengthNm)).size < 3) return null;
  const y = points.map((point) => point.ordinate);
  let best: { squares: number; poleNm: number; level: number; strength: number } | null = null;
  for (let poleNm: number = POLES_NM.shortest; poleNm <= POLES_NM.longest; poleNm += POLES_NM.step) {
    const line = straightLine(
      points.map((point) => 1 / (point.wavelengthNm - poleNm)),
      y,
    );
    if (best === null || line.squares < best.squares) best = { ...line, poleNm };
  }
  if (best === null) return null;
  const { poleNm, level, strength } = best;
  return { predict: (nm) => level + strength / (nm - poleNm), basis: hartmannBasis(poleNm, strength) };
}

function straightLine(
  x: readonly number[],
  y: readonly number[],
): { level: number; strength: number; squares: number } {
  const n = x.length;
  const meanX = x.reduce((sum, value) => sum + value, 0) / n;
  const meanY = y.reduce((sum, value) => sum + value, 0) / n;
  let xx = 0;
  let xy = 0;
  x.forEach((value, i) => {
    xx += (value - meanX) ** 2;
    xy += (value - meanX) * (y[i]! - meanY);
  });
  const strength = xy / xx;
  const level = meanY - strength * meanX;
  const squares = x.reduce((sum, value, i) => sum + (y[i]! - level - strength * value) ** 2, 0);
  return { level, strength, squares };
}

function monotone(predict: Predict, points: readonly CurvePoint[]): boolean {
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
