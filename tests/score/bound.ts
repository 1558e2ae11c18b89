/**
 * How well a calibration curve can be known at all: the Cramér-Rao bound of a smooth curve with three constants
 * (H. L. Van Trees, Detection, Estimation, and Modulation Theory I, sections 2.4.2 and 2.4.3), and with what is
 * known of prisms beforehand the Van Trees bound for benches with fewer lines.
 */
import { inverse, Matrix } from 'ml-matrix';
import { drawPrism, minimumDeviationArcmin } from './prism.ts';
import { Random } from './random.ts';

/**
 * A prism's deviation is c0 + c1 u + c2 u² within some 0.1 to 1 arc-minutes for every catalogue glass; only its
 * tangent space matters here.
 */
const poleNm = 205;
const basisAt = (wavelengthNm: number): [number, number, number] => {
  const u = (550 - poleNm) / (wavelengthNm - poleNm);
  return [1, u, u * u];
};

const designMatrix = (wavelengthsNm: readonly number[]): Matrix => new Matrix(wavelengthsNm.map(basisAt));

/** Covariance of the curve's constants over the simulated population of prisms: what one knows before any reading. */
const priorInformation = (() => {
  const random = new Random(1);
  const grid = Array.from({ length: 31 }, (_, k) => 400 + 10 * k);
  const design = designMatrix(grid);
  const solve = inverse(design.transpose().mmul(design)).mmul(design.transpose());
  const constants = Array.from({ length: 800 }, () => {
    const prism = drawPrism(random, 'mixed');
    const deviations = grid.map((nm) => minimumDeviationArcmin(prism, nm));
    return solve.mmul(Matrix.columnVector(deviations)).to1DArray();
  });
  const centred = new Matrix(constants).subRowVector(new Matrix(constants).mean('column'));
  return inverse(centred.transpose().mmul(centred).div(constants.length));
})();

/**
 * Least variance (arcmin²) with which the curve's ordinate can be known at each of `atNm`, from readings at
 * `knownNm` of which each carries `information` (1/arcmin²). `withPrior`: with the spread of prisms known.
 */
export function leastCurveVariance(
  knownNm: readonly number[],
  information: number,
  atNm: readonly number[],
  withPrior: boolean,
): number[] {
  const design = designMatrix(knownNm);
  const fisher = design.transpose().mmul(design).mul(information);
  const covariance = inverse(withPrior ? fisher.add(priorInformation) : fisher);
  return atNm.map((nm) => {
    const basis = Matrix.columnVector(basisAt(nm));
    return basis.transpose().mmul(covariance).mmul(basis).get(0, 0);
  });
}
