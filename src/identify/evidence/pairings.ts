/** Every pair of a tube's reading and a line near it, at any place of the common error. */
import type { UnknownReading } from '../bench/unknown-reading.ts';
import type { ModelLine } from '../spectrum/expected-lines.ts';
import type { NoteFactors } from '../spectrum/notes.ts';
import type { SeenThrough } from '../spectrum/spectra-through.ts';
import type { PairingList, Pairings } from './alignment.ts';
import type { DensityRow, DensityTables } from './density-table.ts';
import type { ReadingLikelihoods } from './reading-likelihood.ts';
import type { WorkAllowance } from './work-allowance.ts';

/** The place of a line at a node of the common error. */
export function placeAt(line: ModelLine, node: readonly number[]): number {
  let place = line.ordinate;
  for (let k = 0; k < node.length; k += 1) place += node[k]! * line.modes[k]!;
  return place;
}

/** What a look at a pair costs, in steps of a sum over alignments (measured). */
const COST_OF_A_LOOK = 2;

interface LookedUp {
  readonly ordinate: number;
  readonly stray: number;
  readonly row: DensityRow;
  /** How far from the reading the widest of the lines can lie. */
  readonly reach: number;
  readonly notes: NoteFactors | null;
}

/** What all pairs of a tube are made from. */
interface PairingSource {
  readonly readings: readonly UnknownReading[];
  readonly densities: DensityTables;
  readonly allowance: WorkAllowance;
  readonly pairingList: PairingList;
}

/** The pairs of one tube through one view of the bench: what is the same at every place of the common error is looked up once. */
export class PairingsOfView {
  readonly #readings: readonly LookedUp[];
  readonly #classes: readonly number[];
  readonly #ordinates: readonly number[];
  /** Of each mode, what it shifts each line by. */
  readonly #modes: readonly (readonly number[])[];
  readonly #places: number[];
  readonly #allowance: WorkAllowance;
  readonly #list: PairingList;

  constructor(
    { places, widest, notes }: Pick<SeenThrough, 'places' | 'widest' | 'notes'>,
    { densities: known }: ReadingLikelihoods,
    { readings, densities, allowance, pairingList }: PairingSource,
  ) {
    this.#classes = places.varianceClasses;
    this.#ordinates = places.ordinates;
    this.#modes = places.modes;
    this.#places = [...places.ordinates];
    this.#allowance = allowance;
    this.#list = pairingList;
    this.#readings = readings.map((reading) => {
      const row = densities.row(reading);
      return {
        ordinate: reading.ordinate,
        stray: known.get(reading)!.stray,
        row,
        reach: row.table(widest).reach,
        notes: notes(reading.line),
      };
    });
  }

  /** In space shared with all that use the same list: they stand until the next are asked for. */
  at(node: readonly number[]): Pairings {
    const places = this.#places;
    const classes = this.#classes;
    const list = this.#list;
    const count = places.length;
    const ordinates = this.#ordinates;
    for (let j = 0; j < count; j += 1) places[j] = ordinates[j]!;
    for (let k = 0; k < node.length; k += 1) {
      const mode = this.#modes[k]!;
      const z = node[k]!;
      for (let j = 0; j < count; j += 1) places[j]! += z * mode[j]!;
    }
    list.clear();
    let first = 0;
    let looks = count;
    for (const { ordinate, stray, row, reach, notes } of this.#readings) {
      while (first < count && places[first]! < ordinate - reach) first += 1;
      for (let j = first; j < count && places[j]! - ordinate <= reach; j += 1) {
        looks += 1;
        const density = row.table(classes[j]!).at(ordinate - places[j]!);
        if (density > 0) list.add(j, (density * (notes?.at(j) ?? 1)) / stray);
      }
      list.endReading();
    }
    this.#allowance.spend(COST_OF_A_LOOK * looks + this.#readings.length);
    return list.pairings();
  }
}
