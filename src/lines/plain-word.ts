/** A word as it is compared: lower case, without accents, spaces, hyphens or other marks (`Blue–Green`, `bluegreen`). */
export function plainWord(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replace(/[^\p{L}\p{N}]/gu, '');
}
