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
  readonly colour: ColourName;
  /** A mixed lamp is taken to show it fainter than a tube of its own does (common practice, no source). */
  readonly isSupposedFainter?: boolean;
}

export type BrightnessWord = 'strong' | 'medium' | 'weak';

/** Who speaks for the brightness of a line (data/brightness.json); counts are of independent sources. */
export interface BrightnessWitnesses {
  readonly laboratories: number;
  /** What publications with a name say, what is public without one, what those who teach at these tubes say. */
  readonly published: number;
  readonly unnamed: number;
  readonly practice: number;
  /** Observers who wrote the line down, of those who could have. */
  readonly readIn: number;
  readonly readOf: number;
}

/** The best of what a line's prominence rests on. */
export type BrightnessBasis =
  | 'measured'
  | 'published'
  | 'read counts'
  | 'unnamed source'
  | 'practice'
  | 'memory'
  | 'intensity'
  | 'none';

/** What stands behind a line: nothing is computed from it (`provenanceOf` of provenance.ts). */
export interface LineProvenance {
  readonly relativeIntensity: number | null;
  readonly intensityScale: IntensityScale | null;
  readonly brightnessBasis: BrightnessBasis;
  readonly brightnessWitnesses: BrightnessWitnesses;
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
   * 0 for a line that is called strong; about -1.3 medium, -2.6 weak, -4 and below hardly ever seen. What chances are
   * worked out with: grades from memory are held to (`GRADE_HELD` of prominence.ts).
   */
  readonly prominence: number;
  /** Standard deviation of both logarithms: how well it is known what an ordinary tube shows, in the same unit. */
  readonly prominenceSd: number;
  /** The same logarithm as all evidence together gives it, each by its error, to 0.01: what people are told. */
  readonly brightnessLn: number;
  /** `brightnessLn` in a word (`brightnessWord`); null for a line that is hardly ever seen. */
  readonly brightness: BrightnessWord | null;
  /** The component of the tube that the line rises and falls with, a name of `components`. */
  readonly component: string;
  /** False where an ordinary tube may well lack the line (ion lines, molecular hydrogen): never "missing". */
  readonly expected: boolean;
  /** Whose line it is, where the spectra of several tubes are mixed. */
  readonly substance?: string;
}

/** Lines that rise and fall together from tube to tube: of the neutral atom, of the ion, of a system of bands. */
export interface Component {
  readonly name: string;
  /** Standard deviation of its strength, in the unit of prominence; 0 for what the others are measured against. */
  readonly strengthSd: number;
}

export interface TubeSpectrum {
  /** The tube's name in output: `carbon dioxide`. */
  readonly substance: string;
  /** `CO2`; what a spreadsheet would call it. */
  readonly symbol: string;
  readonly components: readonly Component[];
  /** Sorted by wavelength, ascending. */
  readonly lines: readonly TubeLine[];
}
