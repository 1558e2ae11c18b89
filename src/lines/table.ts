/** The line table by tubes. */
import { joinedTubes, mergedSpectra } from './merge-lines.ts';
import type { TubeSpectrum } from './spectrum.ts';
import { tubeFile } from './tube-file.ts';
import { lampOnlySpectra, tubes } from './tubes.computed.ts';

export { tubes };

const tubesByName = new Map(tubes.map((tube) => [tube.substance, tube]));

/** The tube with exactly this name; `findTube` of names.ts understands other spellings. */
export function tubeNamed(substance: string): TubeSpectrum | undefined {
  return tubesByName.get(substance);
}

/** The lines that a lamp filled with these substances shows; unknown names add nothing. */
export function lampSpectrum(substances: readonly string[]): TubeSpectrum {
  const parts = substances
    .map((name) => tubeNamed(name) ?? lampOnlySpectra.find(({ substance }) => substance === name))
    .filter((tube) => tube !== undefined);
  const only = parts.length === 1 ? parts[0] : undefined;
  const { components, lines } = joinedTubes(parts);
  return (
    only ?? {
      substance: parts.map((tube) => tube.substance).join('-'),
      symbol: parts.map((tube) => tube.symbol).join('-'),
      components,
      lines: mergedSpectra(lines),
    }
  );
}

/** Two lines that a prism shows as one, with the wavelength that tables quote for the pair. */
export interface UnresolvedPair {
  readonly substance: string;
  readonly quotedNm: number;
  readonly componentsNm: readonly number[];
}

export const unresolvedPairs: readonly UnresolvedPair[] = tubeFile.unresolvedPairs;

/** Tubes whose lines turn up as traces in any tube. */
export const usualImpurities: readonly string[] = tubeFile.usualImpurities;

/** Lines of the room and of a neighbour's lamp that reach the slit. */
export const roomLight = tubeFile.roomLight;

/** The gases that a metal lamp shows in its first minutes, until the metal has evaporated. */
export function startingGases(substance: string): readonly string[] {
  return tubeFile.startingGases[substance] ?? [];
}
