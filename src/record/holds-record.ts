/** Is a text that of a bench record? Also of a damaged one: somebody's readings are in it. */
export function holdsRecord(text: string): boolean {
  return /^\s*\{/.test(text) && /"whichgas"\s*:/.test(text);
}
