/** The form of data/tubes.json; `npm run check:lines` holds the file to it. */
import tubeJson from '../../data/tubes.json' with { type: 'json' };

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

export const tubeFile = tubeJson as unknown as TubeFile;
