import { describe, expect, test } from 'vitest';
import { fitPolynomial } from '../../src/calibrate/compare/fit-polynomial.ts';
import nist from './nist-strd.json' with { type: 'json' };

/** Digits in which a value agrees with the certified one (McCullough, The American Statistician 52, 358 (1998)). */
function digits(value: number, certified: number): number {
  const error = certified === 0 ? Math.abs(value) : Math.abs((value - certified) / certified);
  return error === 0 ? 15 : Math.min(15, -Math.log10(error));
}

const fewest = (values: readonly number[], certified: readonly number[]): number =>
  Math.min(...values.map((value, k) => digits(value, certified[k]!)));

/** Digits asked for. Reached at the time of writing: 13.3 and 13.7, 12.8 and 13.1, 10.0 and 9.7, 7.1 and 14.7. */
const wanted: Record<string, { coefficients: number; deviations: number }> = {
  Norris: { coefficients: 12.5, deviations: 13 },
  Pontius: { coefficients: 12, deviations: 12.5 },
  // Points exactly on a curve: the certified deviations are 0, and the digits are those of the absolute size.
  Wampler1: { coefficients: 9.5, deviations: 9 },
  // Scatter a hundred thousand times the curve: no method in double precision gives many more digits.
  Wampler5: { coefficients: 6.5, deviations: 14 },
};

describe('NIST StRD linear regression through the project’s own fitting function', () => {
  test.each(nist.sets)('$name, degree $degree', (set) => {
    const fit = fitPolynomial(set.x, set.y, set.degree);
    const { coefficients, deviations } = wanted[set.name]!;
    expect(fewest(fit.coefficients, set.coefficients)).toBeGreaterThan(coefficients);
    expect(fewest(fit.standardErrors!, set.standardDeviations)).toBeGreaterThan(deviations);
    const residualSd = Math.hypot(...fit.residuals) / Math.sqrt(set.x.length - set.degree - 1);
    expect(digits(residualSd, set.residualStandardDeviation)).toBeGreaterThan(deviations);
  });
});
