/** The form of data/lines.json and data/tubes.json; `npm run check:lines` holds the files to it. */
import lineJson from '../../data/lines.json' with { type: 'json' };
import tubeJson from '../../data/tubes.json' with { type: 'json' };
import type { IntensityScale } from './spectrum.ts';

export interface LineRow {
  readonly nm: number;
  readonly uNm?: number;
  readonly intensity?: number;
  /** Only where it differs from the scale of the spectrum. */
  readonly scale?: IntensityScale;
  readonly brightness?: 'strong' | 'medium' | 'weak';
  readonly graded?: string;
  readonly assignment?: string;
  readonly source: string;
  readonly basis: 'read' | 'computed' | 'memory';
  readonly second?: number;
  readonly secondSource?: string;
  readonly persistent?: boolean;
  readonly einsteinA?: number;
  readonly components?: readonly (readonly number[])[];
  readonly doubt?: string;
}

export interface SpectrumRows {
  readonly spectrum: string;
  readonly species: string;
  readonly kind: 'line' | 'band-head';
  readonly degraded: 'violet' | 'red' | null;
  readonly intensityScale: IntensityScale | null;
  readonly uNm: number;
  readonly note?: string;
  /** Every line that an ordinary tube shows has a brightness: what has none is fainter than weak. */
  readonly gradedComplete?: boolean;
  /** Prominence of the lines with neither intensity nor brightness. */
  readonly unmeasuredProminence?: number;
  readonly rows: readonly LineRow[];
}

export interface LineFile {
  readonly sources: Readonly<Record<string, string>>;
  readonly gradings: Readonly<Record<string, string>>;
  readonly scales: Readonly<Record<string, string>>;
  readonly spectra: readonly SpectrumRows[];
}

export interface TubePart {
  readonly spectrum: string;
  readonly level: number;
  readonly expected: boolean;
}

export interface TubeFile {
  readonly tubes: readonly {
    readonly substance: string;
    readonly symbol: string;
    readonly aliases: readonly string[];
    readonly parts: readonly TubePart[];
  }[];
  readonly mixedLamps: readonly {
    readonly name: string;
    readonly substances: readonly string[];
    readonly aliases: readonly string[];
  }[];
  readonly startingGases: Readonly<Record<string, readonly string[]>>;
  readonly usualImpurities: readonly string[];
  readonly roomLight: readonly {
    readonly substance: string;
    readonly nm: readonly number[];
    readonly from: string;
  }[];
  readonly unresolvedPairs: readonly {
    readonly substance: string;
    readonly quotedNm: number;
    readonly componentsNm: readonly number[];
  }[];
}

export const lineFile = lineJson as unknown as LineFile;
export const tubeFile = tubeJson as unknown as TubeFile;
