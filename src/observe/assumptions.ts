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
 * Usual scatter of one setting: `fixed` in arc-minutes, and so many least counts of a vernier (common practice, no
 * source), or of a circle that is read to a decimal of a degree. Scales, drums and such circles are set and estimated
 * to about one least count (the benches in tests/reference/benches: 0.3 to 3 least counts on twelve scales, 0.4 to 2 on
 * seven circles).
 */
export const USUAL_SCATTER = { fixedArcmin: 0.68, vernier: 0.11, decimals: 0.75, scale: 1 } as const;
/** Half width of the log-normal prior of the scatter, in ln: a factor of two either way. Common practice, no source. */
export const SCATTER_WIDTH = 0.68;
/** Where that prior is summed, in its half widths; hands that shake are commoner than better ones. */
export const SCATTER_STEPS = [-2.1, -1.4, -0.7, 0, 0.7, 1.4, 2.1, 2.8] as const;
/** ln density below which a repeat says no more of the scatter: it is left to the slips. */
export const LEAST_OF_A_REPEAT = -12;

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

/** A reading may disagree with its repeats, sides or windows for no reason that has a name. Common practice, no source. */
export const UNNAMED_FAULT = { chance: 0.01, widthArcmin: 60 } as const;
/** The same of a reading of the central image, against the others of its list. */
export const UNNAMED_CENTRAL_FAULT = { chance: 0.004, widthArcmin: 240 } as const;
/** How often a reading of the central image scatters as widely as repeats at the most. Common practice, no source. */
export const WIDE_SCATTER_CHANCE = 0.05;
/**
 * A moved bench: knocked by so much (standard deviation), or turned to anywhere within a reach. Arc-minutes; parts of the
 * visible spectrum on a scale, whose units may be of any size. Common practice, no source; judged by the moved benches
 * of `npm run score:identification` and by tests/identify/moved-bench.test.ts.
 */
export const MOVED_BENCH = { sdArcmin: 12, reachArcmin: 300, sdOfSpectrum: 0.06, reachInSpectra: 1 } as const;
/**
 * How often, where the same thing (the central image, a known line) was read twice: people often read it again because
 * something happened. Common practice, no source; judged by the same.
 */
export const BETWEEN_TWO_READINGS = { knocked: 0.04, turned: 0.01 } as const;
/**
 * The same between two lamps, or lamp and tube, where nothing tells of it: more often, as the lamp is changed in between. Of
 * thirteen tubes of published benches (tests/reference) two were; judged by the same and by `npm run score:second-world`.
 */
export const BETWEEN_TWO_LAMPS = { knocked: 0.05, turned: 0.015 } as const;
/**
 * When the central image of a bench that was moved between its lamps was read: before all of them, after them, or some
 * readings before the move and some after it. Common practice, no source; judged by tests/calibrate/moved-lamps.test.ts.
 */
export const CENTRAL_READ = { first: 0.9, last: 0.07, between: 0.03 } as const;
/** How often a bench that was moved between its lamps is put back where it stood before a tube is read. As above. */
export const PUT_BACK = 0.05;
/** Central readings may have been made at another time than the likeliest where that is so much as probable: the tubes are asked. */
export const OPEN_WHEN_READ = 0.05;

// From when on something is asked about. Common practice, no source.

/** Differences of central images beyond this many standard uncertainties (and one count) are noticed. */
export const NOTICED = 4;
/** From these odds on a disagreement of the two sides is taken for a fault of one of them. */
export const DISAGREEMENT_ODDS = 0.05;
/** What all lines of a bench share is known from so many of them; from fewer it could itself be misread. */
export const FEWEST_FOR_CONSTANTS = 3;

// How far the possibilities are followed: bounds of time.

/** ln odds below which a slip is not worth following. */
export const LOWEST_LOG_ODDS = -14;
/** Ways to understand one list of central readings, beside that as written. */
export const MOST_VERSIONS = 16;
/** Longer lists than this were read before a move of the bench, or after it, as a whole. */
export const MOST_CENTRALS_TO_PART = 8;
/** Of longer lists than this none: the mean hardly feels a slip. */
export const MOST_CENTRALS = 60;
/** Shifts closer than this, arc-minutes, are one. */
export const ALIKE_SHIFTS_ARCMIN = 0.5;
/** So many shifts with something misread are kept, none less likely than this. */
export const MISREAD_SHIFTS = { most: 3, negligible: 0.02 } as const;
/** As written is kept down to here: the readings of the tube may know better that the bench was moved. */
export const IMPOSSIBLE_AS_WRITTEN = 1e-9;

// What is written down coarser than it is read.

/**
 * Readings that are all multiples of one of these steps (on a scale in least counts), the coarsest first, were rounded to
 * it where that has less than this chance. A part of the lines, no larger than `finer`, may have no reading that is a
 * multiple: they were read finer than the rest (common practice, no source).
 */
export const ROUNDED = {
  stepsArcmin: [60, 30, 20, 15, 10, 6, 5],
  steps: [100, 50, 20, 10, 5],
  chance: 1e-4,
  finer: 1 / 3,
} as const;
