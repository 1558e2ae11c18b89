/** The density of a reading about its line, tabulated once for each width: it is asked for very many pairs. */
import { readingDensity, readingReach, type UnknownReading } from './unknown-reading.ts';

const STEPS = 160;
/** Variances within a few per cent share a table. */
const VARIANCE_STEP = Math.log(1.06);

export interface DensityTable {
  readonly reach: number;
  at(off: number): number;
}

/** Tables for the readings of one tube. */
export class DensityTables {
  /** By half count, then by step of the variance. */
  readonly #tables = new Map<number, Map<number, DensityTable>>();

  /** `furtherVariance`: of the line's place, unit². */
  table(reading: UnknownReading, furtherVariance: number): DensityTable {
    const step = Math.round(Math.log(reading.variance + furtherVariance) / VARIANCE_STEP);
    let tables = this.#tables.get(reading.halfCount);
    if (!tables) {
      tables = new Map();
      this.#tables.set(reading.halfCount, tables);
    }
    const known = tables.get(step);
    if (known) return known;
    const fresh = tabulated(reading, Math.exp(step * VARIANCE_STEP) - reading.variance);
    tables.set(step, fresh);
    return fresh;
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
