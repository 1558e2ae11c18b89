/** Numbers as people write them on a data sheet. */

/**
 * Digits with a point or a comma before the decimals, and a sign; null for anything else. What only programmers call
 * numbers (`0x222`, `1e3`, `Infinity`) is taken for a slip: nobody reads that off an instrument.
 */
export function decimalNumber(text: string): number | null {
  const number = text.trim().replace(',', '.');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(number) ? Number(number) : null;
}
