/** Tubes on the command line: their names, and the labels of those in a record. */
import { onlyTube } from '../analysis/reading-frame.ts';
import { quoteText } from '../angle/quote-text.ts';
import { findTube } from '../lines/names.ts';
import type { Bench, UnknownTube } from '../record/bench.ts';
import { plainLabel } from '../record/plain-label.ts';
import { countedFromSentence } from '../words/counted-from.ts';
import { complainOf } from './analysed.ts';
import { type CommandCall, textOption } from './command.ts';
import { UserError } from './user-error.ts';

/** The tube that a person's word means; otherwise a sentence with near names. */
export function tubeArgument(word: string): string {
  const found = findTube(word);
  if ('substance' in found) return found.substance;
  const cure =
    found.suggestions.length > 0
      ? `did you mean ${found.suggestions.join(' or ')}?`
      : 'whichgas lines lists the tubes';
  throw new UserError(`${quoteText(word)} is not a tube of the line table; ${cure}`);
}

/**
 * Whose central image the readings of a call count from: that of `--tube LABEL`, or of the only tube; null: of none.
 * What is to be said of it goes to standard error, unless the call says it. Throws UserError for a label that is not there.
 */
export function tubeAskedFor(call: CommandCall, file: string, bench: Bench): UnknownTube | null {
  const label = textOption(call, 'tube');
  if (label === null) {
    const tube = onlyTube(bench);
    complainOf(file, countedFromSentence(bench, tube));
    return tube;
  }
  const found = bench.tubes.find((tube) => plainLabel(tube.label) === plainLabel(label));
  if (found !== undefined) return found;
  const labels = bench.tubes.map((tube) => quoteText(tube.label));
  const cure = labels.length === 0 ? 'it has none' : `it has ${labels.join(', ')}`;
  throw new UserError(`--tube ${quoteText(label)}: no tube of that label in the record; ${cure}`);
}
