/**
 * A bench that was moved between lamp and tube shifts all readings of the tube alike, by any amount: which shifts
 * would bring them to the lines of some tube? The search is quick and coarse; what it finds is weighed in full.
 */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { logAdd } from '../../numeric/log-sum.ts';
import { logNormalDensity } from '../../numeric/normal.ts';
import { remembered } from '../../numeric/remembered.ts';
import {
  FEWEST_TO_FIND_A_SHIFT,
  LEAST_ODDS,
  MET_WITHIN,
  MOST_READINGS_OF_A_SHIFT,
  MOST_SHIFT_STEPS,
  MOST_SHIFTS,
  MOST_SHIFTS_OF_A_TUBE,
  NEGLIGIBLE_SHIFT,
  OUTLIERS_OF_A_SHIFT,
  SHIFT_SPREAD,
  SMALLEST_SHIFT,
} from '../assumptions.ts';
import { alignmentLogRatio, alignmentWork, PairingList } from './alignment.ts';
import { type Evidence, typicalDetection } from './candidate-evidence.ts';

/** A bench moved between lamp and tube without anyone reading the central image anew: how often, and by how much. */
export interface ShiftPrior {
  /** Knocked: a normal shift. */
  readonly moved: { readonly chance: number; readonly sd: number };
  /** Turned or set anew: anything up to `reach`, either way. */
  readonly turned: { readonly chance: number; readonly reach: number };
}

/** One shift of all readings against the calibration, with what it may be about that. Unit of the ordinate. */
export interface LikelyShift {
  readonly shift: number;
  readonly sd: number;
  /** ln prior of all shifts that it stands for. */
  readonly logPrior: number;
}

/** Shifts likely enough to be weighed, likeliest first; none where the readings are understood better as they stand. */
export function likelyShifts(
  candidates: readonly TubeSpectrum[],
  evidence: Evidence,
  prior: ShiftPrior,
): LikelyShift[] {
  if (evidence.readings.length < FEWEST_TO_FIND_A_SHIFT) return [];
  const search = new ShiftSearch(evidence, prior.turned.reach);
  const sd = SHIFT_SPREAD * search.u;
  // What the readings come to as they stand, or with a central reading put right.
  const likeliestByShift = new Map<number, number>();
  for (const { view } of evidence.allLikelihoods)
    likeliestByShift.set(
      view.shift,
      Math.max(view.logWeight, likeliestByShift.get(view.shift) ?? Number.NEGATIVE_INFINITY),
    );
  let asTheyStand = Number.NEGATIVE_INFINITY;
  for (const [shift, logWeight] of likeliestByShift)
    for (const tube of candidates) asTheyStand = Math.max(asTheyStand, logWeight + search.logAt(tube, shift));
  const found = candidates.flatMap((tube) =>
    search.likeliest(tube).flatMap(({ shift, bound }) => {
      const logPrior = logPriorOf(shift, sd, prior);
      if (Math.abs(shift) < SMALLEST_SHIFT * search.u || bound + logPrior < asTheyStand - NEGLIGIBLE_SHIFT)
        return [];
      const log = search.logAt(tube, shift) + logPrior;
      return log < asTheyStand - NEGLIGIBLE_SHIFT ? [] : [{ shift, logPrior, log }];
    }),
  );
  const chosen: LikelyShift[] = [];
  for (const { shift, logPrior } of found.sort((a, b) => b.log - a.log)) {
    if (chosen.length === MOST_SHIFTS) break;
    if (chosen.some((other) => Math.abs(other.shift - shift) < sd)) continue;
    chosen.push({ shift, sd, logPrior });
  }
  return chosen;
}

/** ln prior of the shifts about one, weighed as a normal density of this sd weighs them. */
function logPriorOf(shift: number, sd: number, { moved, turned }: ShiftPrior): number {
  const density = logAdd(
    Math.log(moved.chance) + logNormalDensity(shift, moved.sd ** 2),
    Math.log(turned.chance / (2 * turned.reach)),
  );
  return density + Math.log(sd * Math.sqrt(2 * Math.PI));
}

interface SearchedReading {
  readonly ordinate: number;
  readonly variance: number;
}

/** The density of readings about a line, relative to that of an outlier, in steps of the search. */
interface LineProfile {
  /** A reading at ordinate y is on the line at step y / step - place. */
  readonly place: number;
  readonly halfWidth: number;
  readonly height: number;
  /** ln of the density falls by this times the square of the distance. */
  readonly narrowness: number;
  readonly slowing: number;
}

/** Products above this are scaled down. */
const HEAVY = 1e150;

/** How well tubes explain the readings at a shift, with one resolution and one way of looking. */
class ShiftSearch {
  /** Standard uncertainty of the best reading. */
  readonly u: number;
  readonly #evidence: Evidence;
  readonly #readings: readonly SearchedReading[];
  /** Density of a reading that is no line of the tube, per unit of the ordinate. */
  readonly #outlier: number;
  readonly #step: number;
  readonly #steps: number;
  readonly #middle: number;
  /** Of each step, of all readings and of one; used for one tube after the other. */
  readonly #product: Float64Array;
  readonly #ratio: Float64Array;
  readonly #list = new PairingList();
  readonly #work = alignmentWork();

  constructor(evidence: Evidence, reach: number) {
    const { readings, allLikelihoods } = evidence;
    const most = Math.min(readings.length, MOST_READINGS_OF_A_SHIFT);
    const taken = Array.from({ length: most }, (_, i) => readings[Math.floor((i * readings.length) / most)]!);
    this.#readings = taken.map(({ ordinate, totalVariance }) => ({ ordinate, variance: totalVariance }));
    this.u = Math.sqrt(Math.min(...this.#readings.map(({ variance }) => variance)));
    this.#evidence = evidence;
    this.#step = Math.max(this.u, (2 * reach) / MOST_SHIFT_STEPS);
    this.#middle = Math.ceil(reach / this.#step);
    this.#steps = 2 * this.#middle + 1;
    this.#product = new Float64Array(this.#steps);
    this.#ratio = new Float64Array(this.#steps);
    const { curve } = allLikelihoods[0]!.view;
    const [shortest, longest] = curve.domainNm;
    this.#outlier = OUTLIERS_OF_A_SHIFT / Math.abs(curve.ordinateAt(longest) - curve.ordinateAt(shortest));
  }

  /** ln evidence of a tube at a shift, relative to all readings being outliers. */
  logAt(tube: TubeSpectrum, shift: number): number {
    const { ordinates, variances, widest, odds, logAllMissed, offset } = this.#seen(tube);
    const list = this.#list;
    list.clear();
    let first = 0;
    for (const { ordinate, variance } of this.#readings) {
      const place = ordinate - shift + offset;
      const reach = MET_WITHIN * Math.sqrt(variance + widest);
      while (first < ordinates.length && ordinates[first]! < place - reach) first += 1;
      for (let j = first; j < ordinates.length && ordinates[j]! <= place + reach; j += 1) {
        const density = Math.exp(logNormalDensity(place - ordinates[j]!, variance + variances[j]!));
        list.add(j, density / this.#outlier);
      }
      list.endReading();
    }
    return logAllMissed + alignmentLogRatio(list.pairings(), odds, this.#work);
  }

  /**
   * The shifts that bring most readings to bright lines of a tube. With each reading counted by itself, whatever the
   * order of the lines, the ln evidence there is bounded.
   */
  likeliest(tube: TubeSpectrum): { readonly shift: number; readonly bound: number }[] {
    const { ordinates, variances, odds, logAllMissed, offset } = this.#seen(tube);
    const bright = ordinates
      .map((ordinate, j) => ({ place: ordinate - offset, variance: variances[j]!, odds: odds[j]! }))
      .filter((line) => line.odds > LEAST_ODDS);
    const profiles = new Map<number, readonly LineProfile[]>();
    const product = this.#product.fill(1);
    const ratio = this.#ratio;
    let logScale = 0;
    for (const { ordinate, variance } of this.#readings) {
      // Most readings are as uncertain as others.
      const own = remembered(profiles, variance, () => bright.map((line) => this.#profile(line, variance)));
      for (const { place, halfWidth, height, narrowness, slowing } of own) {
        const at = ordinate / this.#step - place;
        const [first, last] = this.#stepsWithin(at, halfWidth);
        if (first > last) continue;
        // A normal density from step to step, without an exponential for each: its ratio changes by a constant ratio.
        let density = height * Math.exp(narrowness * (first - at) ** 2);
        let growth = Math.exp(narrowness * (2 * (first - at) + 1));
        for (let k = first; k <= last; k += 1) {
          ratio[k]! += density;
          density *= growth;
          growth *= slowing;
        }
      }
      let most = 0;
      // A logarithm for each reading and step would cost more than all else here. Few steps are near a line: the others
      // keep their product, and one that is near two lines has given its ratio away when it is met again.
      for (const { place, halfWidth } of own) {
        const [first, last] = this.#stepsWithin(ordinate / this.#step - place, halfWidth);
        for (let k = first; k <= last; k += 1) {
          product[k]! *= 1 + ratio[k]!;
          ratio[k] = 0;
          if (product[k]! > most) most = product[k]!;
        }
      }
      if (most < HEAVY) continue;
      for (let k = 0; k < this.#steps; k += 1) product[k]! /= HEAVY;
      logScale += Math.log(HEAVY);
    }
    const peaks: number[] = [];
    for (let k = 1; k < this.#steps - 1; k += 1)
      if (product[k]! >= product[k - 1]! && product[k]! > product[k + 1]!) peaks.push(k);
    return peaks
      .sort((a, b) => product[b]! - product[a]!)
      .slice(0, MOST_SHIFTS_OF_A_TUBE)
      .map((k) => ({
        shift: (k - this.#middle) * this.#step,
        bound: logAllMissed + logScale + Math.log(product[k]!),
      }));
  }

  /** The first and the last step of the search that are so near; the last before the first where none is. */
  #stepsWithin(at: number, halfWidth: number): readonly [number, number] {
    return [Math.max(0, Math.ceil(at - halfWidth)), Math.min(this.#steps - 1, Math.floor(at + halfWidth))];
  }

  #profile(line: { place: number; variance: number; odds: number }, variance: number): LineProfile {
    const total = variance + line.variance + this.#step ** 2 / 12;
    const narrowness = (-0.5 * this.#step ** 2) / total;
    return {
      place: line.place / this.#step - this.#middle,
      halfWidth: (MET_WITHIN * Math.sqrt(total)) / this.#step,
      height: line.odds / (this.#outlier * Math.sqrt(2 * Math.PI * total)),
      narrowness,
      slowing: Math.exp(2 * narrowness),
    };
  }

  /** Lines through the likeliest understanding of the bench; `offset`: the shift that they have in it. */
  #seen(tube: TubeSpectrum) {
    const { view } = this.#evidence.allLikelihoods[0]!;
    const seen = this.#evidence.spectra.through(tube, view, this.#evidence.resolutions[0]!);
    const { odds, logAllMissed } = typicalDetection(seen);
    const { ordinates, variances } = seen.places;
    const widest = variances.reduce((most, variance) => Math.max(most, variance), 0);
    return { ordinates, variances, widest, odds, logAllMissed, offset: view.shift };
  }
}
