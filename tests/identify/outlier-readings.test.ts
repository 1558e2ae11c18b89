/** Readings that are no line of the tube: their numbers over the spectrum, and where they are met. */
import { describe, expect, test } from 'vitest';
import {
  STRAYS_ANYWHERE,
  STRAYS_AT_IMPURITIES,
  STRAYS_NM,
  UNLISTED_COUNT,
} from '../../src/identify/assumptions.ts';
import {
  logUnlistedCount,
  strayDensityPerNm,
  visibleDensityPerNm,
} from '../../src/identify/spectrum/outlier-readings.ts';

/** Over all wavelengths, by the midpoints of steps of 0.05 nm. */
function integral(density: (nm: number) => number): number {
  const step = 0.05;
  let sum = 0;
  for (let nm = 200 + step / 2; nm < 1000; nm += step) sum += step * density(nm);
  return sum;
}

describe('where lines lie of which one knows nothing', () => {
  test('is a density: 1 in all', () => expect(integral(visibleDensityPerNm)).toBeCloseTo(1, 4));

  test('is even over the visible and thins out by e in so many nm beyond, on both sides', () => {
    const { shortest, longest, thinning } = STRAYS_NM;
    expect(visibleDensityPerNm(shortest)).toBe(visibleDensityPerNm(longest));
    expect(visibleDensityPerNm(550)).toBe(visibleDensityPerNm(longest));
    for (const nm of [shortest - thinning, longest + thinning])
      expect(visibleDensityPerNm(nm) / visibleDensityPerNm(550)).toBeCloseTo(Math.exp(-1), 9);
  });
});

describe('strays', () => {
  test.each([0.1, 1.5, 6])('are in all as many as assumed, read to %s nm', (uNm) => {
    expect(integral((nm) => strayDensityPerNm(nm, uNm))).toBeCloseTo(
      STRAYS_ANYWHERE + STRAYS_AT_IMPURITIES,
      3,
    );
  });

  // Mercury's green and hydrogen's red line: NIST SRD 108; tubes that hold traces of them: common practice, no source.
  test.each([546.07, 656.28])(
    'are denser at %s nm, a line of a usual impurity, than 6 nm beside it',
    (nm) => {
      expect(strayDensityPerNm(nm, 0.5)).toBeGreaterThan(3 * strayDensityPerNm(nm + 6, 0.5));
    },
  );

  test('at an impurity spread with the reading’s uncertainty', () => {
    expect(strayDensityPerNm(546.07, 4)).toBeLessThan(strayDensityPerNm(546.07, 1));
    expect(strayDensityPerNm(546.07, 0.01)).toBe(strayDensityPerNm(546.07, 0.5));
  });
});

test('a tube that is not listed shows up to a dozen lines alike, and more the less likely', () => {
  const { many, chance, lnPerFurther } = UNLISTED_COUNT;
  expect(logUnlistedCount(1)).toBeCloseTo(Math.log(chance), 12);
  expect(logUnlistedCount(many)).toBe(logUnlistedCount(1));
  expect(logUnlistedCount(many + 2)).toBeCloseTo(Math.log(chance) - 2 * lnPerFurther, 12);
});
