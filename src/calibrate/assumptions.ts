/**
 * What is taken for granted of a calibration. Each: value, unit, source; common practice without a source where none is
 * named. Judged by `npm run score:calibration` and `npm run score:measured` unless another score is named. The slips of
 * single readings and the scatter of a hand: `observe/assumptions.ts`. What a curve of a prism is like is computed from
 * the catalogue of glasses (`curve/catalogue-trend.computed.ts`); here stands how far it may be off that.
 */
import { readableNm } from '../lines/visible.ts';

// What a student sees of the lamp, and finds in a table. Prominences are natural logarithms.

/**
 * Lines fainter than this are hardly ever seen, and not what a student takes for a line of the lamp: those that memory
 * leaves out where it names all that are seen stand just below it (`lines/prominence.ts`).
 */
export const FAINTEST = -3.5;
/** Chance that a line is written down: half of the most where it is fainter than medium; strong ones may be skipped too. */
export const WRITTEN = { most: 0.9, halfAt: -2.2, softness: 0.7 } as const;
/** Chance that a lamp shows the lines that an ordinary one may well lack (those of a molecule, of ions). */
export const OPTIONAL_CHANCE = 0.5;
/** Two bright lines closer than this, nm, may be read as one: mercury's yellow pair, 2.1 nm apart, is by many. */
export const PAIR_NM = 2.5;
/** Both lines of a pair are at least about medium: a fainter one does not move the middle. */
export const FAINTEST_OF_PAIR = -1.6;
/** A pair read as one line and a line of its own cannot be closer than this, nm. */
export const PAIR_APART_NM = 1.6;
/** Chance that a wavelength that the record states stands in the table that was used. */
export const IN_THE_TABLE_CHANCE = 0.97;
/** A table that gives a pair by its mean hardly gives its lines singly, and the other way round: factor of the chance. */
export const ALSO_SINGLY = 0.1;
/** Fainter lines than this stand in no table of a student. */
export const FAINTEST_LISTED = -5;
/** Wavelengths that tables give of one line differ by this much, nm, where a digit is looked for that is wrong. */
export const MEANT_NM = 0.06;

// What goes wrong with a known line, as chances before any reading.

/** A line named for another one of the lamp; a reading that belongs to no line. */
export const FAULT_CHANCE = { neighbour: 0.06, setAside: 0.004 } as const;
/** A lamp shows lines that the table lacks, and reflections: so many times as often no line where none is named. */
export const SET_ASIDE_UNNAMED = 3;
/** How far from the stated line a wrongly named one may be, in lines of the lamp: those beyond have no chance left. */
export const REACH = 12;
/** By how much a line that surely stands in the table makes it less likely that one beyond it was taken. */
export const PASSING_COST = 0.8;
/** A bright line is hardly named for a faint one, nor the other way, that the record does not name at all: factor. */
export const UNLIKE = 0.35;
/** Difference of prominence from which two lines look unlike. */
export const LOOKS_UNLIKE = 1.5;
/**
 * A wavelength that no line of the lamp has: is it right nevertheless (the table lacks a line), or one digit wrong?
 * Of four such wavelengths in tests/reference/benches none is right.
 */
export const UNLISTED = { right: 0.25, oneDigitWrong: 0.3 } as const;
/** After a line that was named for another one: the next is named alike, the two are exchanged, or all is well again. */
export const AFTER_ONE = { again: 0.4, exchanged: 0.15, inStep: 0.45 } as const;
/** Who has lost the place in the table twice does not find it soon. */
export const AFTER_MORE = { again: 0.85, exchanged: 0.01, inStep: 0.14 } as const;
/** One line of the lamp read at two places, once under another name. */
export const GIVEN_TWICE = 0.03;
/** The same reading under two names is likelier than two readings of one line. */
export const READ_TWICE = 0.2;
/** Over how many arc-minutes a reading may lie that has nothing to do with its line; on a scale in parts of what was read. */
export const STRAY_RANGE = { circleArcmin: 600, scaleSpans: 1.5, scaleCounts: 20 } as const;

// What goes wrong with a lamp.

/** A lamp is not what it is said to be: half of it for the lamps that calibrations use, half for all. */
export const WRONG_LAMP_CHANCE = 0.006;
/** The lamps that calibrations use. */
export const CALIBRATION_LAMPS: readonly string[] = [
  'mercury',
  'helium',
  'hydrogen',
  'sodium',
  'cadmium',
  'neon',
];
/**
 * The lamp is right and its lines were named by guess, from a table, in order: every name may be wrong. Two of 17
 * calibrations in tests/reference/benches are so.
 */
export const NAMED_BY_GUESS_CHANCE = 0.02;
/**
 * A bench that was moved between two lamps (how often and how far: `BETWEEN_TWO_LAMPS` and `MOVED_BENCH` of `observe`): it
 * is looked for where so many stated lines of the one part at least lie so many standard uncertainties off the curve of the
 * other; a line so many of its own from most of them has a fault of its own. A line read on both sides does not feel a move:
 * the ordinate of the others changes by this part of it at least. The other numbers are bounds of time, and how far in its
 * uncertainties the best move is looked for about the one first found. Judged by tests/calibrate/moved-lamps.test.ts.
 */
export const MOVED_LAMPS = {
  fewest: 2,
  smallest: 3,
  alike: 5,
  leastGain: 0.3,
  mostLamps: 5,
  mostExplanations: 10,
  farthest: 3,
} as const;
/** With fewer lines than this nothing can be said of a lamp as a whole. */
export const FEWEST_TO_SUSPECT = 3;
/**
 * The record's name of a lamp is wrong where at most this part of its stated wavelengths is the lamp's own, and at least
 * that part another's, of so many lines, as far as the table has lines as prominent as this.
 */
export const LAMP_NAME = { mostOwn: 0.5, leastOther: 0.8, fewest: 4, faintest: -4 } as const;

// The curve. Its unit is the ordinate's: arc-minutes, or scale units.

/** Level of a prism curve: minimum deviation in the middle of the spectrum, arc-minutes; any glass, and liquids. */
export const PRISM_LEVEL = { mean: 2900, sd: 1000 } as const;
/**
 * Width of its dispersion about the catalogue's trend, arc-minutes: apex angles other than 60° and liquids in hollow
 * prisms lie far off it; so does a prism left where it was set for one line.
 */
export const DISPERSION_SD = { 'each-line': 60, fixed: 90 } as const;
/** Dispersion of a prism in the middle of the catalogue, arc-minutes, where nothing is known of it yet. */
export const MIDDLE_DISPERSION = 180;
/**
 * Relative widths of c2/c1, c3/c1 and c4/c1 about the catalogue's trend. The catalogue itself scatters by 0.008,
 * 0.0008 and 0.0002 about it; other glasses and apex angles are left room for.
 */
export const RATIO_WIDTHS = [0.012, 0.0015, 0.0004] as const;
/** A prism left where it was set for one line adds a few arc-minutes at the ends. */
export const FIXED_RATIO_WIDTHS = [0.05, 0.012, 0.003] as const;
/** As long as the dispersion is not known they are so many times as wide. */
export const WIDER_AT_FIRST = 2.5;
/** A drum turns a screw, not an angle: its scale may be bent by a tenth. */
const SCALE_RATIO_WIDTHS = [0.12, 0.015, 0.004] as const;
/**
 * Kinds of arbitrary scales: `ratios` c2/c1, c3/c1 and c4/c1, null for those of a prism in the middle of the catalogue,
 * and how far a scale of that kind may be bent otherwise. A drum or an image scale follows the prism; a dial is cut or
 * geared so that it is nearly linear in the wavelength.
 */
export const SCALE_KINDS = [
  { chance: 0.85, ratios: null, widths: SCALE_RATIO_WIDTHS },
  // The ratios of the wavelength itself, written in this basis (to 0.004 of the rise over the visible spectrum).
  { chance: 0.15, ratios: [-0.35, 0.112, -0.038], widths: [0.12, 0.04, 0.015] },
] as const;
/** Widths of level and rise of a scale, in what its readings span; `counts` are added to that. */
export const SCALE_SPAN = { level: 3, rise: 2, counts: 10 } as const;
/** The curve's dispersion is known well enough for its own prior from this relative uncertainty on. */
export const KNOWN_DISPERSION = 0.3;
/** Where a curve may be asked at all, nm: where a line can be read, and a little more. */
export const ASKED_NM = { shortest: readableNm.shortest - 20, longest: readableNm.longest, step: 2 } as const;
/** The known lines must differ in ordinate by this many standard uncertainties, or there is nothing to calibrate by. */
export const DISPERSED = 2;
/** Lines so far apart in wavelength are never all read alike, nm: 30 nm are 4' even in the red of a crown. */
export const NEVER_ALIKE_NM = 30;
/** Readings within this part of a count are alike. */
export const READ_ALIKE = 0.5;
/** No prism on a bench deviates the visible spectrum by more than this, degrees. */
export const LARGEST_DEVIATION_DEG = 100;

// The glass.

/**
 * Indices that something transparent in a prism can have in visible light: water in a hollow one 1.33, the densest optical
 * glasses 2.0 (from memory), with room on either side.
 */
export const INDEX_OF_A_PRISM = { least: 1.25, most: 2.2 } as const;
/** Spread allowed between a melt and its catalogue entry: ±0.0005 in nd, ±0.8 % in the Abbe number (from memory). */
export const MELT_SPREAD = { nd: 0.0005, abbeFraction: 0.008 } as const;
/** A bench names its line from memory, 589 for the sodium pair at 589.3: this far apart, nm, it is that line. */
export const NAMED_FROM_MEMORY_NM = 0.6;
/** A term of a formula that is not larger than this many of its uncertainties is not shown by the readings. */
export const TERM_IS_SHOWN = 2;

// From when on something is asked about, or said.

/** From this probability on a fault is mentioned at a line that is used as it stands. */
export const MENTIONED = 0.25;
/**
 * From this probability on a fault that a new reading brings to light in an earlier line is asked about alone, not beside
 * the new one. Common practice, no source; judged by tests/analysis/query-reading.test.ts.
 */
export const NEARLY_SURE = 0.8;
/** How many standard uncertainties a neighbour must differ from the stated line before it is worth a doubt. */
export const WORTH_A_DOUBT = 4;
/** A name that is wrong with this chance before any reading (the lamp does not have that line) is always worth one. */
export const DOUBTFUL_BEFOREHAND = 0.1;
/** Nothing is searched for where this many lines at least lie within so many standard uncertainties of the curve. */
export const EVERYTHING_FITS = { fewest: 5, sigmas: 2.2, leastLeft: 0.1 } as const;
/** From this many times the usual scatter on a bench is suspicious as a whole, though no line of it is. */
export const SHAKING = 1.8;
/** Scatter of a hand that shakes, in usual ones: with it the search is made once more. */
export const SHAKING_HAND = 3;
/** So many faults at once may as well be a hand that shakes. */
export const MANY_FAULTS = 2;
/** Scatter in usual ones that is worth a word, and lines enough to know it by. */
export const LARGE_SCATTER = { times: 2.2, fewest: 5 } as const;
/** Below this many lines the shape of the curve is the catalogue's. */
export const FEW_LINES = 4;
/** Below this many lines none can be spared to try the curve. */
export const FEWEST_TO_SPARE_ONE = 3;

// How far the search goes: bounds of time.

/** Explanations followed at once: enough that the first two lines, which any curve fits, lose none worth having. */
export const FOLLOWED = { believed: 100, otherLamp: 20, fewest: 4 } as const;
/** Up to this many readings; of more readings fewer explanations are followed, so that the time stays in bounds. */
export const USUAL_READINGS = 40;
/** Steps of one search, readings times explanations followed times choices: some tenths of a second. */
export const MOST_STEPS = 1_000_000;
/** An explanation this far behind, in ln, does not come back. */
export const HOPELESS = 24;
/** A line without a stated wavelength is tried with every lamp line already: ln odds of the slips that are tried too. */
export const UNLIKELY_SLIP = -8;
/** Other lamps are tried for this many suspicious ones, the most faulty first, and for no larger table than this. */
export const OTHER_LAMPS = { mostSuspects: 2, mostReadings: 80, farBehind: 8 } as const;
/** Explanations whose curve is computed in full; those this far behind, in ln, are not. */
export const COMPUTED = { believed: 30, otherLamp: 3, farBehind: 12 } as const;
/** Explanations less likely than this, against the best, are dropped. */
export const NEGLIGIBLE_EXPLANATION = 1e-5;
/** Curves that differ by less than this part of a reading's uncertainty, at these wavelengths, are one hypothesis. */
export const ALIKE_CURVES = { part: 0.35, atNm: [400, 450, 500, 550, 600, 650, 700] } as const;
/** Hypotheses of the calibration that the identification sums over: so many, and none less likely than this. */
export const HYPOTHESES = { most: 4, negligible: 0.005 } as const;

// Whether it is a prism.

/**
 * Deviations rise with wavelength, as on a grating: of at least so many lines, in this share of the pairs that are so far
 * apart; they are a grating's where all sin δ/λ agree within this part. Common practice, no source.
 */
export const RISING = { fewestLines: 3, leastShare: 0.9, leastApartNm: 5, gratingWithin: 0.02 } as const;
