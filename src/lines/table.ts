/** The line table by tubes, built from data/lines.json and data/tubes.json when the program starts. */
import { colourAt } from './colour.ts';
import { lineFile, type SpectrumRows, type TubePart, tubeFile } from './line-file.ts';
import { fitOffsets, prominences } from './prominence.ts';
import type { SpectralLine, TubeLine, TubeSpectrum } from './spectrum.ts';

/** Two entries of one tube closer than this are one line listed twice. */
const sameLineNm = 0.005;

const offsets = fitOffsets(lineFile.spectra);

function spectralLine(spectrum: SpectrumRows, index: number): SpectralLine {
  const row = spectrum.rows[index]!;
  return {
    wavelengthNm: row.nm,
    uNm: row.uNm ?? spectrum.uNm,
    spectrum: spectrum.spectrum,
    kind: spectrum.kind,
    degraded: spectrum.degraded,
    relativeIntensity: row.intensity ?? null,
    intensityScale: row.intensity === undefined ? null : (row.scale ?? spectrum.intensityScale),
    brightness: row.brightness ?? null,
    brightnessBasis: row.graded ?? null,
    colour: colourAt(row.nm),
    assignment: row.assignment ?? null,
    source: row.source,
    basis: row.basis,
    doubt: row.doubt ?? null,
  };
}

const spectraByName = new Map(
  lineFile.spectra.map((spectrum) => {
    const levels = prominences(spectrum, offsets);
    const lines = levels.map((prominence, index) => ({ ...spectralLine(spectrum, index), prominence }));
    return [spectrum.spectrum, lines] as const;
  }),
);

function partLines(part: TubePart): TubeLine[] {
  const lines = spectraByName.get(part.spectrum);
  if (lines === undefined)
    throw new Error(`data/tubes.json names a spectrum that data/lines.json lacks: ${part.spectrum}.`);
  return lines.map((line) => ({
    ...line,
    prominence: line.prominence + part.level,
    expected: part.expected,
  }));
}

/** Sorted by wavelength; of lines listed twice the more prominent stays. */
function merged(lines: readonly TubeLine[]): TubeLine[] {
  const kept: TubeLine[] = [];
  for (const line of [...lines].sort((a, b) => a.wavelengthNm - b.wavelengthNm)) {
    const last = kept.at(-1);
    if (last === undefined || line.wavelengthNm - last.wavelengthNm > sameLineNm) kept.push(line);
    else if (line.prominence > last.prominence) kept[kept.length - 1] = line;
  }
  return kept;
}

/** Every tube of the line table, in the order of data/tubes.json. */
export const tubes: readonly TubeSpectrum[] = tubeFile.tubes.map((tube) => ({
  substance: tube.substance,
  symbol: tube.symbol,
  lines: merged(tube.parts.flatMap(partLines)),
}));

const tubesByName = new Map(tubes.map((tube) => [tube.substance, tube]));

/** The tube with exactly this name; `findTube` of names.ts understands other spellings. */
export function tubeNamed(substance: string): TubeSpectrum | undefined {
  return tubesByName.get(substance);
}

/** The lines that a lamp filled with these substances shows; unknown names add nothing. */
export function lampSpectrum(substances: readonly string[]): TubeSpectrum {
  const parts = substances.map(tubeNamed).filter((tube) => tube !== undefined);
  const only = parts.length === 1 ? parts[0] : undefined;
  return (
    only ?? {
      substance: parts.map((tube) => tube.substance).join('-'),
      symbol: parts.map((tube) => tube.symbol).join('-'),
      lines: merged(parts.flatMap((tube) => tube.lines)),
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

/** The full citation behind a line's `source`. */
export function sourceText(source: string): string {
  return lineFile.sources[source] ?? source;
}
