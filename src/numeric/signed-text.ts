/** A number with its sign, `+0.0` for what rounds to nothing. */
export function signedText(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `-${text}` : `+${text}`;
}
