/** `Tube C`, `tube C` and `C` are one label. */
export function plainLabel(tube: string): string {
  return tube
    .trim()
    .toLowerCase()
    .replace(/^tube\s+/, '');
}
