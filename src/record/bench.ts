/**
 * The bench as the computation sees it: a record with every reading turned into numbers.
 *
 * Circle angles are in degrees; on an instrument with a linear scale the same places hold scale units.
 */

export const methods = ['central', 'both-sides', 'scale'] as const;
export type Method = (typeof methods)[number];

/** One setting of the cross-hairs: what one window (or two opposite ones) showed, on one side or on both. */
export type Setting = WrittenTo &
  (
    | { readonly kind: 'one-side'; readonly windows: readonly number[] }
    | { readonly kind: 'both-sides'; readonly left: readonly number[]; readonly right: readonly number[] }
  );

interface WrittenTo {
  /**
   * To what it was rounded when it was written down, arc-minutes or scale units, where that is coarser than the
   * instrument reads (`observe/reading-step.ts`).
   */
  readonly step?: number;
}

export type Brightness = 'strong' | 'medium' | 'weak';

/** The colour words the program computes with; a person may write many more (see `lines/colour.ts`). */
export type ColourName =
  | 'deep red'
  | 'red'
  | 'orange'
  | 'yellow'
  | 'yellow-green'
  | 'green'
  | 'blue-green'
  | 'blue'
  | 'blue-violet'
  | 'violet';

export interface BenchLine {
  /** Position in the record, counted from 0: known lines through all lamps, unknown lines within their tube. */
  readonly index: number;
  /** At least one; repeats of the same setting. */
  readonly settings: readonly Setting[];
  /** Each reading as the record has it, for messages: `228°52'`. */
  readonly texts: readonly string[];
  readonly colour: ColourName | null;
  readonly brightness: Brightness | null;
  readonly note: string | null;
  /** False: kept in the record, left out of all computation. */
  readonly use: boolean;
}

export interface KnownBenchLine extends BenchLine {
  readonly lampIndex: number;
  readonly statedWavelengthNm: number | null;
  /** A person insists on the stated wavelength. */
  readonly confirmed: boolean;
}

export interface KnownLamp {
  /** As the record names it, "" when missing. */
  readonly name: string;
  /** Tube names of the line table; several for a mixed lamp such as mercury-cadmium; empty when not named. */
  readonly substances: readonly string[];
  readonly lines: readonly KnownBenchLine[];
}

/** A place where someone looked and saw nothing. */
export type NotSeenPlace =
  | { readonly kind: 'reading'; readonly settings: readonly Setting[]; readonly text: string }
  | { readonly kind: 'wavelength'; readonly wavelengthNm: number };

export interface UnknownTube {
  readonly index: number;
  /** The label, or "tube 1", "tube 2" ... when missing. */
  readonly label: string;
  /** The central image read again for this tube; null when the bench's own central reading serves. */
  readonly central: readonly Setting[] | null;
  readonly lines: readonly BenchLine[];
  readonly notSeen: readonly NotSeenPlace[];
  /** True: every line that could be seen is written down. */
  readonly complete: boolean;
  /** Tube names it can be; null when it can be any. */
  readonly shelf: readonly string[] | null;
  /** What the student concluded, as written, and the tube name it means (null: no tube of the line table). */
  readonly answer: { readonly text: string; readonly substance: string | null } | null;
  readonly answerBeforeRanking: boolean | null;
  /** `after-answer`: an exercise keeps the ranking back until an answer is written. */
  readonly ranking: 'always' | 'after-answer';
}

/** A known line read again at the end of the session, or kept out of the fit. */
export interface CheckLine {
  /** The lamp that the record has it with; missing for those of the bench as a whole, which are read at the end. */
  readonly lampIndex?: number;
  readonly wavelengthNm: number;
  readonly settings: readonly Setting[];
  readonly texts: readonly string[];
}

export interface ApexAngle {
  readonly valueDeg: number;
  /** Standard uncertainty as stated; null: taken as exact ("for A exactly 60°"), or found from the bench. */
  readonly uDeg: number | null;
  /** It is half the angle between these two reflected images, read on this circle, whose errors are the bench's own. */
  readonly images?: readonly Setting[];
}

/** The bench was knocked or turned between two of its known lamps (found by `calibrate/moved-lamps.ts`). */
export interface LampMove {
  /** The first lamp that was read after it. */
  readonly lampIndex: number;
  /** The first lamp that was read after the bench was put back; missing where it stayed. */
  readonly until?: number;
  /** What it adds to every reading, arc-minutes or scale units, with its standard uncertainty. */
  readonly shift: number;
  readonly u: number;
  /** So many of the bench's central readings, the first of the list, were made before it. */
  readonly centralsBefore: number;
  /** How many of them it were instead, and ln of the odds of that, where tubes with their own may know better. */
  readonly otherwise?: { readonly centralsBefore: number; readonly logOdds: number };
}

export interface Bench {
  readonly title: string;
  readonly method: Method;
  /** Arc-minutes; scale units for the scale method. */
  readonly leastCount: number;
  /** One division of the main scale in arc-minutes; null for the scale method. */
  readonly scaleDivisionArcmin: number | null;
  /** True: the circle is divided in decimals of a degree, so readings are written 231.43° and not 231°26′. */
  readonly decimalCircle?: boolean;
  readonly windows: 1 | 2;
  readonly prism: 'each-line' | 'fixed';
  readonly setAtNm: number | null;
  readonly apexAngle: ApexAngle | null;
  /** Repeats of the central image's reading; empty when there is none. */
  readonly central: readonly Setting[];
  readonly known: readonly KnownLamp[];
  /** In an analysis: the move that the known lines show. No record has it; missing where there is none. */
  readonly moved?: LampMove;
  readonly tubes: readonly UnknownTube[];
  readonly check: readonly CheckLine[];
  readonly ranking: 'always' | 'after-answer';
  readonly about: Readonly<Record<string, string | readonly string[]>>;
}

/** Something a person should know that does not stop the computation. `code` is stable, kebab-case. */
export interface Warning {
  readonly code: string;
  readonly message: string;
}
