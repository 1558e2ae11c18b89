/**
 * The evidence of readings some of which may be slips: what is left of the ceiling when nobody says which. A slip may
 * take a reading past its neighbours, so there is no order to follow: the sum runs over every way to pair readings
 * with lines, by the set of the readings that are paired already.
 */
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';
import { type AlignmentModel, scenesOf } from './alignment.ts';

/** What a reading may have been, as a deviation, and how likely; together with `anywhere` and the rest they make 1. */
export interface DoubtfulReading {
  readonly places: readonly { readonly deviationArcmin: number; readonly chance: number }[];
  /** Density per arc-minute of a slip that says nothing of the place. */
  readonly anywhere: number;
}

/** Beside being a stray, a pair less likely than this is left out. */
const negligible = 1e-4;

/** Natural logarithm of the evidence of the readings for one tube. */
export function slipAlignmentEvidence(
  tube: TubeSpectrum,
  readings: readonly DoubtfulReading[],
  model: AlignmentModel,
): number {
  const [near, far] = [model.deviationAt(700), model.deviationAt(400)].sort((a, b) => a - b) as [
    number,
    number,
  ];
  const strays = readings.map(({ places, anywhere }) => {
    const inside = places.filter(({ deviationArcmin: d }) => d > near - 30 && d < far + 30);
    const chance = inside.reduce((sum, place) => sum + place.chance, 0);
    return (chance * model.strayRate) / (far - near) + anywhere + 1e-9;
  });
  const sums = new Float64Array(2 ** readings.length);
  const total = scenesOf(tube, model).reduce((sum, { groups, scenes, weight }) => {
    const pairs = groups.map((group) =>
      readings.flatMap(({ places }, i) => {
        const density = places.reduce(
          (all, { deviationArcmin, chance }) => all + chance * group.densityAt(deviationArcmin),
          0,
        );
        return density > negligible * strays[i]! ? [{ bit: 2 ** i, ratio: density / strays[i]! }] : [];
      }),
    );
    const evidence = scenes.reduce(
      (all, scene) => all + scene.weight * pairedEvidence(pairs, scene.seenChances, sums),
      0,
    );
    return sum + weight * evidence;
  }, 0);
  const logStrays = strays.reduce((sum, density) => sum + Math.log(density), 0);
  return Math.log(total + Number.MIN_VALUE) + logStrays;
}

/** Sum over all pairings, each reading that stays alone counting 1. */
export function pairedEvidence(
  pairs: readonly (readonly { bit: number; ratio: number }[])[],
  seenChances: readonly number[],
  sums: Float64Array,
): number {
  sums.fill(0);
  sums[0] = 1;
  let factor = 1;
  let reached = 0;
  pairs.forEach((own, group) => {
    const seen = seenChances[group]!;
    if (own.length === 0) {
      factor *= 1 - seen;
      return;
    }
    for (const { bit } of own) reached |= bit;
    // A set is filled from smaller ones only, so from the largest downwards nothing is used twice.
    for (let set = reached; ; set = (set - 1) & reached) {
      let sum = sums[set]! * (1 - seen);
      for (const { bit, ratio } of own) if (set & bit) sum += sums[set ^ bit]! * seen * ratio;
      sums[set] = sum;
      if (set === 0) break;
    }
  });
  let total = 0;
  for (let set = reached; ; set = (set - 1) & reached) {
    total += sums[set]!;
    if (set === 0) break;
  }
  return factor * total;
}
