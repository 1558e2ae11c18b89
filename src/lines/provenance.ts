/** Where the line table has its rows from. Apart from the lines, so that only those who tell it load all of its text. */
import { type LineRow, lineFile } from './line-file.ts';
import type { BrightnessBasis, BrightnessWitnesses, LineProvenance, SpectralLine } from './spectrum.ts';
import { brightnessWitnesses } from './tubes.computed.ts';

const nobody: BrightnessWitnesses = {
  laboratories: 0,
  published: 0,
  unnamed: 0,
  practice: 0,
  readIn: 0,
  readOf: 0,
};

/** What stands behind a line of the table. */
export function provenanceOf({ spectrum, wavelengthNm, isSupposedFainter }: SpectralLine): LineProvenance {
  const { rows, intensityScale } = lineFile.spectra.find((each) => each.spectrum === spectrum)!;
  const row = rows.find(({ nm }) => nm === wavelengthNm)!;
  const witnesses = brightnessWitnesses[`${spectrum} ${wavelengthNm}`] ?? nobody;
  return {
    relativeIntensity: row.intensity ?? null,
    intensityScale: row.intensity === undefined ? null : (row.scale ?? intensityScale),
    brightnessBasis: isSupposedFainter ? 'practice' : basisOf(row, witnesses),
    brightnessWitnesses: witnesses,
    assignment: row.assignment ?? null,
    source: row.source,
    basis: row.basis,
    doubt: row.doubt ?? null,
  };
}

function basisOf(row: LineRow, witnesses: BrightnessWitnesses): BrightnessBasis {
  const { laboratories, published, unnamed, practice, readOf } = witnesses;
  if (laboratories > 0) return 'measured';
  if (published > 0) return 'published';
  if (readOf > 0) return 'read counts';
  if (unnamed > 0) return 'unnamed source';
  if (practice > 0) return 'practice';
  if (row.brightness !== undefined) return 'memory';
  return row.intensity !== undefined ? 'intensity' : 'none';
}

/** The full citation behind a line's `source`. */
export function sourceText(source: string): string {
  return lineFile.sources[source] ?? source;
}
