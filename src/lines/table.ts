/** The line table by tubes. */
import { brightnessWord } from './grade-prominence.ts';
import { joinedTubes, mergedSpectra } from './merge-lines.ts';
import { mixedLamps, substancesIn } from './mixed-lamps.ts';
import type { TubeSpectrum } from './spectrum.ts';
import { type MixedLampEntry, tubeFile } from './tube-file.ts';
import { lampOnlySpectra, tubes } from './tubes.computed.ts';

export { tubes };

const tubesByName = new Map(tubes.map((tube) => [tube.substance, tube]));

const mixedTubes = new Map<MixedLampEntry, TubeSpectrum>();

/** The tube, or mixed lamp, with exactly this name; `findTube` of names.ts understands other spellings. */
export function tubeNamed(substance: string): TubeSpectrum | undefined {
  const mixed = mixedLamps.get(substance);
  if (mixed === undefined) return tubesByName.get(substance);
  const tube = mixedTubes.get(mixed) ?? mixedTube(mixed);
  mixedTubes.set(mixed, tube);
  return tube;
}

/** A mixed lamp as a tube: every line says whose it is, and how bright each further part is against the first is open. */
function mixedTube({ name, substances, level = {} }: MixedLampEntry): TubeSpectrum {
  const parts = partsNamed(substances).map((tube, i) => ({
    ...tube,
    components: tube.components.map((each) =>
      i === 0 || each.strengthSd > 0 ? each : { ...each, strengthSd: tubeFile.mixedStrengthSd },
    ),
    lines: tube.lines.map((line) => {
      const gain = level[tube.substance] ?? 0;
      const brightnessLn = line.brightnessLn + gain;
      return {
        ...line,
        prominence: line.prominence + gain,
        brightnessLn,
        brightness: brightnessWord(brightnessLn),
        substance: tube.substance,
        isSupposedFainter: gain < 0,
      };
    }),
  }));
  return together(name, parts);
}

const partsNamed = (substances: readonly string[]): TubeSpectrum[] =>
  substances
    .map((name) => tubeNamed(name) ?? lampOnlySpectra.find(({ substance }) => substance === name))
    .filter((tube) => tube !== undefined);

/** The lines that a lamp filled with these substances shows; unknown names add nothing. */
export function lampSpectrum(substances: readonly string[]): TubeSpectrum {
  const parts = partsNamed(substances);
  return parts.length === 1 ? parts[0]! : together(parts.map((tube) => tube.substance).join('-'), parts);
}

function together(substance: string, parts: readonly TubeSpectrum[]): TubeSpectrum {
  const { components, lines } = joinedTubes(parts);
  const symbol = parts.map((tube) => tube.symbol).join('-');
  return { substance, symbol, components, lines: mergedSpectra(lines) };
}

/** The spectra that the tubes of a shelf may show, each once: of a mixed lamp those of its parts. */
export function spectraOnShelf(names: readonly string[]): TubeSpectrum[] {
  return partsNamed([...new Set(names.flatMap(substancesIn))]);
}

export const { unresolvedPairs, usualImpurities, roomLight } = tubeFile;

/** The gases that a metal lamp shows in its first minutes, until the metal has evaporated. */
export function startingGases(substance: string): readonly string[] {
  const parts = substancesIn(substance);
  const gases = parts.flatMap((part) => tubeFile.startingGases[part] ?? []);
  return [...new Set(gases)].filter((gas) => !parts.includes(gas));
}
