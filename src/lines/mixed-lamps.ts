/** Lamps filled with several substances: what is in them. */
import { type MixedLampEntry, tubeFile } from './tube-file.ts';

/** By name. */
export const mixedLamps: ReadonlyMap<string, MixedLampEntry> = new Map(
  tubeFile.mixedLamps.map((lamp) => [lamp.name, lamp]),
);

/** What is in a tube of this name: of a mixed lamp each of its parts. */
export function substancesIn(substance: string): readonly string[] {
  return mixedLamps.get(substance)?.substances ?? [substance];
}

/** Is the tube of this name filled with just these, in whatever order? */
export function holdsJust(substance: string, parts: readonly string[]): boolean {
  const own = substancesIn(substance);
  return own.length === new Set(parts).size && own.every((part) => parts.includes(part));
}
