/** What an identification says of one tube. */
import type { Doubt } from '../calibrate/types.ts';
import type { Warning } from '../record/bench.ts';

export interface TubeLineResult {
  readonly index: number;
  readonly deviationDeg: number | null;
  /** Deviation in arc-minutes or scale units, comparable with the calibration curve. */
  readonly ordinate: number | null;
  readonly wavelengthNm: number | null;
  readonly standardUncertaintyNm: number | null;
  readonly extrapolated: boolean;
  readonly status: 'used' | 'slip';
  readonly message: string | null;
}

export interface Match {
  /** Index of the reading. */
  readonly index: number;
  readonly wavelengthNm: number;
  readonly residualNm: number;
  readonly residualSigma: number;
  /** False where the residual is that of the reading with a slip undone, or of a central image mended. */
  readonly asRead: boolean;
}

export interface MissingLine {
  readonly wavelengthNm: number;
  /** Chance that this line would have been seen and written down, had the tube been this one. */
  readonly chanceSeen: number;
}

export interface Candidate {
  /** Tube name, or `unlisted`. */
  readonly substance: string;
  readonly symbol: string | null;
  /** Admixtures: "mainly X, with lines of Y". */
  readonly with: readonly string[];
  readonly indistinguishable: readonly string[];
  readonly probability: number;
  /** Natural logarithm of the evidence, on one scale for all candidates of a tube. */
  readonly logEvidence: number;
  readonly matches: readonly Match[];
  /** Indexes of readings that fit no line. */
  readonly unexplained: readonly number[];
  /** Expected lines that were likelier seen than not and are not among the readings, likeliest first. */
  readonly missing: readonly MissingLine[];
  /** Log odds that each reading contributes (by index), relative to a reading that could be anything. */
  readonly contributions: readonly { readonly index: number; readonly logOdds: number }[];
}

export interface NextLook {
  /** In circle or scale units of this bench: `231°26'`. */
  readonly reading: string;
  readonly wavelengthNm: number;
  /** The leading candidates that a look there would separate. */
  readonly separates: readonly string[];
}

export interface Verdict {
  readonly kind: 'identified' | 'undecided' | 'unlisted';
  readonly substance: string | null;
  readonly sentence: string;
  readonly nextLook: NextLook | null;
}

export interface TubeAnalysis {
  readonly tubeIndex: number;
  readonly label: string;
  readonly lines: readonly TubeLineResult[];
  /** Sorted by probability; every candidate that may be, and `unlisted`. */
  readonly candidates: readonly Candidate[];
  readonly verdict: Verdict;
  /** Why the runner-up loses, one sentence per reason. */
  readonly reasons: readonly string[];
  readonly doubts: readonly Doubt[];
  readonly warnings: readonly Warning[];
}
