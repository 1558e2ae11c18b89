/** When a candidate's fit is good enough to be called identified. */
import { expect, test } from 'vitest';
import { fitIsAcceptable } from '../../src/identify/rank/acceptable-fit.ts';
import type { Match } from '../../src/identify/types.ts';

const candidate = (sigmas: readonly number[], corrected = 0, unexplained = 0) => ({
  matches: sigmas.map(
    (residualSigma, index): Match => ({
      index,
      substance: 'neon',
      wavelengthNm: 600,
      residualNm: residualSigma,
      residualSigma,
      asRead: index >= corrected,
    }),
  ),
  unexplained: Array.from({ length: unexplained }, (_, i) => sigmas.length + i),
});

test('readings within their uncertainty are acceptable', () => {
  expect(fitIsAcceptable(candidate([0.3, -1.2, 0.8]))).toBe(true);
});

test('readings three uncertainties off are not', () => {
  expect(fitIsAcceptable(candidate([3.2, -3.5, 3, -3.1]))).toBe(false);
});

test('one slip or stray is allowed among four readings, not among three', () => {
  expect(fitIsAcceptable(candidate([0.1, 0.2, 0.3, 0.4], 1))).toBe(true);
  expect(fitIsAcceptable(candidate([0.1, 0.2, 0.3], 1))).toBe(false);
  expect(fitIsAcceptable(candidate([0.1, 0.2, 0.3], 0, 1))).toBe(true);
  expect(fitIsAcceptable(candidate([0.1, 0.2], 0, 1))).toBe(false);
});

test('a central image corrected shifts all readings and counts once', () => {
  expect(fitIsAcceptable(candidate([0.1, 0.2, 0.3, 0.4, 0.1], 5))).toBe(true);
});

test('nothing matched is no fit', () => {
  expect(fitIsAcceptable(candidate([]))).toBe(false);
});
