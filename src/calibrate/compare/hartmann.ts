/**
 * The formula that a student can use with a pocket calculator: λ = λ0 + C/(δ - δ0), three constants
 * (J. Hartmann, Astrophys. J. 8, 218 (1898)).
 */
import { LuDecomposition, Matrix } from 'ml-matrix';
import { mean, sumOf } from '../../numeric/sum.ts';
import type { CurvePoint } from '../curve/posterior.ts';
import type { HartmannFormula } from '../types.ts';

export interface HartmannFit extends Omit<HartmannFormula, 'worstNm'> {
  /** Partial derivatives of the ordinate by λ0, C and δ0, one row a point. */
  readonly design: readonly (readonly number[])[];
  ordinateAt(wavelengthNm: number): number;
  wavelengthAt(ordinate: number): number;
}

/**
 * How far below the shortest line the pole is looked for, nm: from just short of it, through a prism's (some 200 nm) to
 * so far that the scale is as good as linear in wavelength.
 */
const BELOW_NM = { least: 15, most: 20_000, factor: 1.12 } as const;
const FINEST_STEP = 1e-12;

/**
 * Least squares of ordinate = δ0 + C/(λ - λ0), the errors being those of the readings: the best of a grid of poles,
 * then ever smaller steps about it. Null with fewer than three wavelengths, or where no pole short of the lines serves.
 */
export function fitHartmann(points: readonly CurvePoint[]): HartmannFit | null {
  if (new Set(points.map(({ wavelengthNm }) => wavelengthNm)).size < 3) return null;
  const shortest = Math.min(...points.map(({ wavelengthNm }) => wavelengthNm));
  const at = (belowNm: number): Constants | null => withPole(points, shortest - belowNm);
  let best: Constants | null = null;
  for (let below: number = BELOW_NM.least; below <= BELOW_NM.most; below *= BELOW_NM.factor) {
    const found = at(below);
    if (found !== null && (best === null || found.squares < best.squares)) best = found;
  }
  if (best === null) return null;
  const found = refined(best, shortest, at);
  const { pole, strength, level, squares } = found;
  const design = points.map(({ wavelengthNm }) => derivatives(found, wavelengthNm));
  return {
    lambda0Nm: pole,
    strength,
    ordinate0: level,
    u: uncertainties(design, squares, points.length),
    design,
    ordinateAt: (nm) => level + strength / (nm - pole),
    wavelengthAt: (ordinate) => pole + strength / (ordinate - level),
  };
}

interface Constants {
  readonly pole: number;
  readonly strength: number;
  readonly level: number;
  readonly squares: number;
}

/** One dimension is left, how far the pole lies below the lines: ever smaller steps about the best of the grid. */
function refined(start: Constants, shortest: number, at: (belowNm: number) => Constants | null): Constants {
  let best = start;
  for (let step = BELOW_NM.factor - 1; step > FINEST_STEP; step /= 2) {
    const below = shortest - best.pole;
    for (const tried of [at(below * (1 + step)), at(below / (1 + step))]) {
      if (tried !== null && tried.squares < best.squares) best = tried;
    }
  }
  return best;
}

function derivatives({ pole, strength }: Constants, nm: number): number[] {
  return [strength / (nm - pole) ** 2, 1 / (nm - pole), 1];
}

/** A straight line in 1/(λ - pole). */
function withPole(points: readonly CurvePoint[], pole: number): Constants | null {
  const x = points.map(({ wavelengthNm }) => 1 / (wavelengthNm - pole));
  const meanX = mean(x);
  const meanY = mean(points.map(({ ordinate }) => ordinate));
  const xx = sumOf(x, (value) => (value - meanX) ** 2);
  const xy = sumOf(x, (value, i) => (value - meanX) * (points[i]!.ordinate - meanY));
  if (!(xx > 0)) return null;
  const strength = xy / xx;
  const level = meanY - strength * meanX;
  const squares = sumOf(
    points,
    ({ wavelengthNm, ordinate }) => (ordinate - level - strength / (wavelengthNm - pole)) ** 2,
  );
  return { pole, strength, level, squares };
}

/** s²(F'F)^-1 with the columns scaled to one size. */
function uncertainties(
  design: readonly (readonly number[])[],
  squares: number,
  points: number,
): [number, number, number] | null {
  if (points <= 3) return null;
  const sizes = [0, 1, 2].map((k) => Math.hypot(...design.map((row) => row[k]!)));
  const scaled = new Matrix(design.map((row) => row.map((value, k) => value / sizes[k]!)));
  const normal = new LuDecomposition(scaled.transpose().mmul(scaled));
  if (normal.isSingular()) return null;
  const covariance = normal.solve(Matrix.eye(3)).mul(squares / (points - 3));
  const of = (k: number): number => Math.sqrt(covariance.get(k, k)) / sizes[k]!;
  const u: [number, number, number] = [of(0), of(1), of(2)];
  // Of a pole infinitely far away the constants are not to be told apart.
  return u.every(Number.isFinite) ? u : null;
}
