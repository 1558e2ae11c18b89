/** The local date as ISO 8601 writes it (the Swedish form of a date is that). */
export function today(): string {
  return new Date().toLocaleDateString('sv-SE');
}
