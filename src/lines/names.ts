/** Names of tubes and lamps as people write them. */
import Fuse from 'fuse.js';
import { holdsJust, substancesIn } from './mixed-lamps.ts';
import { plainWord } from './plain-word.ts';
import { tubeFile } from './tube-file.ts';

export type FoundTube = { readonly substance: string } | { readonly suggestions: readonly string[] };
export type FoundLamp =
  | { readonly substances: readonly string[] }
  | { readonly suggestions: readonly string[] };

/** Words that a person adds to a name: `neon tube`, `Hg lamp`. */
const trimmings = /\b(discharge|spectral|spectrum|geissler|tube|lamp|gas|vapou?r|source|unknown|the)\b/giu;

const withoutTrimmings = (text: string) => text.replace(trimmings, ' ').trim();

type Name = { readonly word: string; readonly means: string };
const namesOf = (means: string, names: readonly string[]): Name[] =>
  names.map((name) => ({ word: plainWord(name), means }));

const tubeNames = tubeFile.tubes.flatMap(({ substance, aliases }) =>
  namesOf(substance, [substance, ...aliases]),
);
const symbols = tubeFile.tubes.flatMap(({ substance, symbol }) => namesOf(substance, [symbol]));
const lampNames = tubeFile.mixedLamps.flatMap(({ name, aliases }) => namesOf(name, [name, ...aliases]));

/** What a text means by one of these names, with or without what a person adds to it. */
const meaningAmong = (names: readonly Name[]) => {
  const byWord = new Map(names.map(({ word, means }) => [word, means]));
  return (text: string): string | undefined =>
    byWord.get(plainWord(text)) ?? byWord.get(plainWord(withoutTrimmings(text)));
};
const exactTube = meaningAmong([...tubeNames, ...symbols]);
const exactMixedLamp = meaningAmong(lampNames);

/** A text longer than this is no misspelt name, and near names of it are not looked for: that takes long. */
const longestName = 80;

const sortedLetters = (word: string) => [...word].sort().join('');

const nameFinder = (names: readonly Name[]) => {
  let fuse: Fuse<Name> | undefined;
  // The index is only built for a name that was not understood.
  return (text: string): string[] => {
    fuse ??= new Fuse(
      names.filter((name) => name.word.length > 2),
      { keys: ['word'], threshold: 0.45, includeScore: true, ignoreLocation: true, minMatchCharLength: 2 },
    );
    const word = plainWord(text);
    // Swapped letters, the commonest slip of the keyboard, count little: "noen" is neon rather than xenon.
    const swapped = names.filter((name) => sortedLetters(name.word) === sortedLetters(word));
    if (swapped.length > 0) return [...new Set(swapped.map(({ means }) => means))].slice(0, 3);
    const found = fuse.search(word);
    const limit = (found[0]?.score ?? 0) + 0.12;
    const near = found.filter((result) => result.score! <= limit);
    return [...new Set(near.map((result) => result.item.means))].slice(0, 3);
  };
};
const nearTubes = nameFinder(tubeNames);
const nearLamps = nameFinder([...tubeNames, ...lampNames]);

/** The listed mixed lamp that holds just these substances. */
function mixedLampOf(substances: readonly string[]): string | undefined {
  return tubeFile.mixedLamps.find(({ name }) => holdsJust(name, substances))?.name;
}

/**
 * The tube, or mixed lamp, that a name, symbol or usual spelling means; otherwise up to three near names, best first.
 */
export function findTube(text: string): FoundTube {
  const substance = exactTube(text) ?? mixedLampOf(exactLamp(text) ?? []);
  if (substance !== undefined) return { substance };
  if (text.length > longestName) return { suggestions: [] };
  const mixed = mixedLampOf(exactLamp(respelt(text) ?? '') ?? []);
  if (mixed !== undefined) return { suggestions: [mixed] };
  const near = nearTubes(text);
  return { suggestions: near.length > 0 ? near : nearLamps(text) };
}

/** `HgCd` to `Hg Cd`: chemical symbols written together; null where it is no such run. */
function symbolRun(text: string): string[] | null {
  const symbols = text.trim().match(/[A-Z][a-z]?/g) ?? [];
  return symbols.length > 1 && symbols.join('') === text.trim() ? symbols : null;
}

/** The substances that a lamp's name seems to be made of: `Hg + Cd`, `mercury-cadmium`. */
function namePieces(bare: string): string[] {
  const pieces = symbolRun(bare) ?? bare.split(/[-–—/+,&\s]+|\b(?:and|with|und|mit|et|y)\b/iu);
  return pieces.filter((piece) => piece.trim() !== '');
}

function exactLamp(text: string): readonly string[] | undefined {
  const tube = exactTube(text);
  if (tube !== undefined) return [tube];
  const lamp = exactMixedLamp(text);
  if (lamp !== undefined) return substancesIn(lamp);
  const parts = namePieces(withoutTrimmings(text)).map(exactTube);
  const known = parts.filter((part) => part !== undefined);
  return parts.length > 1 && known.length === parts.length ? [...new Set(known)] : undefined;
}

/** `cadmum-mercury` to `cadmium-mercury`: every piece by its nearest name, null where a piece has none. */
function respelt(text: string): string | null {
  const pieces = namePieces(withoutTrimmings(text)).map((piece) => exactTube(piece) ?? nearTubes(piece)[0]);
  return pieces.length > 1 && pieces.every((piece) => piece !== undefined) ? pieces.join('-') : null;
}

/** What a lamp is filled with, one substance or several (`Hg + Cd`, `mercury-cadmium`); otherwise near names. */
export function findLamp(text: string): FoundLamp {
  const substances = exactLamp(text);
  if (substances !== undefined) return { substances };
  if (text.length > longestName) return { suggestions: [] };
  const mixed = respelt(text);
  return { suggestions: mixed === null ? nearLamps(text) : [mixed] };
}
