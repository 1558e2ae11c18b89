/** The form of data/tubes.json; `npm run check:lines` holds the file to it. */
import tubeJson from '../../data/tubes.json' with { type: 'json' };

export interface TubePart {
  readonly spectrum: string;
  readonly level: number;
  /** Lines of one component rise and fall together from tube to tube. */
  readonly component: string;
  /** Standard deviation of the component's strength; none where the others are measured against it. */
  readonly strengthSd?: number;
  readonly expected: boolean;
}

export interface TubeEntry {
  readonly substance: string;
  readonly symbol: string;
  readonly aliases: readonly string[];
  readonly parts: readonly TubePart[];
}

export interface MixedLampEntry {
  readonly name: string;
  readonly substances: readonly string[];
  /** By so much (natural logarithm) a part is brighter than in a lamp of its own, against the first; 0 where none is named. */
  readonly level?: Readonly<Record<string, number>>;
  readonly aliases: readonly string[];
}

export interface TubeFile {
  readonly tubes: readonly TubeEntry[];
  /** What only lamps show: never a tube that a reading may belong to. */
  readonly lampOnly: readonly TubeEntry[];
  readonly mixedLamps: readonly MixedLampEntry[];
  /** Standard deviation of how bright a part of a mixed lamp is against the first (natural logarithm). */
  readonly mixedStrengthSd: number;
  readonly startingGases: Readonly<Record<string, readonly string[]>>;
  /** Tubes whose lines turn up as traces in any tube. */
  readonly usualImpurities: readonly string[];
  /** Lines of the room and of a neighbour's lamp that reach the slit. */
  readonly roomLight: readonly {
    readonly substance: string;
    readonly nm: readonly number[];
    readonly from: string;
  }[];
  /** Two lines that a prism shows as one, with the wavelength that tables quote for the pair. */
  readonly unresolvedPairs: readonly {
    readonly substance: string;
    readonly quotedNm: number;
    readonly componentsNm: readonly number[];
  }[];
}

export const tubeFile = tubeJson as unknown as TubeFile;
