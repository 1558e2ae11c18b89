/** What the line table says of one line, and of one tube. Wavelengths are in standard air, nm. */
import type { ColourName } from '../record/bench.ts';

export interface SpectralLine {
  readonly wavelengthNm: number;
  /** Emitter and stage or band system: `He I`, `N2 second positive`. */
  readonly spectrum: string;
  readonly kind: 'line' | 'band-head';
  /** The side to which a band shades off; a head is read biased to that side only. */
  readonly degraded: 'violet' | 'red' | null;
  readonly relativeIntensity: number | null;
  readonly brightness: 'strong' | 'medium' | 'weak' | null;
  readonly colour: ColourName;
  readonly assignment: string | null;
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
}

export interface TubeSpectrum {
  /** The tube's name in output: `carbon dioxide`. */
  readonly substance: string;
  /** `CO2`; what a spreadsheet would call it. */
  readonly symbol: string;
  /** Sorted by wavelength, ascending. */
  readonly lines: readonly TubeLine[];
}
