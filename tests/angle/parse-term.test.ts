/** What a term typed with a decimal mark leaves open. */
import { describe, expect, test } from 'vitest';
import { roundingArcmin } from '../../src/angle/parse-term.ts';

const term = { degrees: 12, minutes: null, seconds: null, decimals: 0 };

describe('half a unit of the last digit, in arc-minutes', () => {
  test.each([
    ['whole degrees', term, 0],
    ['12.1°', { ...term, decimals: 1 }, 3],
    ['12.25°', { ...term, decimals: 2 }, 0.3],
    ["12°30.5'", { ...term, minutes: 30.5, decimals: 1 }, 0.05],
    ["12°30'15.5''", { ...term, minutes: 30, seconds: 15.5, decimals: 1 }, 0.05 / 60],
  ])('%s', (_, typed, arcmin) => {
    expect(roundingArcmin(typed as Parameters<typeof roundingArcmin>[0])).toBeCloseTo(arcmin, 12);
  });
});
