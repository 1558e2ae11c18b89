/** The whole result for one bench: the single source of every number on screen, in a command or in a report. */
import type { RefractiveIndices } from '../calibrate/refractive-index.ts';
import type { CalibratedLine, CalibrationNumbers, OrdinateUnit } from '../calibrate/types.ts';
import type { Candidate as FoundCandidate, NextLook, TubeLine } from '../identify/types.ts';
import type { Bench, Warning } from '../record/bench.ts';
import type { Doubt } from '../words/doubt.ts';

export type { Match, MissingLine, NextLook } from '../identify/types.ts';

export interface ToldCalibrationLine extends CalibratedLine {
  /** What looks wrong with it, or may be, and what to do. */
  readonly message: string | null;
}

/** Indices of the prism, told. */
export interface ToldIndices extends Omit<RefractiveIndices, 'notes'> {
  /** What a reader must know to use them, one sentence each. */
  readonly notes: readonly string[];
}

/** A calibration, told. */
export interface ToldCalibration extends CalibrationNumbers {
  /** One sentence: why this curve; "" without one. */
  readonly choice: string;
  readonly lines: readonly ToldCalibrationLine[];
  /** Null without an apex angle, on a scale, or where no index can be had. */
  readonly indices: ToldIndices | null;
  readonly doubts: readonly Doubt[];
  readonly warnings: readonly Warning[];
}

export interface TubeLineResult extends Omit<TubeLine, 'finding'> {
  readonly message: string | null;
}

export interface Candidate extends Omit<FoundCandidate, 'against'> {
  /** What speaks most against it; null for the first. */
  readonly reasonAgainst: string | null;
  /** The same in a few words, for a row of a list; null where there is nothing to say. */
  readonly reasonInShort: string | null;
}

export interface Verdict {
  /** `held-back`: an exercise shows no ranking before an answer is written. */
  readonly kind: 'identified' | 'undecided' | 'unlisted' | 'held-back';
  readonly substance: string | null;
  readonly sentence: string;
  readonly nextLook: NextLook | null;
}

/** What is found of one tube, told. */
export interface TubeAnalysis {
  readonly tubeIndex: number;
  readonly label: string;
  /** Common to all readings and significant, else null. */
  readonly shift: { readonly value: number; readonly u: number; readonly unit: OrdinateUnit } | null;
  readonly lines: readonly TubeLineResult[];
  /** Sorted by probability; every candidate that may be, and `unlisted`. */
  readonly candidates: readonly Candidate[];
  readonly verdict: Verdict;
  /** Why the runner-up loses, one sentence per reason. */
  readonly reasons: readonly string[];
  readonly doubts: readonly Doubt[];
  readonly warnings: readonly Warning[];
  /** Indexes of readings left over that read like one which fits a line of the leading tube: one line read twice, perhaps. */
  readonly readTwice: readonly number[];
}

export interface Analysis {
  readonly bench: Bench;
  readonly calibration: ToldCalibration;
  readonly tubes: readonly TubeAnalysis[];
  readonly warnings: readonly Warning[];
}
