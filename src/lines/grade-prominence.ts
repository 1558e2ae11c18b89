/** What a word for the brightness of a line means as a prominence, and which word a prominence gets. */
import type { StatedGrade } from './brightness-file.ts';
import type { BrightnessWord } from './spectrum.ts';

/** Prominence of the grades: a grade is taken as a factor of about 3.7 (common practice, no source). */
export const gradeProminence: Readonly<Record<StatedGrade, number>> = {
  strong: 0,
  medium: -1.3,
  weak: -2.6,
  'very weak': -3.4,
};

/** Half-way between the grades; below the last, as far under weak, a line is hardly ever seen. */
const wordsFrom: readonly (readonly [BrightnessWord, number])[] = [
  ['strong', -0.65],
  ['medium', -1.95],
  ['weak', -3.25],
];

/** A logarithm of brightness (`brightnessLn` of a line) in a word; null for a line that is hardly ever seen. */
export function brightnessWord(brightnessLn: number): BrightnessWord | null {
  return wordsFrom.find(([, lowest]) => brightnessLn > lowest)?.[0] ?? null;
}

type Range = readonly [from: number, to: number];

const rangeOf = new Map(
  wordsFrom.map(([word, lowest], at): [BrightnessWord, Range] => [
    word,
    [
      at === wordsFrom.length - 1 ? Number.NEGATIVE_INFINITY : lowest,
      wordsFrom[at - 1]?.[1] ?? Number.POSITIVE_INFINITY,
    ],
  ]),
);

/** The prominences that a word stands for, from and to; weak has no lower end for who has seen the line. */
export function wordRange(word: BrightnessWord): Range {
  return rangeOf.get(word)!;
}
