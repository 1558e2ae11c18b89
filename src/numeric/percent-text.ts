/**
 * `99.7 %` with one decimal. The ends are bounds, because no probability is 0 or 1; `over` and `under` are how they
 * are said: signs in a table, words in a sentence.
 */
export function percentText(probability: number, over: string, under: string): string {
  if (probability > 0.9995) return `${over}99.9 %`;
  if (probability < 0.0005) return `${under}0.1 %`;
  return `${(100 * probability).toFixed(1)} %`;
}
