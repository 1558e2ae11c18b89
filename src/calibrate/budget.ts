/** The uncertainty budget of one reading (JCGM 100:2008): its terms combine to the uncertainty that is used. */
import { centralVariance } from '../observe/central-image.ts';
import type { Origin } from '../observe/origin.ts';
import { lampStep } from '../observe/reading-step.ts';
import { errorShares, varianceTerms } from '../observe/reading-variance.ts';
import type { Bench } from '../record/bench.ts';
import type { BudgetTerm, CalibrationCurve } from './types.ts';

/** Of a line read once and written down as the known lines are, in the middle of the known lines. `settingVariance`: of one setting, unit². */
export function uncertaintyBudget(
  bench: Bench,
  { central }: Origin,
  settingVariance: number,
  curve: CalibrationCurve | null,
): BudgetTerm[] {
  const middleNm = curve === null ? null : (curve.rangeNm[0] + curve.rangeNm[1]) / 2;
  return [
    ...ownTerms(varianceTerms(errorShares(bench, 1, 0, lampStep(bench)), settingVariance)),
    ...(central === null
      ? []
      : [sharedTerm('central-image', centralVariance(central, settingVariance), central.settingShare)]),
    ...(curve === null || middleNm === null
      ? []
      : [sharedTerm('curve', curve.covariance(middleNm, middleNm), middleNm)]),
  ];
}

/**
 * What is in the uncertainty of one line's wavelength, in the ordinate's unit: `own`: terms of its reading,
 * `originVariance`: of what all readings of its tube share (unit²), and the curve at its place.
 */
export function lineBudget(
  own: readonly { readonly source: BudgetTerm['source']; readonly variance: number }[],
  originVariance: number,
  curve: CalibrationCurve,
  wavelengthNm: number,
): BudgetTerm[] {
  return [
    ...ownTerms(own),
    ...(originVariance > 0 ? [sharedTerm('central-image', originVariance, null)] : []),
    sharedTerm('curve', curve.covariance(wavelengthNm, wavelengthNm), wavelengthNm),
  ];
}

function ownTerms(terms: readonly { source: BudgetTerm['source']; variance: number }[]): BudgetTerm[] {
  return terms.map(({ source, variance }) => ({
    source,
    standardUncertainty: Math.sqrt(variance),
    sharedByAllLines: false,
    at: null,
  }));
}

function sharedTerm(source: BudgetTerm['source'], variance: number, at: number | null): BudgetTerm {
  return { source, standardUncertainty: Math.sqrt(Math.max(0, variance)), sharedByAllLines: true, at };
}
