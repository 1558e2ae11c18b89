/** The many ways to type °, ′, ″, a minus and a space, brought to one way: `°`, `'`, `"`, `-`, ` `. */

const words: readonly (readonly [RegExp, string])[] = [
  [/(?:arc ?-?)?sec(?:onds?|s)?\.?(?![a-z])/gi, '"'],
  [/(?:arc ?-?)?min(?:utes?|s)?\.?(?![a-z])/gi, "'"],
  [/deg(?:rees?|s)?\.?(?![a-z])/gi, '°'],
  [/(?<=[\d.\s])d(?=[\d\s]|$)/gi, '°'],
  [/(?<=[\d.\s])m(?=[\d\s]|$)/gi, "'"],
  [/(?<=[\d.\s])s(?=\s|$)/gi, '"'],
];

const signs: readonly (readonly [RegExp, string])[] = [
  [/[°º˚∘⁰ᵒ]/g, '°'],
  [/[″‶"”“„‟ʺ˝ˮ＂〃]/g, '"'],
  [/[′‵'’‘‚‛ʹʼʻˈ´`＇]/g, "'"],
  [/'\s?'/g, '"'],
  [/[−–—‐‑‒﹣－]/g, '-'],
  [/[+＋﹢]/g, '+'],
  [/[:：∶]/g, ':'],
  [/[\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000\u2060\ufeff\t]/g, ' '],
  [/[，٫]/g, ','],
];

/** Most texts: nothing to unify. */
const plainText = /^[\d .]+(?:[°:] *[\d .]+'?)?$/;

/** An angle text with one kind of sign for each meaning; a comma between digits becomes the decimal point. */
export function unifySigns(text: string): string {
  if (plainText.test(text)) return text.trim();
  let unified = text;
  for (const [pattern, sign] of signs) unified = unified.replace(pattern, sign);
  unified = unified.normalize('NFKC');
  for (const [pattern, sign] of words) unified = unified.replace(pattern, sign);
  return sixtiethsAsMinutes(unified)
    .replace(/(?<=\d),(?=\d)/g, '.')
    .trim();
}

/**
 * The text with sixtieths written as minutes: `96 20'`. Only unspaced, behind whole degrees, and with nothing of an
 * angle after it, for a stroke also parts the two windows of a reading: `240 05/60 06`.
 */
export function sixtiethsAsMinutes(text: string): string {
  return text.replace(
    /((?:^|[^\d.,])\d{1,3}\s*[°\s]\s*|\+\s*)(\d{1,2}(?:[.,]\d+)?)\/60(?!\s*[\d.,°:'′])/g,
    "$1$2'",
  );
}
