import Fuse from 'fuse.js';
import { quoteText } from '../angle/quote-text.ts';

/** `unknown key "colr"; did you mean "color"?` */
export function suggestKey(key: string, known: readonly string[]): string {
  const nearest = new Fuse(known, { threshold: 0.45 }).search(key.slice(0, 32))[0]?.item;
  const quoted = quoteText(key);
  return `unknown key ${quoted.startsWith('"') ? quoted : `"${quoted}"`}${
    nearest === undefined ? `; here there can be ${known.join(', ')}` : `; did you mean "${nearest}"?`
  }`;
}
