/** The form of data/lines.json; `npm run check:lines` holds the file to it. */
import lineJson from '../../data/lines.json' with { type: 'json' };
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

export const lineFile = lineJson as unknown as LineFile;
