/** The columns that a text takes in a terminal. */
import measured from 'fast-string-width';

/** Printable characters of Latin-1, all of them one column wide, the soft hyphen left out. */
const plain = /^[\x20-\x7e\xa1-\xac\xae-\xff]*$/;

/** Nearly every text is plain, and the measuring of all others takes a start some milliseconds to get ready. */
export function textWidth(text: string): number {
  return plain.test(text) ? text.length : measured(text);
}
