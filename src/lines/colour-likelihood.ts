/** What a colour noted at a line says of its wavelength. */
import type { ColourName } from '../record/bench.ts';
import { colourRangeNm } from './colour.ts';

/** Students differ about colour names by some 12 nm, standard deviation (common practice, no source). */
const SOFTNESS_NM = 12;
/** ln of the chance that a colour word is altogether wrong: such a word alone does not rule out a line. */
const WRONG_WORD = -5;

/** ln likelihood of the colour noted, if the line is at this wavelength; 0 within its range and without a colour. */
export function colourLogLikelihood(colour: ColourName | null, wavelengthNm: number): number {
  if (colour === null) return 0;
  const { fromNm, toNm } = colourRangeNm(colour);
  const off = Math.max(fromNm - wavelengthNm, wavelengthNm - toNm, 0);
  return Math.max(-0.5 * (off / SOFTNESS_NM) ** 2, WRONG_WORD);
}
