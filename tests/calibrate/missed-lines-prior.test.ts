import fc from 'fast-check';
import { expect, test } from 'vitest';
import { lampLines } from '../../src/calibrate/assign/line-hypotheses.ts';
import { passedOverOf } from '../../src/calibrate/assign/missed-lines-prior.ts';
import { lampSpectrum } from '../../src/lines/table.ts';

test('is the product over the lines between, counted one by one, in either direction', () => {
  const lamp = lampLines(lampSpectrum(['mercury']));
  const passedOver = passedOverOf(lamp);
  fc.assert(
    fc.property(fc.constantFrom(...lamp), fc.constantFrom(...lamp), (from, to) => {
      const low = Math.min(from.wavelengthNm, to.wavelengthNm) + 0.01;
      const high = Math.max(from.wavelengthNm, to.wavelengthNm) - 0.01;
      const between = lamp.filter(
        (line) => line.variance === 0 && line.wavelengthNm > low && line.wavelengthNm < high,
      );
      const expected = between.reduce((product, line) => product * (1 - line.chance), 1);
      expect(Math.exp(passedOver(from.wavelengthNm, to.wavelengthNm))).toBeCloseTo(expected, 12);
      expect(passedOver(to.wavelengthNm, from.wavelengthNm)).toBe(
        passedOver(from.wavelengthNm, to.wavelengthNm),
      );
    }),
  );
});
