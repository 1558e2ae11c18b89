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

/**
 * By how much a tube's readings on a scale lie off the calibration's all alike, least counts (standard deviation): 0 to
 * 3 in the mean of each of eight tubes in tests/reference.
 */
export const SCALE_ORIGIN_COUNTS = 2;

/**
 * Chance of each slip in one raw reading, both directions together. Common practice, no source; judged also by the
 * columns with slips of `npm run score:identification`.
 */
export const SLIP_CHANCE = {
  division: 0.008,
  twoDivisions: 0.002,
  halfDivision: 0.003,
  halfDegree: 0.01,
  /** Where tenths of a degree are estimated: no half degrees are marked that one could miss. */
  halfDegreeOfDecimals: 0.003,
  degree: 0.008,
  tenDegrees: 0.003,
  /** Of a reading of seconds alone that this vernier does not show. */
  minutesAsSeconds: 0.05,
  digitsOfMinutes: 0.003,
  digitsOfDegrees: 0.001,
  /** Of the vernier's part, or of a scale. */
  digits: 0.002,
  /** Marks of a scale stand at every 1, 2 or 5 of a power of ten, or two are missed; for each power. */
  scaleMarks: [
    { times: 1, chance: 0.004 },
    { times: 2, chance: 0.001 },
    { times: 5, chance: 0.002 },
  ],
} as const;
