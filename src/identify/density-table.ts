/** The density of a reading about its line, tabulated once for each width: it is asked for very many pairs. */
import { readingDensity, readingReach, type UnknownReading } from './unknown-reading.ts';

const STEPS = 160;
/** Variances of lines within a few per cent share a table. */
const VARIANCE_STEP = Math.log(1.1);
/** Below this variance (unit²) a line's place is as good as exact. */
const SMALLEST_VARIANCE = 1e-4;

export interface DensityTable {
  readonly reach: number;
  at(off: number): number;
}

/** Class of a line's variance, 0, 1, 2 ...: lines of one class share a table. */
export function varianceClass(variance: number): number {
  return variance <= SMALLEST_VARIANCE
    ? 0
    : Math.ceil(Math.log(variance / SMALLEST_VARIANCE) / VARIANCE_STEP);
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
    const fresh = tabulated(this.#reading, SMALLEST_VARIANCE * Math.exp(lineClass * VARIANCE_STEP));
    this.#tables[lineClass] = fresh;
    return fresh;
  }
}

/** Tables for the readings of one tube; readings alike share theirs. */
export class DensityTables {
  readonly #rows = new Map<string, DensityRow>();
  readonly #known = new WeakMap<UnknownReading, DensityRow>();

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

function tabulated(reading: UnknownReading, furtherVariance: number): DensityTable {
  const reach = readingReach(reading, furtherVariance);
  const values = Float64Array.from({ length: STEPS + 2 }, (_, i) =>
    readingDensity(reading, (i * reach) / STEPS, furtherVariance),
  );
  const scale = STEPS / reach;
  return {
    reach,
    at: (off) => {
      const position = Math.abs(off) * scale;
      if (position > STEPS) return 0;
      const index = position | 0;
      return values[index]! + (values[index + 1]! - values[index]!) * (position - index);
    },
  };
}
