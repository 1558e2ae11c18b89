/** What a calibration says. The ordinate of a curve is in the bench's own unit: arc-minutes or scale units. */
import type { Origin } from '../observe/origin.ts';
import type { ErrorSource } from '../observe/reading-variance.ts';
import type { LampMove } from '../record/bench.ts';
import type { CalibrationFinding, CalibrationRemark, CurveChoice, KnownLineFinding } from './findings.ts';

export type OrdinateUnit = 'arcmin' | 'scale';

export interface WavelengthEstimate {
  readonly wavelengthNm: number;
  /** Standard uncertainty, everything included (JCGM 100:2008). */
  readonly standardUncertaintyNm: number;
  /** Outside the range of the known lines. */
  readonly extrapolated: boolean;
}

/** A monotone curve ordinate(wavelength) with the covariance of its constants. */
export interface CalibrationCurve {
  readonly unit: OrdinateUnit;
  /** Wavelengths of the outermost known lines used. */
  readonly rangeNm: readonly [number, number];
  /** Wavelengths over which the curve is monotone and may be asked at all. */
  readonly domainNm: readonly [number, number];
  /** Deviation (arc-minutes, positive) or scale reading at a wavelength. */
  ordinateAt(wavelengthNm: number): number;
  /** Change of the ordinate per nm. */
  slopeAt(wavelengthNm: number): number;
  /** Covariance of the curve's ordinates at two wavelengths, unit². */
  covariance(firstNm: number, secondNm: number): number;
  /** Null when the ordinate lies outside what the curve reaches. `ordinateVariance`: of the reading, unit². */
  wavelengthAt(ordinate: number, ordinateVariance: number): WavelengthEstimate | null;
}

export type KnownLineStatus = 'used' | 'slip' | 'reassigned' | 'set-aside';

/** A known line as numbers. */
export interface CalibratedLine {
  readonly index: number;
  readonly lampIndex: number;
  readonly statedWavelengthNm: number | null;
  /** What the program uses; null when nothing could be assigned. */
  readonly wavelengthNm: number | null;
  /** Shown positive; null for the scale method and where the record gives none. */
  readonly deviationDeg: number | null;
  /**
   * Deviation in arc-minutes from the central image as it stood when its lamp was read, or scale units as the scale stood
   * when the last lamp was read; before any correction of a slip.
   */
  readonly ordinate: number | null;
  /** Standard uncertainty of the ordinate, in its unit. */
  readonly standardUncertainty: number | null;
  /** Observed minus calculated, in the unit; null when there is no curve. */
  readonly residual: number | null;
  readonly status: KnownLineStatus;
}

export interface CalibrationLine extends CalibratedLine {
  /** What looks wrong with it, or may be. */
  readonly finding: KnownLineFinding | null;
}

/** One term of an uncertainty budget; the squares of all of them add up to the variance that is used. */
export interface BudgetTerm {
  readonly source: ErrorSource | 'central-image' | 'curve';
  /** Standard uncertainty in the ordinate's unit. */
  readonly standardUncertainty: number;
  readonly sharedByAllLines: boolean;
  /** Of the curve: where, nm. Of the central image: how much of one setting's variance is left in its mean; null else. */
  readonly at: number | null;
}

export interface Coefficient {
  readonly name: string;
  readonly value: number;
  readonly standardUncertainty: number;
  readonly unit: string;
}

/** One way to understand the known lines, with its probability. */
export interface CalibrationHypothesis {
  readonly probability: number;
  readonly curve: CalibrationCurve;
  /** The same for readings of now that share the record's central image (`curveNow`). */
  readonly curveNow: CalibrationCurve;
  /** Where such readings count from. */
  readonly origin: Origin;
}

export interface CurveRival {
  readonly name: string;
  /** Root mean square of leave-one-out residuals, in the unit; null where too few lines. */
  readonly leaveOneOutRms: number | null;
  readonly refused: string | null;
}

/** A known line kept out of the fit, against the curve. */
export interface CheckedLine {
  readonly wavelengthNm: number;
  /** Arc-minutes of deviation, or scale units; null where the reading gives none. */
  readonly ordinate: number | null;
  /** Read minus calculated, in the unit; null where the curve does not reach. */
  readonly residual: number | null;
  /** Of the residual: of the reading and of the curve together. */
  readonly standardUncertainty: number | null;
}

/**
 * λ = λ0 + C/(δ - δ0), three constants, fitted by least squares to the known lines (J. Hartmann, Astrophys. J. 8, 218
 * (1898)).
 */
export interface HartmannFormula {
  readonly lambda0Nm: number;
  /** C: nm times the ordinate's unit. */
  readonly strength: number;
  /** δ0: in the ordinate's unit. */
  readonly ordinate0: number;
  /** Of the three in this order; null with three lines, through which it goes exactly. */
  readonly u: readonly [number, number, number] | null;
  /** Largest difference from the curve in use within the known lines. */
  readonly worstNm: number;
}

/** Ordinate as a polynomial in 1/λ², λ in µm. */
export interface PolynomialFormula {
  readonly degree: number;
  /** Ascending powers, in the ordinate's unit; `u` null with as many coefficients as lines. */
  readonly coefficients: readonly { readonly value: number; readonly u: number | null }[];
  /** Root mean square residual, in the ordinate's unit. */
  readonly rms: number;
}

/** A calibration as numbers. */
export interface CalibrationNumbers {
  readonly unit: OrdinateUnit;
  /** Name of the curve: `prism curve`; "" without one. */
  readonly model: string;
  /** Formulae that a student can use beside it; null where there are too few lines. */
  readonly hartmann: HartmannFormula | null;
  readonly polynomial: PolynomialFormula | null;
  /** The curve written out: `δ = c0 + c1·x + c2·x² with x = ...`. */
  readonly formula: string;
  readonly coefficients: readonly Coefficient[];
  /** Root mean square residual of the lines used, in the unit; null without a curve. */
  readonly rms: number | null;
  /** Scatter of setting the cross-hairs, pooled over repeats and residuals. */
  readonly settingScatter: number | null;
  readonly lines: readonly CalibratedLine[];
  /** One for each check line of the bench, in its order. */
  readonly checks: readonly CheckedLine[];
  /** The curve of the best hypothesis; null when nothing can be calibrated. */
  readonly curve: CalibrationCurve | null;
  /**
   * The same curve for what is read now and shares the record's central image, with the covariance that then holds: where
   * the bench was moved between two lamps, such readings share the move with the later ones.
   */
  readonly curveNow: CalibrationCurve | null;
  /** The move that all ordinates of the calibration allow for: each counts from the central image as it then stood. */
  readonly moved: LampMove | null;
  /** Best first, probabilities sum to 1; empty without a curve. */
  readonly hypotheses: readonly CalibrationHypothesis[];
  readonly rivals: readonly CurveRival[];
  /** Of a line read once, in the middle of the known lines. */
  readonly budget: readonly BudgetTerm[];
}

/** With what was found. */
export interface Calibration extends CalibrationNumbers {
  /** Why this curve; null without one. */
  readonly choice: CurveChoice | null;
  readonly lines: readonly CalibrationLine[];
  readonly findings: readonly CalibrationFinding[];
  readonly remarks: readonly CalibrationRemark[];
}
