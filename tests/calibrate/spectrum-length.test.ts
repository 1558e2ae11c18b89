/** The visible spectrum on a bench: the ordinates of its ends, as far as the curve reaches. */
import { expect, test } from 'vitest';
import { spectrumLength } from '../../src/calibrate/curve/spectrum-length.ts';

const line = (slope: number, domainNm: readonly [number, number]) => ({
  domainNm,
  ordinateAt: (nm: number): number => {
    if (nm < domainNm[0] || nm > domainNm[1]) throw new Error('outside the domain');
    return slope * nm + 7;
  },
});

test.each([
  ['falls with the wavelength', -2, [360, 900], 640],
  ['rises', 2, [360, 900], 640],
  ['ends short of the red', -2, [360, 600], 410],
  ['begins beyond the violet', -2, [500, 900], 430],
] as const)('a curve that %s', (_, slope, domainNm, length) =>
  expect(spectrumLength(line(slope, domainNm))).toBeCloseTo(length, 9),
);
