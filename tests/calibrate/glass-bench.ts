/**
 * Benches computed from glass constants: exact minimum deviations by the code of tests/score, rounded to the vernier.
 * Without scatter every record is the same on every machine, and what is planted in it is all that is wrong with it.
 */
import { formatAngle } from '../../src/angle/format-angle.ts';
import type { Bench } from '../../src/record/bench.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { cataloguePrism, minimumDeviationArcmin } from '../score/prism.ts';

/** Lines that school tables give, red to violet (NIST SRD 108, rounded to 0.01 nm). */
export const heliumNm = [706.52, 667.82, 587.56, 501.57, 492.19, 471.31, 447.15, 402.62] as const;
export const mercuryNm = [690.75, 623.44, 579.07, 576.96, 546.07, 491.61, 435.83, 404.66] as const;
export const neonNm = [
  650.65, 640.22, 633.44, 626.65, 614.31, 609.62, 603.0, 594.48, 585.25, 540.06,
] as const;
export const hydrogenNm = [656.28, 486.13, 434.05, 410.17] as const;

export interface GlassInstrument {
  readonly glass: string;
  readonly leastCountArcmin: number;
  readonly centralDeg: number;
  /** +1: lines at larger circle angles than the central image. */
  readonly side: 1 | -1;
}

const usual: GlassInstrument = { glass: 'F2', leastCountArcmin: 1, centralDeg: 181 + 4 / 60, side: 1 };

/** What such an instrument shows, as a person writes it. */
export class GlassReader {
  readonly #instrument: GlassInstrument;

  constructor(changes: Partial<GlassInstrument> = {}) {
    this.#instrument = { ...usual, ...changes };
  }

  deviationArcmin(wavelengthNm: number): number {
    return minimumDeviationArcmin(cataloguePrism(this.#instrument.glass, 60), wavelengthNm);
  }

  /** A line; `slipArcmin` is added after rounding, as a misreading is. */
  line(wavelengthNm: number, slipArcmin = 0): string {
    const { centralDeg, side } = this.#instrument;
    return this.text(centralDeg + (side * this.deviationArcmin(wavelengthNm)) / 60, slipArcmin);
  }

  bothSides(wavelengthNm: number, slipLeftArcmin = 0): { left: string; right: string } {
    const { centralDeg } = this.#instrument;
    const deviationDeg = this.deviationArcmin(wavelengthNm) / 60;
    return {
      left: this.text(centralDeg + deviationDeg, slipLeftArcmin),
      right: this.text(centralDeg - deviationDeg),
    };
  }

  /** The central image, or where it stands after the bench was moved. */
  central(movedArcmin = 0): string {
    return this.text(this.#instrument.centralDeg, movedArcmin);
  }

  text(directionDeg: number, slipArcmin = 0): string {
    const { leastCountArcmin } = this.#instrument;
    const counts = Math.round((directionDeg * 60) / leastCountArcmin);
    const degrees = (counts * leastCountArcmin + slipArcmin) / 60;
    return formatAngle(((degrees % 360) + 360) % 360, leastCountArcmin);
  }
}

/** A record as it would stand in a file; loosely typed, since tests also plant what no person would write. */
export type PlainRecord = Record<string, unknown>;

/** The bench of a record. Throws with the record's problems. */
export function benchOf(record: PlainRecord): Bench {
  const result = readRecord(JSON.stringify({ whichgas: 1, ...record }));
  if (result.ok) return result.bench;
  throw new Error(result.problems.map(({ place, message }) => `${place}: ${message}`).join('\n'));
}

interface LampParts {
  readonly lamp?: string;
  /** The line truly read, and what the record says of it. */
  readonly lines: readonly {
    readonly nm: number;
    readonly statedNm?: number | null;
    readonly slipArcmin?: number;
    readonly more?: PlainRecord;
  }[];
}

/** The known lamp of a record with one reading a line. */
export function knownLamp(reader: GlassReader, { lamp, lines }: LampParts): PlainRecord {
  return {
    ...(lamp === undefined ? {} : { lamp }),
    lines: lines.map(({ nm, statedNm = nm, slipArcmin = 0, more = {} }) => ({
      ...(statedNm === null ? {} : { wavelengthNm: statedNm }),
      readings: [reader.line(nm, slipArcmin)],
      ...more,
    })),
  };
}

export const linesAt = (wavelengthsNm: readonly number[]): { nm: number }[] =>
  wavelengthsNm.map((nm) => ({ nm }));

/** The unknown tube of a record with one reading a line. */
export function unknownTube(
  reader: GlassReader,
  wavelengthsNm: readonly number[],
  more: PlainRecord = {},
): PlainRecord {
  return { lines: wavelengthsNm.map((nm) => ({ readings: [reader.line(nm)] })), ...more };
}

/** A complete central-method record: helium as the known lamp unless another is given. */
export function recordOf(reader: GlassReader, parts: PlainRecord = {}, leastCount = "1'"): PlainRecord {
  return {
    instrument: { method: 'central', leastCount },
    central: [reader.central()],
    known: knownLamp(reader, { lamp: 'helium', lines: linesAt(heliumNm) }),
    ...parts,
  };
}
