/** How dense a reading is as a stray and as a line of any wavelength, worked out by hand on a straight curve. */
import { describe, expect, test } from 'vitest';
import type { UnknownReading } from '../../src/identify/bench/unknown-reading.ts';
import { readingLikelihoods } from '../../src/identify/evidence/reading-likelihood.ts';
import { strayDensityPerNm, visibleDensityPerNm } from '../../src/identify/spectrum/outlier-readings.ts';
import { colourLogLikelihood } from '../../src/lines/colour-likelihood.ts';
import type { ReadingAlternative } from '../../src/observe/slip-hypotheses.ts';
import { handReading, handView } from './hand-made.ts';

// The curve falls by 2' a nm from 3200' at 400 nm to 2600' at 700 nm; a reading's u of 0.5' is 0.25 nm.
const wide = { ...handView, curve: { ...handView.curve, domainNm: [370, 760] as [number, number] } };
const view = {
  ...wide,
  curve: {
    ...wide.curve,
    wavelengthAt: (ordinate: number) => {
      const wavelengthNm = (4000 - ordinate) / 2;
      const inside = wavelengthNm >= 370 && wavelengthNm <= 760;
      return inside ? { wavelengthNm, standardUncertaintyNm: 0.25, extrapolated: false } : null;
    },
  },
};
const densityOf = (reading: UnknownReading, shift = 0) =>
  readingLikelihoods({ ...view, shift }, [reading]).densities.get(reading)!;
const slip = (correction: number, logOdds: number) => ({ correction, logOdds }) as ReadingAlternative;
/** Per unit of the ordinate, of which there are two in a nm. */
const stray = (nm: number) => strayDensityPerNm(nm, 0.25) / 2;
const anywhere = (nm: number) => visibleDensityPerNm(nm) / 2;
/** A reading off the spectrum for no reason that has a name: 0.4 %, over three spectra of 780'. */
const UNNAMED = 0.004 / (3 * 780);

describe('a reading', () => {
  test('is as dense as its wavelength is, in the unit of the ordinate', () => {
    expect(densityOf(handReading(0, 2930))).toEqual({
      stray: expect.closeTo(stray(535), 12),
      anywhere: expect.closeTo(anywhere(535), 12),
    });
  });

  test('through a shift is where it is without it', () => {
    expect(densityOf(handReading(0, 2945), 15)).toEqual(densityOf(handReading(0, 2930)));
  });

  test('with a colour beside it is as likely as the colour is there', () => {
    const { stray: asStray, anywhere: asAny } = densityOf(handReading(0, 2930, {}, { colour: 'red' }));
    const factor = Math.exp(colourLogLikelihood('red', 535));
    expect(factor).toBeLessThan(0.01);
    expect(asStray / stray(535)).toBeCloseTo(factor, 9);
    expect(asAny / anywhere(535)).toBeCloseTo(factor, 9);
  });

  test('that its repeats call a slip is where it would be without it, too', () => {
    const likely = handReading(0, 2930, { alternatives: [slip(60, -2.49), slip(-60, -2.51)] });
    const odds = Math.exp(-2.49);
    expect(densityOf(likely).anywhere).toBeCloseTo(anywhere(535) + odds * anywhere(505), 12);
    expect(densityOf(likely).stray).toBeCloseTo(stray(535) + odds * stray(505), 12);
  });
});

describe('a reading where no eye sees a line', () => {
  // 730 nm, and beyond the curve at all.
  test('is a slip, likely or not, or one that has no name', () => {
    const dark = handReading(0, 2540, { alternatives: [slip(60, -6), slip(-6000, -1)] });
    expect(densityOf(dark).anywhere).toBeCloseTo(anywhere(730) + UNNAMED + Math.exp(-6) * anywhere(700), 12);
    expect(densityOf(dark).stray).toBeCloseTo(stray(730) + UNNAMED + Math.exp(-6) * stray(700), 12);
  });

  test('has no density of its own beyond the curve', () => {
    expect(densityOf(handReading(0, 5000))).toEqual({
      stray: expect.closeTo(UNNAMED, 15),
      anywhere: expect.closeTo(UNNAMED, 15),
    });
    const slipped = densityOf(handReading(0, 5000, { alternatives: [slip(-2000, -7)] }));
    expect(slipped.anywhere).toBeCloseTo(UNNAMED + Math.exp(-7) * anywhere(500), 12);
  });
});

test('all readings together are as likely as each of them is, and one known already is not asked again', () => {
  const readings = [handReading(0, 2930), handReading(1, 2900)];
  const { logAllStray, logAllAnywhere, densities } = readingLikelihoods(view, readings);
  expect(logAllStray).toBeCloseTo(Math.log(stray(535)) + Math.log(stray(550)), 9);
  expect(logAllAnywhere).toBeCloseTo(Math.log(anywhere(535)) + Math.log(anywhere(550)), 9);
  const known = new Map([[readings[0]!, { stray: 0.5, anywhere: 0.25 }]]);
  const again = readingLikelihoods(view, readings, known);
  expect(again.logAllStray).toBeCloseTo(Math.log(0.5) + Math.log(densities.get(readings[1]!)!.stray), 9);
  expect(again.logAllAnywhere).toBeCloseTo(Math.log(0.25) + Math.log(anywhere(550)), 9);
});
