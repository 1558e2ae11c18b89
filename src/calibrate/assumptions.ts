/**
 * What is taken for granted of a calibration. Each: value, unit, source; judged by `npm run score:calibration` and
 * `npm run score:measured` unless another score is named.
 */

/** From this probability on a fault is mentioned at a line that is used as it stands. Common practice, no source. */
export const MENTIONED = 0.25;
