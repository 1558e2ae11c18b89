/** Colour words and wavelengths. */
import type { ColourName } from '../record/bench.ts';
import { plainWord } from './plain-word.ts';
import { readableNm } from './visible.ts';

/** Upper limit in nm of each colour, by convention (common practice, no source): eyes differ by some 12 nm. */
const upperLimitsNm: readonly (readonly [ColourName, number])[] = [
  ['violet', 430],
  ['blue-violet', 450],
  ['blue', 480],
  ['blue-green', 500],
  ['green', 560],
  ['yellow-green', 575],
  ['yellow', 592],
  ['orange', 622],
  ['red', 690],
  ['deep red', Number.POSITIVE_INFINITY],
];

/** By how much two observers may disagree on a limit between colours, nm (common practice, no source). */
const softnessNm = 12;

/** The colour of a wavelength in nm. */
export function colourAt(wavelengthNm: number): ColourName {
  return upperLimitsNm.find(([, upperNm]) => wavelengthNm < upperNm)?.[0] ?? 'deep red';
}

/** A plain word covers its finer neighbours: 435.8 nm is "blue" to one and "violet" to the other. */
const wordSpans: Partial<Record<ColourName, readonly [ColourName, ColourName]>> = {
  violet: ['violet', 'blue-violet'],
  blue: ['blue-violet', 'blue-green'],
  green: ['blue-green', 'yellow-green'],
  yellow: ['yellow-green', 'yellow'],
  red: ['red', 'deep red'],
};

interface ColourRange {
  readonly fromNm: number;
  readonly toNm: number;
}

function rangeOf(name: ColourName): ColourRange {
  const span = wordSpans[name] ?? [name, name];
  const first = upperLimitsNm.findIndex(([colour]) => colour === span[0]);
  const last = upperLimitsNm.find(([colour]) => colour === span[1])!;
  const fromNm = (upperLimitsNm[first - 1]?.[1] ?? readableNm.shortest) - softnessNm;
  return { fromNm, toNm: Math.min(last[1], readableNm.longest) + softnessNm };
}

const ranges = new Map(upperLimitsNm.map(([name]) => [name, rangeOf(name)]));

/**
 * The wavelengths, nm, that a person may give this name: one limit's softness beyond the table on both sides. A plain
 * "red", "blue" or "violet" also covers the finer names beside it.
 */
export function colourRangeNm(name: ColourName): ColourRange {
  return ranges.get(name)!;
}

const words: Readonly<Record<ColourName, string>> = {
  'deep red': 'deep red, dark red, far red, crimson, dunkelrot, tiefrot, rouge fonce, rojo oscuro',
  red: 'red, bright red, light red, scarlet, rot, hellrot, rouge, rojo, orange red, red orange, reddish, pink',
  orange: 'orange, bright orange, amber, yellow orange, orange yellow, gelborange, naranja',
  yellow: 'yellow, bright yellow, golden, gold, gelb, jaune, amarillo, yellowish',
  'yellow-green':
    'yellow green, green yellow, lime, chartreuse, greenish yellow, yellowish green, light green, gelbgrun, hellgrun, vert jaune, verde amarillo',
  green: 'green, bright green, emerald, dark green, deep green, grun, vert, verde, greenish',
  'blue-green':
    'blue green, green blue, turquoise, cyan, teal, aqua, aquamarine, bluish green, greenish blue, sea green, blaugrun, turkis, bleu vert, verde azul, turquesa, cian',
  blue: 'blue, light blue, bright blue, sky blue, pale blue, azure, blau, hellblau, bleu, azul, bluish',
  'blue-violet':
    'blue violet, violet blue, indigo, dark blue, deep blue, navy, royal blue, bluish violet, blauviolett, dunkelblau, bleu violet, azul violeta, bleu fonce, azul oscuro',
  violet:
    'violet, purple, dark violet, deep violet, far violet, mauve, lilac, magenta, violett, lila, purpur, violeta, morado',
};

const namesByWord = new Map(
  Object.entries(words).flatMap(([name, list]) =>
    list.split(', ').map((word) => [plainWord(word), name as ColourName] as const),
  ),
);

/** The colour that a person's word means, in any usual spelling, or null where it is not a colour of a line. */
export function colourNamed(word: string): ColourName | null {
  return namesByWord.get(plainWord(word)) ?? null;
}
