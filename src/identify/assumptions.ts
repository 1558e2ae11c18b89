/**
 * What is taken for granted where a tube is identified. Each: value, unit, source; common practice without a source where
 * none is named. Judged by `npm run score:identification`, `score:second-world` and `score:measured` unless another score
 * or test is named. How bright lines are, and how well that is known: `lines/prominence.ts`; strengths of components:
 * `data/tubes.json`. The slips of single readings and the scatter of a hand: `observe/assumptions.ts`.
 */

/** Observers of one kind: `identify/spectrum/detection.ts` says what the numbers do. */
export interface LookingKind {
  /** Scatter (ln) of what is noticed, beside what is not known of a line's prominence. */
  readonly scatter: number;
  /** Chance that even the brightest line is not written down. */
  readonly overlooked: number;
  /** Chance that a line far below the limit is. */
  readonly surprise: number;
  /** Of more lines than this they write down about so many. */
  readonly atMost: number;
  /** Of these the bright ones rather than the faint? */
  readonly brightFirst: boolean;
  /** Readings that are no line of the tube are so many times as frequent as usual. */
  readonly strays?: number;
  /** Prominence of a line that is seen every other time, and how often such an observer comes. */
  readonly limits: readonly (readonly [limit: number, weight: number])[];
}

// What a tube shows and an observer writes down. Prominences are natural logarithms. Judged by `npm run
// score:identification`, its stress column included, and `npm run score:second-world`.

/**
 * By how much worse prominences are known than the errors of what speaks for them say (`prominenceSd` of a line): those
 * errors are taken for independent, and are not (who grades from memory has seen the tables, laboratories buy the same
 * lamps and detectors), and no tube is the mean tube. Factor; of 1, 1.6 and 2 the second world is foretold best with this
 * one at every prism, the own columns alike.
 */
export const PROMINENCE_SD_FACTOR = 1.6;
/** Lines below this prominence are never counted on. */
export const FAINTEST_PROMINENCE = -5;
/** Lines below this one are a rare surprise even where fainter lines are seen. */
export const HARDLY_SEEN = -4;
/** By how much rarer the surprise is there: factor. */
export const HARDLY_SEEN_SURPRISE = 0.25;
/** Someone who looks for a line at its place sees the brightest with this chance. */
export const LOOKING_MOST = 0.9;
/** Someone who looks for a line at its place sees lines fainter by this. */
export const LOOKING_GAIN = 0.8;
/** Scatter (ln) of what is seen by someone who looks for a line at its place. */
export const LOOKING_SCATTER = 0.9;
/** Most observers. A limit above 0: they stopped before all of the bright lines were written down. */
export const ORDINARY: LookingKind = {
  scatter: 0.6,
  overlooked: 0.035,
  surprise: 0.003,
  atMost: Number.POSITIVE_INFINITY,
  brightFirst: true,
  limits: [
    [-3.7, 0.02],
    [-3.1, 0.09],
    [-2.5, 0.15],
    [-1.9, 0.15],
    [-1.3, 0.15],
    [-0.7, 0.12],
    [0.1, 0.03],
  ],
};
/**
 * A tube that looks unlike the line table: other pressure, age, current, an impurity. An impurity shows a whole spectrum
 * or nothing, so that strays come in numbers: one in such a bench, as often two or three (common practice, no source).
 */
export const UNUSUAL: LookingKind = {
  scatter: 2,
  overlooked: 0.15,
  surprise: 0.03,
  strays: 6,
  atMost: Number.POSITIVE_INFINITY,
  brightFirst: true,
  limits: [
    [-3.4, 0.012],
    [-2.2, 0.018],
    [-1, 0.021],
    [0.4, 0.021],
  ],
};
/** Some of the lines they saw, bright or not. */
export const ANY_OF_THEM: LookingKind = {
  scatter: 0.9,
  overlooked: 0.6,
  surprise: 0.006,
  atMost: Number.POSITIVE_INFINITY,
  brightFirst: true,
  limits: [
    [-3.6, 0.03],
    [-2.4, 0.042],
  ],
};
/** A tube with many lines, of which nobody writes down more than a dozen. */
export const A_DOZEN: LookingKind = {
  scatter: 0.8,
  overlooked: 0.035,
  surprise: 0.006,
  atMost: 6,
  brightFirst: true,
  limits: [
    [-3.6, 0.06],
    [-2.7, 0.07],
    [-1.8, 0.06],
  ],
};
/**
 * Most observers who have just begun: of the lines that they would see as many are down as there are readings, which
 * `atMost` is then set to, from one end of the spectrum or as they come. Three limits stand for those of `ORDINARY`.
 */
export const NOT_DONE: LookingKind = {
  ...ORDINARY,
  brightFirst: false,
  limits: [
    [-3.2, 0.3],
    [-2, 0.4],
    [-0.8, 0.3],
  ],
};
/**
 * Odds that a list of one line is not done; of n lines an n-squared-th part of them, for what is handed in has mostly several
 * (common practice, no source). Judged by `npm run score:first-readings`, where it counts, and by the finished lists of all
 * other scores, where it must not: falling as 1/n, or not at all, it told more tubes left out as listed ones.
 */
export const NOT_DONE_ODDS = 0.6;
/** Who says that all lines are down. */
export const COMPLETE: LookingKind = {
  scatter: 0.9,
  overlooked: 0.03,
  surprise: 0.008,
  atMost: Number.POSITIVE_INFINITY,
  brightFirst: true,
  limits: [
    [-4, 0.12],
    [-3.2, 0.18],
    [-2.5, 0.2],
    [-1.8, 0.17],
    [-1.1, 0.1],
    [-0.4, 0.05],
  ],
};
/** Shares of the lines seen that are written down: a few stand for all, so that their chances can be kept. */
export const WRITTEN_SHARES = [1, 0.75, 0.56, 0.42, 0.32, 0.24, 0.18, 0.13, 0.1] as const;
/** A line that was looked for in vain is hardly among the readings: factor of its odds. */
export const READ_ALL_THE_SAME = 0.1;
/** The head of a band is read a little to its shaded side, nm: mean and scatter. */
export const HEAD_BIAS = { meanNm: 0.4, sdNm: 0.6 } as const;
/** A component this many standard deviations stronger than usual shows its faintest lines. */
export const COULD_BE = 1;
/** A component whose brightest line stays below this prominence even where it is strong makes no difference. */
export const WORTH_A_STRENGTH = -3;
/** How many standard deviations of strength that is. */
export const STRONG = 1.5;
/** More than so many components are not followed: the faintest of them keep their ordinary strength. */
export const MOST_COMPONENTS = 3;
/**
 * Brightness that people note against the prominence of the line. `scatter`: of the word from line to line (1.3), and of
 * what an observer calls strong or weak (1.25, as the limits of observers in `lines/prominence.ts`), more than both
 * together because one observer's scale is met again in every word of a bench; `wrongWord`: chance that a word is just
 * wrong; `share`: of each word among all that are noted. Common practice, no source; judged by the noted benches of
 * `npm run score:second-world` (scatter 1.5: 3 % fewer are right).
 */
export const NOTED_BRIGHTNESS = {
  scatter: 2.2,
  wrongWord: 0.05,
  share: { strong: 0.33, medium: 0.33, weak: 0.34 },
} as const;
/** Lines closer than this are read as one, arc-minutes, with weights; on a scale in least counts. */
export const RESOLUTIONS = [
  { size: 1.6, weight: 0.45 },
  { size: 0.7, weight: 0.2 },
  { size: 2.7, weight: 0.35 },
] as const;
/** Of more readings than anyone takes at a bench the usual resolution alone is tried, so that the time stays in bounds. */
export const MANY_READINGS = 120;

// Readings that are no line of the tube.

/** Strays in one bench, of any wavelength. */
export const STRAYS_ANYWHERE = 0.1;
/** Strays in one bench at the lines of usual impurities. */
export const STRAYS_AT_IMPURITIES = 0.06;
/** Where lines of which one knows nothing lie, nm: evenly from here to there, thinning out beyond by e in so many nm. */
export const STRAYS_NM = { shortest: 395, longest: 705, thinning: 15 } as const;
/** Impurities show lines as prominent as this. */
export const BRIGHT_IMPURITY = -0.6;
/** A stray at an impurity's line lies within this of it, nm, however well it is read. */
export const STRAY_WIDTH_NM = 0.5;
/**
 * Chance of each number of lines that a tube that is not listed shows: few show a student more than a dozen, and up to
 * there it is nearly even; ln that each further one costs.
 */
export const UNLISTED_COUNT = { chance: 0.09, many: 12, lnPerFurther: 0.3 } as const;
/** A reading off the spectrum for a reason that has no name: its chance, over so many times the spectrum's width. */
export const UNNAMED_SLIP = { chance: 0.004, spectra: 3 } as const;
/** ln odds from which a slip is likely by what the readings of one line say of each other. */
export const LIKELY_SLIP = -2.5;
/** Readings that are no line of the tube, in one bench, where a shift is looked for. */
export const OUTLIERS_OF_A_SHIFT = 0.1;
/**
 * One looks along the field of view, not at a point, and sets the cross-hairs where the prompt says with a hand's
 * error: standard uncertainties of a reading, and nm.
 */
export const LOOKED_REACH = { uncertainties: 3, nm: 1.5 } as const;
/** Within so many standard uncertainties of a reading there is a line already, and it has been read. */
export const READ_WITHIN = 2.5;

// Priors of tubes and mixtures. Judged by `npm run score:identification` ("left out" for unlisted tubes) and
// `npm run score:measured`.

/**
 * Prior of a tube that is not among the candidates, against all of them together: the list holds what is sold for teaching
 * (common practice, no source). From 0.006 to 0.012 tubes left out are called unlisted more often (27, at this value 37, at
 * 0.012 38 % of 60), and of 690 listed ones none, one, four are lost to it (all before `evidencePower`).
 */
export const UNLISTED_PRIOR = 0.008;
/**
 * From so many readings on what is not quite true of all that is taken for granted here - of lamps, eyes and hands - weighs
 * more than they do (`evidencePower`). In the second world a tube that comes first was overrated by 3 % of chance with two or
 * three readings and by 19 % with twelve (crown 5′), with one power for all of them; 20 would tell it best there, the own
 * columns are told best without any.
 */
export const READINGS_OUTWEIGHED = 40;
/** Chance of any mixture at all: sets for teaching hold one substance to a tube. */
export const ANY_MIXTURE = 0.02;
/** What a pair that laboratories do have is worth beyond others: factor. */
export const USUAL_PAIR = 8;
/** ln by which the lines of an admixture are fainter than in a tube of their own: about half as bright. */
export const ADMIXTURE_FAINTER = 0.7;
/** Standard deviation of that. */
export const ADMIXTURE_SD = 1;
/** Chance that a metal lamp is read while its starting gas still shows, and how much fainter the gas then is. */
export const STARTING_GAS = { chance: 0.1, fainter: 1.5, amountSd: 1.3 } as const;
/**
 * Chance that mercury of the room or of a neighbour's lamp is read among the lines of a tube, and how much fainter than a
 * mercury lamp of one's own it is. Of chances of 0.01, 0.03 and 0.08 no score favours one.
 */
export const ROOM_LIGHT = { chance: 0.02, fainter: 1.5, amountSd: 1.3 } as const;
/** A line of this prominence, between medium and weak, is likely written down. */
export const BRIGHT_ADMIXTURE = -2;
/** An admixture must meet so many readings: one line meets a reading by chance too easily. */
export const FEWEST_MET = 2;
/** Many lines meet anything: what counts is how few were needed, so that twenty cost as much as one reading met. */
export const COST_OF_A_LINE = 0.05;
/** From this many unexplained readings a mixture is thought of. */
export const ENOUGH_UNEXPLAINED = 2;
/** So many leading tubes are tried as the main substance of a mixture. */
export const MOST_MAINS = 3;
/** So many admixtures are tried with each. */
export const MOST_ADMIXTURES = 4;
/**
 * What the lines of a tube must better the evidence of its companion by (the starting gas of a metal, mercury of the room), ln,
 * before what is more counts for it: where the companion is a candidate, double, as faint lines that chance brings near one
 * of its readings give less; where it is none and nothing else could take what it explains, more (tubes of neon left out were
 * named as lamps of metals).
 */
export const WORTH_A_COMPANION = { beside: Math.LN2, alone: 3 } as const;

// A bench that moved between lamp and tube. Judged by tests/identify/moved-bench.test.ts and `npm run score:second-world`.

/** A shift stands for those within this many standard uncertainties of a reading. */
export const SHIFT_SPREAD = 1.5;
/** Smaller shifts, in standard uncertainties of a reading, are no move. */
export const SMALLEST_SHIFT = 3;
/** Fewer readings meet some tube by chance too easily. */
export const FEWEST_TO_FIND_A_SHIFT = 4;
/** Lines of smaller odds of being seen meet readings by chance. */
export const LEAST_ODDS = 0.1;
/** A reading farther than this from its line, in standard uncertainties, does not meet it. */
export const MET_WITHIN = 3.5;
/** From so many standard uncertainties on a shift is no chance. */
export const SIGNIFICANT_SHIFT = 3;
/** Of fewer matched readings the lines may be wrong ones. */
export const FEWEST_MATCHED = 3;

// How far a search is followed, in ln of evidence unless a unit is given. Judged against the whole search.

/** Candidates this far behind the best after a quick look are not looked at more closely. */
export const HOPELESS = 14;
/** Those this far behind are looked at more closely only if slips bring them nearer. */
export const UNLIKELY = 9;
/** Tubes this far behind after a quick look may lead in the end. */
export const NEARLY_LEADING = 3;
/** Between two tubes a quick look is right within this. */
export const COARSE_ERROR = 3;
/** A tube this close, in ln, to the likeliest of its class stands for the class. */
export const AS_GOOD_AS = 4;
/** A coarse look takes every third way of looking. */
export const COARSE_STEP = 3;
/** The way of looking of ordinary tubes down to lines of middling brightness, by its place in ORDINARY or COMPLETE. */
export const MIDDLE_WAY = 3;
/** Strengths with a way of looking, this far behind the best at one place of the common error, are left out at others. */
export const NEGLIGIBLE_DETECTION = 8;
/**
 * Strengths this far behind the best ones, judged by the middle way of looking, are not looked at more closely. With this and
 * `NEGLIGIBLE_DETECTION` the probability of the first tube moved by 0.01 on average, 0.09 at most (40 benches), and it stayed the first.
 */
export const NEGLIGIBLE_STRENGTH = 5;
/** Places of the common error this far behind the best one are left out. */
export const NEGLIGIBLE_NODE = 4.5;
/**
 * Rounds of the sum over all orders of the readings, and the change that is worth another: more of them moved it by 0.04 at
 * the most (400 random cases).
 */
export const ANY_ORDER_ROUNDS = { most: 20, worthAnother: 0.01 } as const;
/** Slips this far behind the plain reading add nothing. */
export const NEGLIGIBLE_SLIPS = -4.5;
/** A candidate this far behind the leading one, slips and all, does not matter. */
export const BEATEN = -9;
/** Not even a few slips make up for this. */
export const BEYOND_SLIPS = -13;
/** How many slips are tried alone, how many as the second ..., and how many of them are followed further. */
export const SLIP_STEPS = [
  { tried: 8, followed: 2 },
  { tried: 8, followed: 1 },
  { tried: 5, followed: 1 },
  { tried: 5, followed: 0 },
] as const;
/** What a further slip can bring at the most. */
export const MOST_GAIN = 3;
/** Shifts this far, in ln, behind the likeliest understanding are not weighed. */
export const NEGLIGIBLE_SHIFT = 6;
/** So many shifts are weighed. */
export const MOST_SHIFTS = 6;
/** So many of each tube are looked at. */
export const MOST_SHIFTS_OF_A_TUBE = 3;
/** Of more readings so many, evenly, are enough to find a shift by. */
export const MOST_READINGS_OF_A_SHIFT = 60;
/** Steps of the search for shifts, on each side. */
export const MOST_SHIFT_STEPS = 2000;
/** Of more lines so many, evenly, are enough for what the curve's errors add to the mean. */
export const MOST_PLACES = 30;
/** A mode smaller than this fraction of a reading's own uncertainty is as good as independent. */
export const WORTH_A_MODE = 0.45;
/** The common error is integrated to so many of its standard deviations. */
export const MODE_REACH = 2.4;
/** In at the most so many steps: of one mode, of each of two. */
export const MOST_MODE_STEPS = [21, 5] as const;
/**
 * Of one tube, and of all tubes of a record together: about a second, and four, of processor time (measured);
 * `shareOfMany`: of a tube with more than `MANY_READINGS`, whose every step is longer.
 */
export const MOST_UNITS = { ofOneTube: 30e6, inAll: 76e6, shareOfMany: 0.25 } as const;

// Tubes that look alike, fits, and what is worth saying.

/** Lines down to this prominence make the look of a tube. */
export const FAINTEST_OF_A_LOOK = -2;
/** Lines that differ more in prominence than this are told apart by eye. */
export const ALIKE_PROMINENCE = 1.6;
/** How many standard uncertainties apart two lines may lie and still be one to the eye. */
export const ALIKE_PLACE = 1.2;
/** Root mean square of residuals in units of u beyond which a fit is not acceptable however few the rivals. */
export const WORST_FIT = 2.2;
/** Of so many readings one may be a stray or a slip. */
export const ONE_IN = 4;
/** A tube is identified from this probability on. Judged by "decided wrongly" of the scores. */
export const IDENTIFIED = 0.99;
/** From this probability on a tube is said to be none of the list. */
export const SURELY_UNLISTED = 0.9;
/** A shift that only these readings tell of takes one of them to find; fewer than this leave nothing to check it by. */
export const BEAR_OUT_A_SHIFT = 5;
/** From this chance on a slip is announced: likelier than not. */
export const ANNOUNCED = 0.5;
/** Of several readings of which one is misread, those are named that take at least this part of the chance. */
export const PART_OF_SEVERAL = 0.2;
/** ln likelihood from which a colour contradicts a line: some 24 nm beyond what the word covers. */
export const CONTRADICTS = -2;
/** So many colours must contradict: one or two words may be slips of the pen. */
export const FEWEST_COLOURS = 3;
/** Smaller gains, in ln, are not worth saying. */
export const GAIN_WORTH_SAYING = 1.5;
/** So many reasons are given. */
export const MOST_REASONS = 6;
/** So many missing lines are named among them. */
export const MISSING_NAMED = 3;
/** A line that the leading row has within this distance, read or missing, does not speak against another, nm. */
export const HAS_IT_TOO_NM = 1;
/** A loss smaller than this, in ln, is little. */
export const LOSS_WORTH_SAYING = 1;
/** Readings that lose less than this part of what the worst of them loses are not named. */
export const NAMED_FROM = 0.25;
/** A line is called missing when it was likelier seen than not. */
export const COUNTED_ON = 0.5;
/** So many missing lines are reported of a tube. */
export const MISSING_REPORTED = 12;
/** So many lines of a tube are called its brightest. */
export const BRIGHTEST = 3;
/** Less information than this (in bits) is not worth a look. */
export const WORTH_A_LOOK = 0.02;
/** A look that tells this part of what the best one tells is as good. */
export const NEARLY_AS_TELLING = 0.95;
/** A next look is at a line of one of so many rows. */
export const MOST_RIVALS = 6;
/** Rows less likely than this are no rivals. */
export const LEAST_PROBABILITY = 1e-4;
/** Lines less likely to be seen are not asked for; a line that is to confirm a tube must be likelier. */
export const LEAST_CHANCE = { separate: 0.1, confirm: 0.5 } as const;
/** Chance that something is seen where a tube has no line. */
export const NOTHING_THERE = 0.02;
/** How many lines a tube that is not listed shows, over so many nm. */
export const UNLISTED_LINES = { count: 10, overNm: 310 } as const;
/** Seen likelier than this a tube stands on the side of "a line there". */
export const WITH_LINE = 0.4;
/** A reading of a tube is perhaps a lamp's in the room within so many u of its line, as far as u is no larger than this. */
export const AS_NEAR_AS_LIGHT = { sigmas: 2, mostNm: 3 } as const;
