/** Readings that belong to no line: how many there are altogether, and where. */
import { expect, test } from 'vitest';
import {
  STRAY_WIDTH_NM,
  STRAYS_ANYWHERE,
  STRAYS_AT_IMPURITIES,
  STRAYS_NM,
} from '../../src/identify/assumptions.ts';
import {
  logUnlistedCount,
  strayDensityPerNm,
  visibleDensityPerNm,
} from '../../src/identify/spectrum/outlier-readings.ts';

/** Sum over every wavelength in steps of 0.02 nm. */
const total = (density: (nm: number) => number): number => {
  let sum = 0;
  for (let nm = 200; nm < 1000; nm += 0.02) sum += 0.02 * density(nm);
  return sum;
};

test('a line of which one knows nothing is somewhere: even over the visible, by e less 15 nm beyond', () => {
  expect(total(visibleDensityPerNm)).toBeCloseTo(1, 3);
  expect(visibleDensityPerNm(500)).toBe(visibleDensityPerNm(700));
  for (const nm of [STRAYS_NM.shortest - 15, STRAYS_NM.longest + 15])
    expect(visibleDensityPerNm(nm)).toBeCloseTo(visibleDensityPerNm(550) / Math.E, 12);
});

test.each([0.1, STRAY_WIDTH_NM, 2])(
  'all strays together are as many however well they are read: u %d nm',
  (u) => {
    expect(total((nm) => strayDensityPerNm(nm, u))).toBeCloseTo(STRAYS_ANYWHERE + STRAYS_AT_IMPURITIES, 3);
  },
);

test('are dense at bright lines of usual impurities and of the room, within what is read', () => {
  const anywhere = STRAYS_ANYWHERE * visibleDensityPerNm(550);
  // H-alpha, and mercury's green line from the lamps of the room (NIST SRD 108).
  for (const nm of [656.279, 546.075]) {
    expect(strayDensityPerNm(nm, 0.3)).toBeGreaterThan(2 * anywhere);
    expect(strayDensityPerNm(nm, 0.3)).toBeCloseTo(strayDensityPerNm(nm, STRAY_WIDTH_NM), 12);
    expect(strayDensityPerNm(nm, 2)).toBeLessThan(strayDensityPerNm(nm, 0.3));
  }
  // No bright line of an impurity near.
  expect(strayDensityPerNm(535, 0.3) / anywhere).toBeCloseTo(1, 2);
});

test('a tube that is not listed shows any number of lines up to twelve alike, and each further one is less likely', () => {
  expect([1, 6, 12].map(logUnlistedCount)).toEqual([Math.log(0.09), Math.log(0.09), Math.log(0.09)]);
  expect(logUnlistedCount(13)).toBeCloseTo(Math.log(0.09) - 0.3, 12);
  expect(logUnlistedCount(22)).toBeCloseTo(Math.log(0.09) - 3, 12);
});
