import { describe, expect, test } from 'vitest';
import { glasses, refractiveIndex } from '../../src/calibrate/curve/glasses.ts';

/** Spectral lines that define nd and the Abbe number, air wavelengths (SCHOTT TIE-29, ISO 7944). */
const lineNm = { d: 587.5618, F: 486.1327, C: 656.2725 };

describe('catalogue glasses', () => {
  test.each(glasses)(
    '$name: index and Abbe number recomputed from its constants agree with the catalogue',
    (glass) => {
      const nd = refractiveIndex(glass, lineNm.d);
      const abbeNumber = (nd - 1) / (refractiveIndex(glass, lineNm.F) - refractiveIndex(glass, lineNm.C));
      expect(Math.abs(nd - glass.nd)).toBeLessThan(2e-5);
      expect(Math.abs(abbeNumber - glass.abbeNumber)).toBeLessThan(0.02);
    },
  );

  test('they run from crown to dense flint, index rising', () => {
    const indices = glasses.map((glass) => glass.nd);
    expect(indices).toEqual([...indices].sort((a, b) => a - b));
    expect(indices[0]).toBeLessThan(1.52);
    expect(indices.at(-1)).toBeGreaterThan(1.75);
  });
});
