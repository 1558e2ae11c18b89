/**
 * The errors that all readings of a bench share: the curve's constants, a central image read anew. They are ONE
 * error, not many: the largest modes are integrated over, what is left is added to each line.
 */
import { remembered } from '../../numeric/remembered.ts';
import { sumOf } from '../../numeric/sum.ts';
import { eigenSymmetric } from '../../numeric/symmetric.ts';
import { MODE_REACH, MOST_MODE_STEPS, WORTH_A_MODE } from '../assumptions.ts';

export interface CommonMode {
  /** Standard deviation of the mode at a wavelength, with its sign, unit of the ordinate. */
  at(wavelengthNm: number): number;
}

export interface CommonError {
  readonly modes: readonly CommonMode[];
  /** Places in the space of the modes, in standard deviations, with ln weights; one place when there is no mode. */
  readonly nodes: readonly { readonly z: readonly number[]; readonly logWeight: number }[];
  /** Variance that the modes and nodes leave at a wavelength, unit². */
  residualVariance(wavelengthNm: number): number;
}

/** `covariance`: of the common error at two wavelengths; `placesNm`: where the readings lie; `u`: of one reading. */
export function commonError(
  covariance: (firstNm: number, secondNm: number) => number,
  placesNm: readonly number[],
  u: number,
): CommonError {
  const n = placesNm.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1)
    for (let j = 0; j < n; j += 1) matrix[i * n + j] = covariance(placesNm[i]!, placesNm[j]!);
  const { values, vectors } = eigenSymmetric(matrix, n);
  const kept = values.slice(0, 2).filter((value) => value > 0 && Math.sqrt(value / n) > WORTH_A_MODE * u);
  const modes = kept.map((value, k): CommonMode => {
    const vector = vectors[k]!;
    const root = Math.sqrt(value);
    // Asked for twice at every wavelength: by itself, and for what the modes leave.
    const known = new Map<number, number>();
    const at = (nm: number) => sumOf(placesNm, (place, i) => (covariance(nm, place) * vector[i]!) / root);
    return { at: (nm) => remembered(known, nm, () => at(nm)) };
  });
  const axes = kept.map((value, k) => axis(Math.sqrt(value / n) / u, MOST_MODE_STEPS[k]!));
  const nodes = axes.reduce<{ z: number[]; logWeight: number }[]>(
    (grid, { places }) =>
      grid.flatMap(({ z, logWeight }) =>
        places.map((place) => ({ z: [...z, place.z], logWeight: logWeight + Math.log(place.weight) })),
      ),
    [{ z: [], logWeight: 0 }],
  );
  return {
    modes,
    nodes,
    residualVariance: (nm) => {
      const explained = sumOf(modes, (mode, k) => mode.at(nm) ** 2 * (1 - axes[k]!.cellVariance));
      return Math.max(0, covariance(nm, nm) - explained);
    },
  };
}

/** Evenly spaced places with normal weights, as dense as a mode of this relative size needs. */
function axis(
  relativeSize: number,
  most: number,
): { places: { z: number; weight: number }[]; cellVariance: number } {
  const wanted = 1 + 2 * Math.ceil((MODE_REACH * relativeSize) / 1.5);
  const count = Math.min(most, Math.max(3, wanted));
  const step = (2 * MODE_REACH) / (count - 1);
  const raw = Array.from({ length: count }, (_, i) => -MODE_REACH + i * step).map((z) => ({
    z,
    weight: Math.exp((-z * z) / 2),
  }));
  const total = sumOf(raw, ({ weight }) => weight);
  const places = raw.map(({ z, weight }) => ({ z, weight: weight / total }));
  // The nodes carry this much of the unit variance; each stands for a cell, which carries the rest.
  const carried = sumOf(places, ({ z, weight }) => weight * z * z);
  return { places, cellVariance: Math.max(0.02, 1 - carried) };
}
