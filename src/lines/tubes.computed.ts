/** The lines of every tube, from data/lines.json and data/tubes.json; the build computes them (esbuild.config.mjs). */
import { colourAt } from './colour.ts';
import { lineFile, type SpectrumRows } from './line-file.ts';
import { mergedSpectra } from './merge-lines.ts';
import { fitOffsets, prominences } from './prominence.ts';
import type { SpectralLine, TubeLine, TubeSpectrum } from './spectrum.ts';
import { type TubePart, tubeFile } from './tube-file.ts';

const offsets = fitOffsets(lineFile.spectra);

function spectralLine(spectrum: SpectrumRows, index: number): SpectralLine {
  const row = spectrum.rows[index]!;
  return {
    wavelengthNm: row.nm,
    uNm: row.uNm ?? spectrum.uNm,
    spectrum: spectrum.spectrum,
    kind: spectrum.kind,
    degraded: spectrum.degraded,
    brightness: row.brightness ?? null,
    colour: colourAt(row.nm),
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

/** Every tube of the line table, in the order of data/tubes.json. */
export const tubes: readonly TubeSpectrum[] = tubeFile.tubes.map((tube) => ({
  substance: tube.substance,
  symbol: tube.symbol,
  lines: mergedSpectra(tube.parts.flatMap(partLines)),
}));
