/** What a reading's notes - colour, brightness - say of each line of a tube. */
import { colourLogLikelihood } from '../../lines/colour-likelihood.ts';
import { wordRange } from '../../lines/grade-prominence.ts';
import type { BrightnessWord } from '../../lines/spectrum.ts';
import { normalCdf } from '../../numeric/normal.ts';
import type { BenchLine } from '../../record/bench.ts';
import { NOTED_BRIGHTNESS } from '../assumptions.ts';
import type { LineOnCurve } from './expected-lines.ts';

/** Factors by which the notes of one reading change the densities at lines; each worked out when first asked for. */
export class NoteFactors {
  readonly #reading: BenchLine;
  readonly #lines: readonly NotedLine[];
  /** NaN: not asked for yet. */
  readonly #factors: Float64Array;

  constructor(reading: BenchLine, lines: readonly NotedLine[]) {
    this.#reading = reading;
    this.#lines = lines;
    this.#factors = new Float64Array(lines.length).fill(Number.NaN);
  }

  at(j: number): number {
    const known = this.#factors[j]!;
    if (!Number.isNaN(known)) return known;
    const { brightness, colour } = this.#reading;
    const line = this.#lines[j]!;
    const log = colourLogLikelihood(colour, line.wavelengthNm) + brightnessLog(brightness, line);
    const fresh = Math.exp(log);
    this.#factors[j] = fresh;
    return fresh;
  }
}

/** Is a colour or a brightness written beside the line? */
export function hasNotes(line: BenchLine): boolean {
  return line.colour !== null || line.brightness !== null;
}

/** What is known of the brightness of a line that a note is compared with. */
type NotedLine = Pick<LineOnCurve, 'wavelengthNm' | 'prominence' | 'prominenceSd' | 'strengthSd'>;

/**
 * ln likelihood of the brightness noted, against that of any line; 0 without one. The scatter of the word, what is not
 * known of the line, and of its component's strength all widen what a word may mean: of a line whose brightness is a
 * guess it says little.
 */
export function brightnessLog(word: BrightnessWord | null, line: Omit<NotedLine, 'wavelengthNm'>): number {
  if (word === null) return 0;
  const { scatter, wrongWord, share } = NOTED_BRIGHTNESS;
  const spread = Math.hypot(scatter, line.prominenceSd, line.strengthSd);
  const [lowest, highest] = wordRange(word);
  const fitting =
    normalCdf((highest - line.prominence) / spread) - normalCdf((lowest - line.prominence) / spread);
  return Math.log(((1 - wrongWord) * fitting) / share[word] + wrongWord);
}
