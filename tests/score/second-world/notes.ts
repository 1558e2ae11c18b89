/** Words that people write beside a reading. */
import type { Random } from '../random.ts';
import { notes } from './assumptions.ts';
import { normalBelow } from './gauss.ts';
import type { Feature } from './look.ts';

/** A vocabulary: each word with the wavelength (nm) at which the next begins. */
export type Vocabulary = readonly (readonly [string, number])[];

const plainWords: Vocabulary = [
  ['violet', 440],
  ['blue', 490],
  ['green', 565],
  ['yellow', 592],
  ['orange', 620],
  ['red', Number.POSITIVE_INFINITY],
];
const fineWords: Vocabulary = [
  ['violet', 430],
  ['indigo', 450],
  ['blue', 480],
  ['turquoise', 505],
  ['green', 558],
  ['yellow green', 573],
  ['yellow', 591],
  ['orange', 618],
  ['red', 685],
  ['dark red', Number.POSITIVE_INFINITY],
];

export const drawVocabulary = (random: Random): Vocabulary =>
  random.chance(notes.fineWordsChance) ? fineWords : plainWords;

export function drawColour(random: Random, words: Vocabulary, nm: number): string {
  if (random.chance(notes.wrongWordChance)) return random.pick(words)[0];
  const seenNm = random.normal(nm, notes.colourSpreadNm);
  return words.find(([, upToNm]) => seenNm < upToNm)![0];
}

/** Chance of this word at this wavelength. */
export function colourChance(words: Vocabulary, word: string, nm: number): number {
  const at = words.findIndex(([name]) => name === word);
  const below = (limitNm: number) => normalBelow((limitNm - nm) / notes.colourSpreadNm);
  const fitting = below(words[at]![1]) - (at === 0 ? 0 : below(words[at - 1]![1]));
  return (1 - notes.wrongWordChance) * fitting + notes.wrongWordChance / words.length;
}

export type BrightnessWord = 'strong' | 'medium' | 'weak';

/** `above`: how far over the threshold the line was perceived. */
export function brightnessWord(above: number): BrightnessWord {
  return above > notes.strongFrom ? 'strong' : above > notes.mediumFrom ? 'medium' : 'weak';
}

/** Chance that the feature is seen and called so; with null, that it is seen. */
export function seenAsChance({ above, scatter }: Feature, word: BrightnessWord | null): number {
  const over = (limit: number) => normalBelow((above - limit) / scatter);
  if (word === null) return over(0);
  if (word === 'strong') return over(notes.strongFrom);
  if (word === 'medium') return over(notes.mediumFrom) - over(notes.strongFrom);
  return over(0) - over(notes.mediumFrom);
}
