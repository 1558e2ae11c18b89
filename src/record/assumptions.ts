/**
 * What is taken for granted of how records are written. Each: value, unit, source; judged by
 * `tests/analysis/decimals-meant.test.ts`. How much a record may hold: `limits.ts`.
 */

/** Of decimal marks that mean one thing only, those of one kind must be so many times the others. Common practice, no source. */
export const SETTLED = 4;
/** With fewer readings than this the digits say nothing of a habit. Common practice, no source. */
export const FEWEST_OPEN = 4;
/** A step of the second decimal of a degree, arc-minutes: what is written as a mean of several takes may be any of them. */
export const DIGIT_ARCMIN = 0.6;
/** Part of those who write decimal degrees that writes marks of the circle; the others write means. Common practice, no source. */
export const MARKS_IN_DECIMALS = 0.5;
/** Two opposite windows that differ from 180° by more than this are asked about, arc-minutes. Common practice, no source. */
export const WINDOWS_TOLERANCE_ARCMIN = 20;
/** Drums and encoders count to some hundred thousand: no scale reaches further, scale units. Common practice, no source. */
export const FURTHEST_ON_SCALE = 1_000_000;
