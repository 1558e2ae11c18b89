/** What the line table says of one line, and of one tube. Wavelengths are in standard air, nm. */
import type { ColourName } from '../record/bench.ts';

/** Which relative intensities may be compared: those of one spectrum on one scale (see data/lines.json). */
export type IntensityScale = 'srd108' | 'asd' | 'eye-estimate';

export interface SpectralLine {
  readonly wavelengthNm: number;
  /** Standard uncertainty of the tabulated place: thousandths of a nm for atoms, up to 0.6 nm for computed bands. */
  readonly uNm: number;
  /** Emitter and stage or band system: `He I`, `N2 second positive`. */
  readonly spectrum: string;
  readonly kind: 'line' | 'band-head';
  /** The side to which a band shades off; a head is read biased to that side only. */
  readonly degraded: 'violet' | 'red' | null;
  readonly brightness: 'strong' | 'medium' | 'weak' | null;
  readonly colour: ColourName;
}

/** What stands behind a line: nothing is computed from it (`provenanceOf` of provenance.ts). */
export interface LineProvenance {
  readonly relativeIntensity: number | null;
  readonly intensityScale: IntensityScale | null;
  /** Where the brightness comes from: a key of `gradings` in data/lines.json. */
  readonly brightnessBasis: string | null;
  readonly assignment: string | null;
  /** A key of `sources` in data/lines.json; `sourceText` gives the citation. */
  readonly source: string;
  readonly basis: 'read' | 'computed' | 'memory';
  /** What is doubtful about this row, or null. */
  readonly doubt: string | null;
}

/** A line as a tube shows it. */
export interface TubeLine extends SpectralLine {
  /**
   * Natural logarithm of how visible the line is to a dark-adapted student in an ordinary low-pressure tube,
   * 0 for a line graded "strong"; about -1.3 medium, -2.6 weak, -4 and below hardly ever seen.
   */
  readonly prominence: number;
  /** False where an ordinary tube may well lack the line (ion lines, molecular hydrogen): never "missing". */
  readonly expected: boolean;
  /** Whose line it is, where the spectra of several tubes are mixed. */
  readonly substance?: string;
}

export interface TubeSpectrum {
  /** The tube's name in output: `carbon dioxide`. */
  readonly substance: string;
  /** `CO2`; what a spreadsheet would call it. */
  readonly symbol: string;
  /** Sorted by wavelength, ascending. */
  readonly lines: readonly TubeLine[];
}
