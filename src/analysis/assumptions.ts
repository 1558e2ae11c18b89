/**
 * What is taken for granted where findings are put together. Each: value, unit, source; judged by the tests of the file
 * that uses it.
 */

// Decimal marks.

/**
 * Probability of degrees.minutes before a look: numbers are decimal degrees by the format of a record, texts are the one
 * or the other (common practice, no source).
 */
export const MINUTES_BEFORE = { numbers: 0.02, texts: 0.4 } as const;
/** Decimal marks are taken as degrees.minutes from this probability on. */
export const MINUTES_TAKEN_FROM = 0.5;
/** A meaning less probable than this is not worth a word. */
export const WORTH_A_WORD = 0.05;

// The instructor's check.

/** A tube is supported from this probability on. By agreement with whoever reads its JSON. */
export const SUPPORTED_FROM = 0.9;
/** A tube is contradicted up to this probability. Likewise. */
export const CONTRADICTED_TO = 0.01;
/** So few readings with a wavelength are the reason by themselves where the outcome is open. */
export const FEW_READINGS = 2;

// The station check.

/** A change is reported from so many standard uncertainties on. Common practice, no source. */
export const SIGNIFICANT = 3;
/** A scatter is worse from so many times the former one on. Common practice, no source. */
export const WORSE_SCATTER = 2;

// Crib sheets, advice, questions.

/** Lines fainter than the brightest by more than this in prominence (ln) do not move the hand that sets on them. */
export const HARDLY_SEEN_BESIDE = 1;
/** Of more lines of a lamp than this some are left out of a sheet. */
export const MOST_OF_A_LAMP = 14;
/** So many lines of one lamp are advised. */
export const MOST_ADVISED = 3;
/** What each of them must take off the rms u to be worth a reading, a part of it. Common practice, no source. */
export const WORTH_READING = 0.02;
/** A reading is out of sight further outside the visible than so many standard uncertainties of the curve. */
export const SURELY_OUTSIDE = 3;
