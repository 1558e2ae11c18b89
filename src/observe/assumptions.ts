/**
 * What is taken for granted of raw readings. Each: value, unit, source; judged by `npm run score:calibration` and
 * `npm run score:measured` unless another score is named.
 */

/** A whole tick more than rounding is what one reading in fifty shows. Common practice, no source. */
export const NEXT_TICK_CHANCE = 0.02;

/**
 * Part of the scatter of setting that repeats and the second side do not average out: the prism is turned to minimum
 * deviation, and the middle of the line judged, once for the line. Common practice, no source; the measured benches
 * scatter by more than their repeats do.
 */
export const SETTING_OF_THE_LINE = 0.4;
