import Fuse from 'fuse.js';
import { quoteText } from '../angle/quote-text.ts';

/** `unknown key "colr"; did you mean "color"?` */
export function suggestKey(key: string, known: readonly string[]): string {
  const nearest = new Fuse(known, { threshold: 0.45 })
    .search(key.slice(0, 32))
    // A short word is found somewhere inside every long one.
    .find(({ item }) => item.length <= 2 * key.length)?.item;
  const quoted = quoteText(key);
  return `unknown key ${quoted.startsWith('"') ? quoted : `"${quoted}"`}${
    nearest === undefined ? `; here there can be ${known.join(', ')}` : `; did you mean "${nearest}"?`
  }`;
}
