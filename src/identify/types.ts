/** What an identification finds of one tube: data only; `words` says it. */
import type { BudgetTerm } from '../calibrate/types.ts';
import type { CommonShift } from './bench/common-shift.ts';
import type { ReadingFinding, TubeFinding } from './findings/tube-finding.ts';

export interface TubeLine {
  readonly index: number;
  readonly deviationDeg: number | null;
  /** Deviation in arc-minutes or scale units, comparable with the calibration curve. */
  readonly ordinate: number | null;
  readonly wavelengthNm: number | null;
  readonly standardUncertaintyNm: number | null;
  /** With the shift that all readings share taken off; null without such a shift. */
  readonly correctedNm: number | null;
  /**
   * Of that, where the dispersion is another than at the wavelength as read. The u of the shift is not added: it was found
   * from these readings, and what is wrong with it is mostly what they share.
   */
  readonly correctedUncertaintyNm: number | null;
  readonly extrapolated: boolean;
  /** What is in that uncertainty, in the ordinate's unit: the squares add up to (u · slope)². Empty without a wavelength. */
  readonly budget: readonly BudgetTerm[];
  /** `slip`: likelier misread than not. */
  readonly status: 'used' | 'slip';
  readonly finding: ReadingFinding | null;
}

export interface Match {
  /** Index of the reading. */
  readonly index: number;
  /** Whose line it is: in a mixture that of the admixture may be meant. */
  readonly substance: string;
  readonly wavelengthNm: number;
  readonly residualNm: number;
  readonly residualSigma: number;
  /** False where the residual is that of the reading with a slip undone, or of a central image corrected. */
  readonly asRead: boolean;
}

export interface MissingLine {
  readonly wavelengthNm: number;
  /**
   * "Should I have seen it?": chance that whoever read this tube would have seen this line and written it down, had the
   * tube been this one. What they see and write down is learned from all readings, whatever the tube is: by a row's own
   * account they would have looked badly just where it lacks lines. One number for every place that tells it; where it is
   * worth looking now, `NextLook` says.
   */
  readonly chanceSeen: number;
  /** Among the three brightest that this tube shows. */
  readonly brightest: boolean;
}

/** What speaks most against a row, as against the leading one. */
export type ReasonAgainst =
  /** Lines that should have been seen, brightest first. */
  | { readonly what: 'missing'; readonly lines: readonly MissingLine[] }
  /** Readings, by index, that are no lines of it. */
  | { readonly what: 'unexplained'; readonly indexes: readonly number[] }
  /** The reading that lies farthest from its line. */
  | { readonly what: 'off'; readonly match: Match }
  /** It fits only if so many readings are misread. */
  | { readonly what: 'misread'; readonly count: number }
  /** It fits only if all readings are shifted alike. */
  | { readonly what: 'shifted' }
  /** It needs two gases in one tube. */
  | { readonly what: 'two-gases' }
  /** A metal lamp whose starting gas explains most by itself. */
  | { readonly what: 'starting-gas' }
  /** It needs the light of the room besides. */
  | { readonly what: 'room-light' }
  /** Lines anywhere would meet these readings by chance only. */
  | { readonly what: 'by-chance' }
  /** Hardly anything. */
  | { readonly what: 'little' };

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
  /** Expected lines that were likelier seen than not and are not among the readings, brightest first. */
  readonly missing: readonly MissingLine[];
  /** Null for the leading row. */
  readonly against: ReasonAgainst | null;
  /** Log odds that each reading contributes (by index), relative to a reading that could be anything. */
  readonly contributions: readonly { readonly index: number; readonly logOdds: number }[];
}

export interface NextLook {
  /** In circle or scale units of this bench: `231°26'`. */
  readonly reading: string;
  readonly wavelengthNm: number;
  /** The leading candidates that a look there would separate, `something else` among them. */
  readonly separates: readonly string[];
}

/** What makes the leading row likelier than the row after it. */
export type RunnerUpReason =
  /** `logOdds`: ln of how much better the reading fits the leading row; negative where it fits it worse. */
  | { readonly what: 'reading'; readonly index: number; readonly logOdds: number }
  /** The runner-up would show this line, and the readings lack it. */
  | { readonly what: 'missing'; readonly line: MissingLine };

export interface Verdict {
  readonly kind: 'identified' | 'undecided' | 'unlisted';
  /** Null unless identified. */
  readonly substance: string | null;
  /**
   * Where the leading row is likely enough to be called identified, why it is not: its fit is not acceptable, or it
   * rests on a shift of all readings that the few of them do not bear out.
   */
  readonly heldBackBy: 'fit' | 'shift' | null;
  readonly nextLook: NextLook | null;
}

export interface TubeIdentification {
  readonly lines: readonly TubeLine[];
  /** Sorted by probability; every candidate that may be, and `unlisted`. */
  readonly candidates: readonly Candidate[];
  readonly verdict: Verdict;
  /** Readings that the ranking rests on. */
  readonly readings: number;
  /** Common to all readings as the leading row understands them, in the ordinate's unit; null where none is significant. */
  readonly shift: CommonShift | null;
  /** Why the runner-up loses, most telling first. */
  readonly reasons: readonly RunnerUpReason[];
  readonly findings: readonly TubeFinding[];
  /** What is missing for a ranking, or for a sound one. */
  readonly lacks: 'calibration' | 'readings' | 'more-readings' | null;
}
