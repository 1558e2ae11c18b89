/** The density of a reading about its line, tabulated once for each width: it is asked for very many pairs. */
import { readingDensity, readingReach, type UnknownReading } from '../bench/unknown-reading.ts';

const STEPS = 80;
/** Variances of lines within a few per cent share a table. */
const VARIANCE_STEP = Math.log(1.1);
/** Below this variance (unit²) a line's place is as good as exact. */
const SMALLEST_VARIANCE = 1e-4;

/** Class of a line's variance, 0, 1, 2 ...: lines of one class share a table. */
export function varianceClass(variance: number): number {
  return variance <= SMALLEST_VARIANCE
    ? 0
    : Math.ceil(Math.log(variance / SMALLEST_VARIANCE) / VARIANCE_STEP);
}

/** The density about a line by the distance from it, interpolated; what is not asked for is not worked out. */
export class DensityTable {
  readonly reach: number;
  readonly #reading: UnknownReading;
  readonly #furtherVariance: number;
  readonly #stepsPerUnit: number;
  /** NaN: not asked for yet. */
  readonly #values = new Float64Array(STEPS + 2).fill(Number.NaN);

  constructor(reading: UnknownReading, furtherVariance: number) {
    this.#reading = reading;
    this.#furtherVariance = furtherVariance;
    this.reach = readingReach(reading, furtherVariance);
    this.#stepsPerUnit = STEPS / this.reach;
  }

  /** 0 beyond the reach. */
  at(off: number): number {
    const position = Math.abs(off) * this.#stepsPerUnit;
    if (position > STEPS) return 0;
    const index = position | 0;
    const lower = this.#values[index]!;
    const between = lower + (this.#values[index + 1]! - lower) * (position - index);
    return Number.isNaN(between) ? this.#workedOut(position) : between;
  }

  /** The density at a position of the table, once the values on both sides of it are known. */
  #workedOut(position: number): number {
    const index = position | 0;
    for (const k of [index, index + 1])
      this.#values[k] = readingDensity(this.#reading, (k * this.reach) / STEPS, this.#furtherVariance);
    const lower = this.#values[index]!;
    return lower + (this.#values[index + 1]! - lower) * (position - index);
  }
}

/** Tables of one kind of reading, by the class of the line's variance. */
export class DensityRow {
  readonly #reading: UnknownReading;
  readonly #tables: DensityTable[] = [];

  constructor(reading: UnknownReading) {
    this.#reading = reading;
  }

  table(lineClass: number): DensityTable {
    const known = this.#tables[lineClass];
    if (known) return known;
    const fresh = new DensityTable(this.#reading, SMALLEST_VARIANCE * Math.exp(lineClass * VARIANCE_STEP));
    this.#tables[lineClass] = fresh;
    return fresh;
  }
}

/** Tables for the readings of one tube; readings alike share theirs. */
export class DensityTables {
  readonly #rows = new Map<string, DensityRow>();
  readonly #known = new Map<UnknownReading, DensityRow>();

  row(reading: UnknownReading): DensityRow {
    const known = this.#known.get(reading);
    if (known) return known;
    const kind = `${reading.halfCount}:${reading.variance}`;
    const row = this.#rows.get(kind) ?? new DensityRow(reading);
    this.#rows.set(kind, row);
    this.#known.set(reading, row);
    return row;
  }
}
