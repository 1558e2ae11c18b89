/** What a reading's notes - colour, brightness - say of each line of a tube. */
import { colourLogLikelihood } from '../../lines/colour-likelihood.ts';
import type { BenchLine } from '../../record/bench.ts';
import type { ModelLine } from './expected-lines.ts';
import { brightnessLog } from './outlier-readings.ts';

/** Factors by which the notes of one reading change the densities at lines; each worked out when first asked for. */
export class NoteFactors {
  readonly #reading: BenchLine;
  readonly #lines: readonly ModelLine[];
  /** NaN: not asked for yet. */
  readonly #factors: Float64Array;

  constructor(reading: BenchLine, lines: readonly ModelLine[]) {
    this.#reading = reading;
    this.#lines = lines;
    this.#factors = new Float64Array(lines.length).fill(Number.NaN);
  }

  at(j: number): number {
    const known = this.#factors[j]!;
    if (!Number.isNaN(known)) return known;
    const { wavelengthNm, prominence } = this.#lines[j]!;
    const log =
      colourLogLikelihood(this.#reading.colour, wavelengthNm) + brightnessLog(this.#reading, prominence);
    const fresh = Math.exp(log);
    this.#factors[j] = fresh;
    return fresh;
  }
}

/** Is a colour or a brightness written beside the line? */
export function hasNotes(line: BenchLine): boolean {
  return line.colour !== null || line.brightness !== null;
}
