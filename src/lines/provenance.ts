/** Where the line table has its rows from. Apart from the lines, so that only those who tell it load all of its text. */
import { lineFile } from './line-file.ts';
import type { LineProvenance, SpectralLine } from './spectrum.ts';

/** What stands behind a line of the table. */
export function provenanceOf({ spectrum, wavelengthNm }: SpectralLine): LineProvenance {
  const { rows, intensityScale } = lineFile.spectra.find((each) => each.spectrum === spectrum)!;
  const row = rows.find(({ nm }) => nm === wavelengthNm)!;
  return {
    relativeIntensity: row.intensity ?? null,
    intensityScale: row.intensity === undefined ? null : (row.scale ?? intensityScale),
    brightnessBasis: row.graded ?? null,
    assignment: row.assignment ?? null,
    source: row.source,
    basis: row.basis,
    doubt: row.doubt ?? null,
  };
}

/** The full citation behind a line's `source`. */
export function sourceText(source: string): string {
  return lineFile.sources[source] ?? source;
}
