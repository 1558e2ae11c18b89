/** The wavelengths that a record may state, nm. */
export const statedNm = { shortest: 200, longest: 1200 } as const;

/**
 * Most entries of each list and characters of each text. Lines, tubes and bytes as the record format promises; the
 * others lie beyond any bench and keep the work of a record within bounds (common practice, no source).
 */
export const most = {
  bytes: 16 * 1024 * 1024,
  lamps: 20,
  tubes: 20,
  knownLines: 200,
  unknownLines: 500,
  /** Of one line, or of the central image. */
  repeats: 100,
  checks: 100,
  notSeen: 200,
  shelf: 100,
  observers: 50,
  /** Of a title, a label, a colour, an answer. */
  nameCharacters: 200,
  /** Of a note, and of what is written about the bench. */
  noteCharacters: 2000,
  remarkCharacters: 10_000,
  /** Of all lamps together; readings of check lines count too. */
  knownInAll: { lines: 200, readings: 600 },
  /** Of all tubes together: full tubes of single readings, or fewer lines with repeats. */
  unknownInAll: { readings: 12_000, places: 500 },
} as const;
