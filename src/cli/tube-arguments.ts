/** Tube names on the command line. */
import { quoteText } from '../angle/quote-text.ts';
import { findTube } from '../lines/names.ts';
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
