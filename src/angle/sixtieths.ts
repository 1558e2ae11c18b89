/** `96 20/60`: minutes written as sixtieths of a degree. */

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
