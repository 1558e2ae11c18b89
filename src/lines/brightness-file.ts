/** The form of data/brightness.json: what people measured, published and wrote down of how bright lines are. */
import brightnessJson from '../../data/brightness.json' with { type: 'json' };

export type StatedGrade = 'strong' | 'medium' | 'weak' | 'very weak';

export interface MeasuredSpectrum {
  readonly source: string;
  readonly substance: string;
  /** A second lamp or exposure of the same laboratory. */
  readonly exposure?: string;
  readonly counts: readonly (readonly [nm: number, counts: number])[];
  /** Places, nm, whose counts are lower bounds. */
  readonly clipped?: readonly number[];
}

export interface BrightnessFile {
  readonly sources: Readonly<Record<string, string>>;
  /** The sources of statements that are no publication with a name. */
  readonly weakSources: Readonly<Record<string, 'unnamed' | 'practice'>>;
  readonly measured: readonly MeasuredSpectrum[];
  readonly statements: readonly {
    readonly source: string;
    readonly substance: string;
    readonly nm: number;
    readonly words: string;
    /** Two where the words leave it open. */
    readonly grades: readonly StatedGrade[];
  }[];
  readonly reads: readonly {
    readonly source: string;
    readonly substance: string;
    readonly lines: readonly (readonly [nm: number, readIn: number, of: number])[];
  }[];
}

export const brightnessFile = brightnessJson as unknown as BrightnessFile;
