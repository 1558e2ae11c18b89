/**
 * How visible each line is, and how well that is known: everything that speaks for it, weighed by its own error.
 *
 * A prominence is a logarithm: 0 for a line called strong, and a grade less is a factor of about 3.7. What speaks for it:
 * the grade from memory; the relative intensity of the table, weighed with the eye's sensitivity and compressed by
 * a power, since the eye judges by ratios and lessens them; counts of small spectrometers, treated in the same way; what
 * people publish of a line's brightness; and how many observers wrote it down. Intensities and counts say nothing across
 * spectra or laboratories, so each set has a level of its own, found together with the prominences (least squares,
 * alternating). The sizes of the errors come from comparing the kinds with one another: tests/lines/prominence-errors.test.ts.
 */
import type { BrightnessFile } from './brightness-file.ts';
import { logEyeSensitivity } from './eye.ts';
import { gradeProminence } from './grade-prominence.ts';
import type { LineFile, LineRow, SpectrumRows } from './line-file.ts';
import { isPairMean } from './same-line.ts';
import type { BrightnessWitnesses } from './spectrum.ts';
import type { TubeFile } from './tube-file.ts';

/**
 * The power by which the eye compresses ratios, one for all. How many people write a line down against its tabulated
 * intensity bounds it (37 lines of four spectra): least squares, flattened by the scatter of the intensities, gives 0.50, the
 * ratio of the spreads, too steep, 0.65; grades from memory (279 lines) 0.19 and 0.46. Of 0.35, 0.45 and 0.55 the second
 * world favours the steeper ones.
 */
export const compression = 0.45;

/** Standard deviations, in the unit of prominence. */
export const errorSd = {
  /** A grade from memory, its three steps included. */
  memory: 0.62,
  /** "No line of this spectrum is seen but those that are graded". */
  ungraded: 0.6,
  /** What the eye makes of an intensity, whoever measured it. */
  eye: 0.34,
  /** More of that, at `farNm` beyond the range where photopic sensitivity describes a dark room well. */
  eyeFar: 0.5,
  /** The counts of one laboratory against those of others. */
  laboratory: 0.26,
  /** The word of a publication with a name; one that nobody can look up is no better than memory. */
  statement: 0.6,
  /** How observers choose among the lines that they see, beside the chance of small counts. */
  choice: 0.2,
  /** Intensities of the table against counts; those of a spectrum whose grades they do not follow are worse. */
  intensity: 0.4,
  /** A line of which nothing is known but that it is listed. */
  nothing: 0.9,
} as const;

/** Towards the ends a dark-adapted eye and a saturated colour (Helmholtz and Kohlrausch) depart from the photopic curve. */
const wellDescribedNm = { from: 470, to: 660, farNm: 60 } as const;

/** Variance of what the eye makes of an intensity at this wavelength. */
export function eyeVariance(nm: number): number {
  const { from, to, farNm } = wellDescribedNm;
  return errorSd.eye ** 2 + (errorSd.eyeFar * (Math.max(from - nm, nm - to, 0) / farNm)) ** 2;
}

/** So many graded lines weigh as much as what is known of intensities in general. */
const INTENSITY_PRIOR_LINES = 10;
/** Prominence of a line that memory leaves out of a spectrum whose visible lines are all graded. */
const fainterThanWeak = -3.6;
/** A line of which neither intensity nor brightness is known. */
const unmeasured = -4.5;
/** Scatter, from observer to observer, of the prominence down to which lines are written down. */
const LIMIT_SCATTER = 1.25;
/** A peak this far from a listed line, nm, is not taken for it, and this far away as good as at its place. */
const PEAK_REACH_NM = 0.7;
const PEAK_WIDTH_NM = 0.35;

export interface Prominence {
  /** What chances are worked out with: grades from memory are held to (`GRADE_HELD`). */
  readonly value: number;
  /** What all evidence together says, each by its error: what a line is called by (`brightnessWord`). */
  readonly best: number;
  /** Standard deviation of `value` as the prominence of an ordinary tube. */
  readonly sd: number;
  readonly witnesses: BrightnessWitnesses;
}

/** Something said of one line: `value` plus the level of its set, or as it stands. */
export interface Observation {
  readonly kind: 'memory' | 'ungraded' | 'statement' | 'reads';
  readonly value: number;
  readonly variance: number;
  readonly level: Level | null;
}

/** What all values of one set lack to be prominences. */
export interface Level {
  value: number;
  readonly isFixed: boolean;
  readonly members: { readonly line: Line; readonly value: number }[];
}

export interface Count {
  readonly source: string;
  readonly value: number;
  readonly level: Level;
  readonly isClipped: boolean;
}

export type StatementStanding = 'published' | BrightnessFile['weakSources'][string];

/** A row of the table and what speaks for its prominence. */
export interface Line {
  readonly row: LineRow;
  readonly spectrum: SpectrumRows;
  readonly observations: Observation[];
  readonly counts: Count[];
  /** Of the table; like counts without what the eye adds. */
  intensity: Omit<Observation, 'kind'> | null;
  statements: Readonly<Record<StatementStanding, number>>;
  read: readonly [readIn: number, of: number];
  /** By the errors of all that speaks for it, and with grades held to. */
  value: number;
  held: number;
  variance: number;
}

/** Natural logarithm of intensity times eye sensitivity, or null without an intensity. */
export function logVisibleIntensity(row: LineRow, spectrum: SpectrumRows): number | null {
  if (row.intensity === undefined) return null;
  // A step of the 0-10 estimates of band heads is itself a factor; e per step is a judgement, no source.
  const isEstimate = spectrum.intensityScale === 'eye-estimate';
  return (isEstimate ? row.intensity : Math.log(row.intensity)) + logEyeSensitivity(row.nm);
}

export interface GradedLine {
  /** ln(intensity × eye sensitivity). */
  readonly visible: number;
  /** Prominence of the grade. */
  readonly grade: number;
}

const scaleKey = (row: LineRow, spectrum: SpectrumRows) =>
  `${spectrum.spectrum}|${row.scale ?? spectrum.intensityScale}`;

/** The lines that have both a grade and an intensity, one list per spectrum and scale. */
export function gradedGroups(spectra: readonly SpectrumRows[]): Map<string, GradedLine[]> {
  const groups = new Map<string, GradedLine[]>();
  for (const spectrum of spectra) {
    for (const row of spectrum.rows) {
      const visible = logVisibleIntensity(row, spectrum);
      if (visible === null || row.brightness === undefined) continue;
      const key = scaleKey(row, spectrum);
      groups.set(key, [...(groups.get(key) ?? []), { visible, grade: gradeProminence[row.brightness] }]);
    }
  }
  return groups;
}

/** Variance of a prominence from the intensities of one set: what its graded lines show, held to what is usual. */
function intensityVariance(graded: readonly GradedLine[]): number {
  const differences = graded.map(({ visible, grade }) => grade - compression * visible);
  const level = mean(differences);
  const squares = differences.reduce((sum, difference) => sum + (difference - level) ** 2, 0);
  const freedom = Math.max(graded.length - 1, 0);
  const usual = errorSd.intensity ** 2;
  const own = Math.max(squares - freedom * (errorSd.memory ** 2 + errorSd.eye ** 2), 0);
  return Math.max((INTENSITY_PRIOR_LINES * usual + own) / (INTENSITY_PRIOR_LINES + freedom), usual);
}

function withGrades(line: Line): void {
  const { row, spectrum, observations } = line;
  const say = (kind: 'memory' | 'ungraded', value: number) =>
    observations.push({ kind, value, variance: errorSd[kind] ** 2, level: null });
  if (row.brightness !== undefined) say('memory', gradeProminence[row.brightness]);
  else if (spectrum.gradedComplete === true) say('ungraded', fainterThanWeak);
}

function withIntensities(lines: readonly Line[], spectra: readonly SpectrumRows[]): void {
  const graded = gradedGroups(spectra);
  const levels = new Map<string, Level>();
  const variances = new Map<string, number>();
  for (const spectrum of spectra) {
    const visible = spectrum.rows.flatMap((row) => logVisibleIntensity(row, spectrum) ?? []);
    // Without any graded line the most visible one sets the scale.
    const most = -compression * Math.max(...visible);
    for (const row of spectrum.rows) {
      const key = scaleKey(row, spectrum);
      if (levels.has(key)) continue;
      levels.set(key, { value: most, isFixed: !graded.has(key), members: [] });
      variances.set(key, intensityVariance(graded.get(key) ?? []));
    }
  }
  for (const line of lines) {
    const visible = logVisibleIntensity(line.row, line.spectrum);
    if (visible === null) continue;
    const key = scaleKey(line.row, line.spectrum);
    const level = levels.get(key)!;
    const value = compression * visible;
    level.members.push({ line, value });
    line.intensity = { value, variance: variances.get(key)!, level };
  }
}

/** Lines of a substance by the place that somebody gives, as bright as they are in its tube. */
class Places {
  readonly #lines: readonly Line[];
  readonly #pairs: TubeFile['unresolvedPairs'];
  readonly #levels: ReadonlyMap<string, number>;

  constructor(substance: string, lines: readonly Line[], tubes: TubeFile) {
    const parts = tubes.tubes.find((tube) => tube.substance === substance)!.parts;
    this.#levels = new Map(parts.map(({ spectrum, level }) => [spectrum, level]));
    this.#lines = lines.filter((line) => this.#levels.has(line.spectrum.spectrum));
    this.#pairs = tubes.unresolvedPairs.filter((pair) => pair.substance === substance);
  }

  /** The line that a peak or a reading is, or both of a pair; empty where none is near. */
  at(nm: number): readonly Line[] {
    const pair = this.#pairs.find(({ quotedNm }) => isPairMean(nm, quotedNm));
    if (pair !== undefined) return this.#lines.filter(({ row }) => pair.componentsNm.includes(row.nm));
    const near = this.#lines.filter(({ row }) => Math.abs(row.nm - nm) <= PEAK_REACH_NM);
    if (near.length === 0) return [];
    const worth = (line: Line) => line.value + this.levelOf(line) - ((line.row.nm - nm) / PEAK_WIDTH_NM) ** 2;
    return [near.reduce((best, line) => (worth(line) > worth(best) ? line : best))];
  }

  /** What the tube adds to the prominences of the line's spectrum. */
  levelOf(line: Line): number {
    return this.#levels.get(line.spectrum.spectrum)!;
  }
}

type PlacesOf = (substance: string) => Places;

function withCounts(file: BrightnessFile, placesOf: PlacesOf): void {
  for (const { source, substance, counts, clipped } of file.measured) {
    const levels = new Map<string, Level>();
    const strongest = new Map<Line, Count>();
    for (const [nm, count] of counts) {
      for (const line of placesOf(substance).at(nm)) {
        const key = line.spectrum.spectrum;
        const level = levels.get(key) ?? { value: 0, isFixed: false, members: [] };
        levels.set(key, level);
        const value = compression * (Math.log(count) + logEyeSensitivity(line.row.nm));
        const isClipped = clipped?.includes(nm) ?? false;
        const known = strongest.get(line);
        // Of two peaks at one line the stronger is the line.
        if (!known || value > known.value) strongest.set(line, { source, value, level, isClipped });
      }
    }
    for (const [line, count] of strongest) {
      line.counts.push(count);
      if (!count.isClipped) count.level.members.push({ line, value: count.value });
    }
  }
}

function withStatements(file: BrightnessFile, placesOf: PlacesOf): void {
  for (const { source, substance, nm, grades } of file.statements) {
    const standing = file.weakSources[source] ?? 'published';
    const sd = standing === 'published' ? errorSd.statement : errorSd.memory;
    const places = placesOf(substance);
    for (const line of places.at(nm)) {
      const value = mean(grades.map((grade) => gradeProminence[grade])) - places.levelOf(line);
      line.observations.push({ kind: 'statement', value, variance: sd ** 2, level: null });
      line.statements = { ...line.statements, [standing]: line.statements[standing] + 1 };
    }
  }
}

/** A count of observers as a prominence above their limit, in the unit of its scatter, with the variance of that. */
export function readScore(readIn: number, of: number): { readonly score: number; readonly variance: number } {
  const share = (readIn + 0.5) / (of + 1);
  // The logistic curve for the normal one: they differ by less than 0.01 when scaled by 1.702.
  const slope = 1.702 * share * (1 - share);
  return {
    score: Math.log(share / (1 - share)) / 1.702,
    variance: (share * (1 - share)) / of / slope ** 2,
  };
}

function withReads(file: BrightnessFile, placesOf: PlacesOf): void {
  for (const { substance, lines } of file.reads) {
    const level: Level = { value: 0, isFixed: false, members: [] };
    for (const [nm, readIn, of] of lines) {
      const { score, variance } = readScore(readIn, of);
      const places = placesOf(substance);
      for (const line of places.at(nm)) {
        const value = LIMIT_SCATTER * score - places.levelOf(line);
        const all = LIMIT_SCATTER ** 2 * variance + errorSd.choice ** 2;
        line.observations.push({ kind: 'reads', value, variance: all, level });
        level.members.push({ line, value });
        line.read = [readIn, of];
      }
    }
  }
}

/** The laboratories' counts of a line as one, without what the eye adds; a clipped count only bounds from below. */
export function countsOf(line: Line): Weighed | null {
  const values = line.counts.flatMap(({ value, level, isClipped }) =>
    !isClipped || value + level.value > line.value ? [value + level.value] : [],
  );
  if (values.length === 0) return null;
  return { value: mean(values), variance: errorSd.laboratory ** 2 / values.length };
}

/** Something with its variance. */
export interface Weighed {
  readonly value: number;
  readonly variance: number;
}

/** Mean of independent values by the inverse of their variances; null for none. */
function weightedMean(values: readonly Weighed[]): Weighed | null {
  const weights = values.reduce((sum, { variance }) => sum + 1 / variance, 0);
  const weighted = values.reduce((sum, { value, variance }) => sum + value / variance, 0);
  return weights > 0 ? { value: weighted / weights, variance: 1 / weights } : null;
}

const atLevel = ({ value, variance, level }: Omit<Observation, 'kind'>): Weighed => ({
  value: value + (level?.value ?? 0),
  variance,
});

/**
 * A grade counts for more than its error says: the limits down to which lines are seen were set with the grades as they
 * stand, whose few bright lines stand out more than measured ones do. Which lines people write down (47 lines, left out of
 * what foretells them, 43 degrees of freedom) speaks for less: χ² is 70 held to 12, 54 to 3 and 46 not held to; so does the
 * second world. Held to less than 3, neon that lies 6' high is told no more.
 */
const GRADE_HELD = 3;

const asHeld = (observation: Observation): Weighed => {
  const { value, variance } = atLevel(observation);
  const held = observation.kind === 'memory' || observation.kind === 'ungraded' ? GRADE_HELD : 1;
  return { value, variance: variance / held };
};

function weigh(line: Line): void {
  const counts = countsOf(line);
  const intensity = line.intensity === null ? [] : [atLevel(line.intensity)];
  const physical = weightedMean(counts === null ? intensity : [counts, ...intensity]);
  const seen =
    physical === null ? [] : [{ ...physical, variance: physical.variance + eyeVariance(line.row.nm) }];
  const { value, variance } = weightedMean([...line.observations.map(atLevel), ...seen]) ?? {
    value: line.spectrum.unmeasuredProminence ?? unmeasured,
    variance: errorSd.nothing ** 2,
  };
  line.value = value;
  line.held = (weightedMean([...line.observations.map(asHeld), ...seen]) ?? { value }).value;
  line.variance = variance;
}

const ROUNDS = 25;

/** Levels and prominences in turn, until both stand still. */
function settle(lines: readonly Line[]): void {
  const levels = new Set(
    lines.flatMap((line) => [
      ...line.observations.flatMap(({ level }) => level ?? []),
      ...line.counts.map(({ level }) => level),
      ...(line.intensity?.level ? [line.intensity.level] : []),
    ]),
  );
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const level of levels) {
      if (level.isFixed || level.members.length === 0) continue;
      level.value = mean(level.members.map(({ line, value }) => line.value - value));
    }
    for (const line of lines) weigh(line);
  }
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(values.length, 1);

function witnessesOf({ counts, statements, read }: Line): BrightnessWitnesses {
  return {
    laboratories: new Set(counts.map(({ source }) => source)).size,
    ...statements,
    readIn: read[0],
    readOf: read[1],
  };
}

const newLine = (row: LineRow, spectrum: SpectrumRows): Line => ({
  row,
  spectrum,
  observations: [],
  counts: [],
  intensity: null,
  statements: { published: 0, unnamed: 0, practice: 0 },
  read: [0, 0],
  value: 0,
  held: 0,
  variance: 0,
});

/** Every row of every spectrum with all that speaks for it, levels and prominences settled. */
export function settledLines(
  lineFile: LineFile,
  tubeFile: TubeFile,
  brightnessFile: BrightnessFile,
): readonly Line[] {
  const lines = lineFile.spectra.flatMap((spectrum) => spectrum.rows.map((row) => newLine(row, spectrum)));
  for (const line of lines) withGrades(line);
  withIntensities(lines, lineFile.spectra);
  // Which line a peak is, is judged by what is known before.
  settle(lines);
  const known = new Map<string, Places>();
  const placesOf = (substance: string): Places => {
    const places = known.get(substance) ?? new Places(substance, lines, tubeFile);
    known.set(substance, places);
    return places;
  };
  withCounts(brightnessFile, placesOf);
  withStatements(brightnessFile, placesOf);
  withReads(brightnessFile, placesOf);
  settle(lines);
  return lines;
}

/** Prominence of every row, before the level that a tube gives its spectrum. */
export function prominences(
  lineFile: LineFile,
  tubeFile: TubeFile,
  brightnessFile: BrightnessFile,
): ReadonlyMap<LineRow, Prominence> {
  return new Map(
    settledLines(lineFile, tubeFile, brightnessFile).map((line) => [
      line.row,
      {
        value: line.held,
        best: line.value,
        sd: Math.sqrt(line.variance),
        witnesses: witnessesOf(line),
      },
    ]),
  );
}
