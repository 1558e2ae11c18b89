/** Functions of wavelength in which a calibration curve is a sum of few terms. */

/** Ordinate(λ) = Σ c_k f_k(λ). */
export interface CurveBasis {
  readonly name: string;
  /** What the abscissa is, for the written-out formula. */
  readonly abscissa: string;
  /** Names of the constants, in order. */
  readonly constants: readonly string[];
  readonly size: number;
  /** Values of the functions at a wavelength, nm. */
  at(wavelengthNm: number): readonly number[];
  /** Their derivatives per nm. */
  slopeAt(wavelengthNm: number): readonly number[];
  /** The curve with these constants at a wavelength: Σ c_k f_k(λ). Curves are asked very often, so no list is made. */
  curveAt(constants: readonly number[], wavelengthNm: number): number;
  /** Its derivative per nm. */
  curveSlopeAt(constants: readonly number[], wavelengthNm: number): number;
}

/** Range over which abscissae are scaled to [-1, 1], nm: a convention of this basis, no statement of what is visible. */
export const SCALED_NM = { shortest: 390, longest: 720 } as const;

/** Number of constants of a prism curve, level and dispersion included. */
export const PRISM_CONSTANTS = 5;

/**
 * The pole of the abscissa h = 1/(λ - λ0). With 220 nm the deviation curves of the catalogue glasses are
 * straight to 3 % of their rise or better (found by trying 100-260 nm on the glasses of data/glasses.json);
 * Hartmann's formula (J. Hartmann, Astrophys. J. 8, 218 (1898)) frees this constant for each prism.
 */
const PRISM_POLE_NM = 220;

/** Legendre polynomials P0, P1 ... of an abscissa scaled to [-1, 1]; two of them at least. */
function legendreValues(x: number, size: number): number[] {
  const values = [1, x];
  for (let k = 2; k < size; k += 1)
    values.push(((2 * k - 1) * x * values[k - 1]! - (k - 1) * values[k - 2]!) / k);
  return values;
}

/** Their derivatives with respect to it. */
function legendreSlopes(x: number, size: number): number[] {
  const values = legendreValues(x, size);
  const slopes = [0, 1];
  for (let k = 2; k < size; k += 1) slopes.push(slopes[k - 2]! + (2 * k - 1) * values[k - 1]!);
  return slopes;
}

/** Σ c_k P_k(x). */
function legendreSum(constants: readonly number[], x: number): number {
  let before = 1;
  let value = x;
  let sum = constants[0]! + value * constants[1]!;
  for (let k = 2; k < constants.length; k += 1) {
    const next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
    before = value;
    value = next;
    sum += value * constants[k]!;
  }
  return sum;
}

/** Its derivative with respect to x, times `factor`. */
function legendreSlopeSum(constants: readonly number[], x: number, factor: number): number {
  let before = 1;
  let value = x;
  let slopeBefore = 0;
  let slope = 1;
  let sum = factor * constants[1]!;
  for (let k = 2; k < constants.length; k += 1) {
    const nextSlope = slopeBefore + (2 * k - 1) * value;
    slopeBefore = slope;
    slope = nextSlope;
    sum += slope * factor * constants[k]!;
    const next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
    before = value;
    value = next;
  }
  return sum;
}

function legendreBasis(
  name: string,
  abscissa: string,
  size: number,
  x: (wavelengthNm: number) => number,
  dxPerNm: (wavelengthNm: number) => number,
): CurveBasis {
  const low = x(SCALED_NM.longest);
  const high = x(SCALED_NM.shortest);
  const middle = (low + high) / 2;
  const half = (high - low) / 2;
  const scaled = (wavelengthNm: number): number => (x(wavelengthNm) - middle) / half;
  return {
    name,
    abscissa,
    constants: Array.from({ length: size }, (_, k) => `c${k}`),
    size,
    at: (wavelengthNm) => legendreValues(scaled(wavelengthNm), size),
    slopeAt(wavelengthNm) {
      const slopes = legendreSlopes(scaled(wavelengthNm), size);
      const factor = dxPerNm(wavelengthNm) / half;
      for (let k = 0; k < size; k += 1) slopes[k] = slopes[k]! * factor;
      return slopes;
    },
    curveAt: (constants, wavelengthNm) => legendreSum(constants, scaled(wavelengthNm)),
    curveSlopeAt: (constants, wavelengthNm) =>
      legendreSlopeSum(constants, scaled(wavelengthNm), dxPerNm(wavelengthNm) / half),
  };
}

/** Deviation of a prism: Legendre polynomials of h = 1/(λ - 220 nm), so that c1 is half the rise from red to violet. */
export const prismBasis: CurveBasis = legendreBasis(
  'prism curve',
  'x = 1/(λ - 220 nm), scaled so that 720 nm is -1 and 390 nm is +1',
  PRISM_CONSTANTS,
  (nm) => 1 / (nm - PRISM_POLE_NM),
  (nm) => -1 / (nm - PRISM_POLE_NM) ** 2,
);
