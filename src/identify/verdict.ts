/** From the ranking to a verdict and its sentence. */
import { percentText } from '../numeric/percent-text.ts';
import { fitIsAcceptable } from './rank/acceptable-fit.ts';
import type { Candidate, NextLook, Verdict } from './types.ts';

const IDENTIFIED = 0.99;
const UNLISTED = 0.9;

/** "hydrogen (or deuterium or water vapour: this bench cannot tell them apart)" */
export function rowName(candidate: Candidate): string {
  if (candidate.symbol === null) return 'a tube that is not in the list';
  const main =
    candidate.with.length > 0
      ? `mainly ${candidate.substance}, with lines of ${candidate.with.join(' and ')}`
      : candidate.substance;
  if (candidate.indistinguishable.length === 0) return main;
  return `${main} (or ${candidate.indistinguishable.join(' or ')}: this bench cannot tell them apart)`;
}

/** `findLook`: where one more look would tell most; asked only where the readings do not decide. */
export function verdict(
  candidates: readonly Candidate[],
  findLook: () => NextLook | null,
  readings: number,
): Verdict {
  const [first, second] = candidates;
  if (!first) {
    return {
      kind: 'undecided',
      substance: null,
      sentence: 'Nothing can be said of this tube yet.',
      nextLook: null,
    };
  }
  if (first.symbol === null && first.probability >= UNLISTED) {
    const sentence = `None of the possible tubes explains these ${readings} readings (probability ${percent(first.probability)}): perhaps it is a tube that is not among them, or the calibration or the central image is wrong.`;
    return { kind: 'unlisted', substance: null, sentence, nextLook: findLook() };
  }
  if (first.symbol !== null && first.probability >= IDENTIFIED && fitIsAcceptable(first)) {
    const sentence = `The tube is ${rowName(first)}: probability ${percent(first.probability)}, ${count(first.matches.length, 'reading')} matched.`;
    return { kind: 'identified', substance: first.substance, sentence, nextLook: null };
  }
  const look = findLook();
  const then = look
    ? ` Look at ${look.reading} (${look.wavelengthNm.toFixed(1)} nm): a line there, or none, separates ${look.separates.join(' from ')}.`
    : '';
  if (first.symbol !== null && first.probability >= IDENTIFIED) {
    const sentence = `${capital(rowName(first))} comes first (${percent(first.probability)}), but the readings do not fit it well enough to call it identified: read the unexplained lines again.${then}`;
    return { kind: 'undecided', substance: null, sentence, nextLook: look };
  }
  const rival = second ? `, then ${rowName(second)} (${percent(second.probability)})` : '';
  const sentence = `Not decided: ${rowName(first)} comes first (${percent(first.probability)})${rival}.${then}`;
  return { kind: 'undecided', substance: null, sentence, nextLook: look };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function count(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}

/** A probability in a sentence. */
export function percent(probability: number): string {
  return percentText(probability, 'over ', 'under ');
}
