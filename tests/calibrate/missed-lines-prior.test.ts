import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lampLines, linesOfTheTable } from '../../src/calibrate/assign/line-hypotheses.ts';
import { passedOverOf } from '../../src/calibrate/assign/transition-prior.ts';
import { lampSpectrum } from '../../src/lines/table.ts';

test('is the product over the lines between, counted one by one, in either direction', () => {
  const lamp = lampLines(lampSpectrum(['mercury']));
  const passedOver = passedOverOf(lamp);
  fc.assert(
    fc.property(fc.constantFrom(...lamp), fc.constantFrom(...lamp), (from, to) => {
      const low = Math.min(from.wavelengthNm, to.wavelengthNm) + 0.01;
      const high = Math.max(from.wavelengthNm, to.wavelengthNm) - 0.01;
      const between = lamp.filter(
        (line) =>
          line.variance === 0 && !line.optional && line.wavelengthNm > low && line.wavelengthNm < high,
      );
      const expected = between.reduce((product, line) => product * (1 - line.chance), 1);
      expect(Math.exp(passedOver(from.wavelengthNm, to.wavelengthNm))).toBeCloseTo(expected, 12);
      expect(passedOver(to.wavelengthNm, from.wavelengthNm)).toBe(
        passedOver(from.wavelengthNm, to.wavelengthNm),
      );
    }),
  );
});

test('lines that an ordinary lamp may lack are not passed over, unless the table in use has them', () => {
  // The molecule of hydrogen shows in some tubes and not in others (data/tubes.json).
  const lamp = lampLines(lampSpectrum(['hydrogen']));
  const molecular = lamp.filter(({ wavelengthNm }) => wavelengthNm > 590 && wavelengthNm < 650);
  expect(molecular.length).toBeGreaterThan(3);
  expect(passedOverOf(lamp)(486.135, 656.279)).toBe(0);
  const stated = molecular.find(({ variance }) => variance === 0)!;
  const listed = linesOfTheTable(lamp, [stated.wavelengthNm]).find(
    ({ wavelengthNm }) => wavelengthNm === stated.wavelengthNm,
  )!;
  const inUse = passedOverOf(linesOfTheTable(lamp, [stated.wavelengthNm]));
  expect(inUse(486.135, 656.279)).toBeCloseTo(Math.log1p(-listed.chance), 12);
});
