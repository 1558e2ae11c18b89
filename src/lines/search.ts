/** Looking things up in the line table: by tube, by spectrum, by colour or by wavelength. */
import type { ColourName } from '../record/bench.ts';
import { colourNamed } from './colour.ts';
import { findTube } from './names.ts';
import { plainWord } from './plain-word.ts';
import type { TubeLine } from './spectrum.ts';
import { tubeNamed, tubes } from './table.ts';

export interface FoundLine {
  readonly substance: string;
  readonly line: TubeLine;
}

export type LineSearch =
  | { readonly kind: 'tube'; readonly substance: string; readonly lines: readonly TubeLine[] }
  | { readonly kind: 'spectrum'; readonly spectrum: string; readonly lines: readonly TubeLine[] }
  | { readonly kind: 'colour'; readonly colour: ColourName; readonly found: readonly FoundLine[] }
  /** Nearest first; `distanceNm` is tabulated minus asked. */
  | {
      readonly kind: 'wavelength';
      readonly wavelengthNm: number;
      readonly near: readonly (FoundLine & { readonly distanceNm: number })[];
    }
  | { readonly kind: 'nothing'; readonly suggestions: readonly string[] };

/** Lines of all tubes nearest to a wavelength, nearest first, the more prominent first among equals. */
function nearestLines(wavelengthNm: number, count = 12): (FoundLine & { distanceNm: number })[] {
  return tubes
    .flatMap(({ substance, lines }) =>
      lines.map((line) => ({ substance, line, distanceNm: line.wavelengthNm - wavelengthNm })),
    )
    .sort((a, b) => Math.abs(a.distanceNm) - Math.abs(b.distanceNm) || b.line.prominence - a.line.prominence)
    .slice(0, count);
}

/** Lines of one colour in all tubes, violet to red: what a person sees who knows nothing but the colour. */
function linesOfColour(colour: ColourName): FoundLine[] {
  return tubes
    .flatMap(({ substance, lines }) => lines.map((line) => ({ substance, line })))
    .filter(({ line }) => line.colour === colour)
    .sort((a, b) => a.line.wavelengthNm - b.line.wavelengthNm);
}

function spectrumLines(query: string): readonly [string, TubeLine[]] | null {
  const word = plainWord(query.replaceAll('+', 'plus'));
  for (const tube of tubes) {
    const lines = tube.lines.filter((line) => plainWord(line.spectrum.replaceAll('+', 'plus')) === word);
    if (lines.length > 0) return [lines[0]!.spectrum, lines];
  }
  return null;
}

/** Wavelengths that a bench record may state; far from all lines the nearest are no answer. */
const SEARCHED_NM = { shortest: 200, longest: 1200 } as const;

/** What `whichgas lines QUERY` shows: `neon`, `Hg`, `He I`, `blue-green`, `587.6`, or near names where nothing fits. */
export function searchLines(query: string): LineSearch {
  const wavelength = /^(\d+(?:[.,]\d*)?)\s*(?:nm)?$/iu.exec(query.trim())?.[1];
  if (wavelength !== undefined) {
    const wavelengthNm = Number(wavelength.replace(',', '.'));
    const isSpectrometers = wavelengthNm >= SEARCHED_NM.shortest && wavelengthNm <= SEARCHED_NM.longest;
    if (!isSpectrometers) return { kind: 'nothing', suggestions: [] };
    return { kind: 'wavelength', wavelengthNm, near: nearestLines(wavelengthNm) };
  }
  const tube = findTube(query);
  if ('substance' in tube) {
    const { substance } = tube;
    return { kind: 'tube', substance, lines: tubeNamed(substance)!.lines };
  }
  const spectrum = spectrumLines(query);
  if (spectrum !== null) return { kind: 'spectrum', spectrum: spectrum[0], lines: spectrum[1] };
  const colour = colourNamed(query);
  if (colour !== null) return { kind: 'colour', colour, found: linesOfColour(colour) };
  return { kind: 'nothing', suggestions: tube.suggestions };
}
