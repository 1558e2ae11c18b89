/** Control characters, lone surrogates, private use, separators of lines, and what is invisible or turns the writing. */
const unprintable = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}]/gu;

/** Text from outside made safe to print on one line of a terminal: what cannot be printed becomes a space. */
export function printable(text: string): string {
  return text.replace(unprintable, ' ');
}

/**
 * Text from outside as it is repeated inside a message: printable, at most 40 characters, in quotation marks unless
 * it looks like an angle (whose own signs would make a muddle with them).
 */
export function quoteText(text: string): string {
  const letters = [...printable(text.slice(0, 200)).trim()];
  const clean = letters.length > 40 ? `${letters.slice(0, 39).join('')}…` : letters.join('');
  return /^\d[\d\s°º˚'’′"”″:.,+]*$/.test(clean) ? clean : `"${clean}"`;
}
