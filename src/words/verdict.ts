/** The verdict in one sentence. */
import type { Candidate, NextLook, TubeIdentification } from '../identify/types.ts';
import { percentText } from '../numeric/percent-text.ts';

/** "hydrogen (or deuterium or water vapour: this bench cannot tell them apart)" */
export function rowName(
  candidate: Pick<Candidate, 'substance' | 'symbol' | 'with' | 'indistinguishable'>,
): string {
  if (candidate.symbol === null) return 'a tube that is not in the list';
  const main =
    candidate.with.length > 0
      ? `mainly ${candidate.substance}, with lines of ${candidate.with.join(' and ')}`
      : candidate.substance;
  if (candidate.indistinguishable.length === 0) return main;
  return `${main} (or ${candidate.indistinguishable.join(' or ')}: this bench cannot tell them apart)`;
}

/** What the tube is, and how sure that is. */
export function verdictSentence({ candidates, verdict, readings }: TubeIdentification): string {
  const [first, second] = candidates;
  if (!first) return 'Nothing can be said of this tube yet.';
  const { kind, heldBackBy, nextLook: look } = verdict;
  if (kind === 'unlisted')
    return `None of the possible tubes explains these ${readings} readings (probability ${percent(first.probability)}): perhaps it is a tube that is not among them, or the calibration or the central image is wrong.`;
  if (kind === 'identified')
    return `The tube is ${rowName(first)}: probability ${percent(first.probability)}, ${count(first.matches.length, 'reading')} matched.`;
  const then = look
    ? ` Look at ${placeAndUse(look, ':')}`
    : ' No look at another place would tell more: read the lines again, twice or more each.';
  const leads = `${capital(rowName(first))} comes first (${percent(first.probability)})`;
  if (heldBackBy === 'fit')
    return `${leads}, but the readings do not fit it well enough to call it identified: read the unexplained lines again.${then}`;
  if (heldBackBy === 'shift')
    return `${leads}, but only if all readings are shifted alike, and ${count(first.matches.length, 'reading')} are too few to bear that out: read a line of the known lamp again.${then}`;
  const rival = second ? `, then ${rowName(second)} (${percent(second.probability)})` : '';
  return `Not decided: ${rowName(first)} comes first (${percent(first.probability)})${rival}.${then}`;
}

/** Where to look next, unless the verdict has said it already; "" then. */
export function nextLookSentence({
  nextLook,
  sentence,
}: {
  readonly nextLook: NextLook | null;
  readonly sentence: string;
}): string {
  if (nextLook === null || sentence.includes(nextLook.reading)) return '';
  return `Where to look next: ${placeAndUse(nextLook, ';')}`;
}

/** A place to look at, and what a line there separates. */
export function placeAndUse({ reading, wavelengthNm, separates }: NextLook, between: string): string {
  return `${reading} (${wavelengthNm.toFixed(1)} nm)${between} a line there, or none, separates ${separates.join(' from ')}.`;
}

/** The text with a capital letter, to begin a sentence. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function count(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}

/** A probability in a sentence. */
export function percent(probability: number): string {
  return percentText(probability, 'over ', 'under ');
}
