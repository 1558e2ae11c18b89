/** Looking things up in the line table: by tube, by spectrum, by colour or by wavelength. */
import type { ColourName } from '../record/bench.ts';
import { colourNamed } from './colour.ts';
import { findTube } from './names.ts';
import { plainWord } from './plain-word.ts';
import type { TubeLine, TubeSpectrum } from './spectrum.ts';
import { tubeNamed, tubes } from './table.ts';

export interface FoundLine {
  readonly substance: string;
  readonly line: TubeLine;
}

export type LineSearch =
  | { readonly found: readonly FoundLine[] }
  /** Near names, where nothing fits. */
  | { readonly suggestions: readonly string[] };

const linesOf = ({ substance, lines }: TubeSpectrum): FoundLine[] =>
  lines.map((line) => ({ substance, line }));

/** Lines of all tubes nearest to a wavelength, nearest first, the more prominent first among equals. */
function nearestLines(wavelengthNm: number): FoundLine[] {
  const distance = ({ line }: FoundLine): number => Math.abs(line.wavelengthNm - wavelengthNm);
  return tubes
    .flatMap(linesOf)
    .sort((a, b) => distance(a) - distance(b) || b.line.prominence - a.line.prominence)
    .slice(0, MOST_NEAR);
}

/** Lines of one colour in all tubes, violet to red: what a person sees who knows nothing but the colour. */
function linesOfColour(colour: ColourName): FoundLine[] {
  return tubes
    .flatMap(linesOf)
    .filter(({ line }) => line.colour === colour)
    .sort((a, b) => a.line.wavelengthNm - b.line.wavelengthNm);
}

/** Those that the first tube with that spectrum shows of it, under the spectrum's own name; none where there is no such tube. */
function linesOfSpectrum(query: string): FoundLine[] {
  const wordOf = (spectrum: string): string => plainWord(spectrum.replaceAll('+', 'plus'));
  const isOfIt = (line: TubeLine): boolean => wordOf(line.spectrum) === wordOf(query);
  const lines = tubes.find((tube) => tube.lines.some(isOfIt))?.lines.filter(isOfIt) ?? [];
  return lines.map((line) => ({ substance: line.spectrum, line }));
}

/** Wavelengths that a bench record may state; far from all lines the nearest are no answer. */
const SEARCHED_NM = { shortest: 200, longest: 1200 } as const;
const MOST_NEAR = 12;

/** What `whichgas lines QUERY` shows: `neon`, `Hg`, `He I`, `blue-green`, `587.6`, all for "", or near names where nothing fits. */
export function searchLines(query: string): LineSearch {
  if (query === '') return { found: tubes.flatMap(linesOf) };
  const wavelength = /^(\d+(?:[.,]\d*)?)\s*(?:nm)?$/iu.exec(query.trim())?.[1];
  if (wavelength !== undefined) {
    const wavelengthNm = Number(wavelength.replace(',', '.'));
    const isSpectrometers = wavelengthNm >= SEARCHED_NM.shortest && wavelengthNm <= SEARCHED_NM.longest;
    return isSpectrometers ? { found: nearestLines(wavelengthNm) } : { suggestions: [] };
  }
  const tube = findTube(query);
  if ('substance' in tube) return { found: linesOf(tubeNamed(tube.substance)!) };
  const ofSpectrum = linesOfSpectrum(query);
  if (ofSpectrum.length > 0) return { found: ofSpectrum };
  const colour = colourNamed(query);
  return colour === null ? { suggestions: tube.suggestions } : { found: linesOfColour(colour) };
}
