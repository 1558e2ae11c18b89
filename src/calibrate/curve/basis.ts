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
  return {
    name,
    abscissa,
    constants: Array.from({ length: size }, (_, k) => `c${k}`),
    size,
    at: (wavelengthNm) => legendreValues((x(wavelengthNm) - middle) / half, size),
    slopeAt(wavelengthNm) {
      const slopes = legendreSlopes((x(wavelengthNm) - middle) / half, size);
      const factor = dxPerNm(wavelengthNm) / half;
      for (let k = 0; k < size; k += 1) slopes[k] = slopes[k]! * factor;
      return slopes;
    },
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
