import { describe, expect, test } from 'vitest';
import { colourRangeNm } from '../../src/lines/colour.ts';
import { colourLogLikelihood } from '../../src/lines/colour-likelihood.ts';
import { isPairMean, isSameLine } from '../../src/lines/same-line.ts';

describe('the same line', () => {
  // NIST SRD 108: mercury 546.075 and 579.066, 576.960; sodium 588.995 and 589.592. School tables round them.
  test.each([
    [546.1, 546.075, true],
    [546, 546.075, true],
    [579.1, 579.066, true],
    [577, 579.066, false],
    [588.995, 589.592, false],
  ])('%s and %s: %s', (first, second, same) => {
    expect(isSameLine(first, second)).toBe(same);
    expect(isSameLine(second, first)).toBe(same);
  });

  test('a pair is known by its mean, not by one of its lines', () => {
    const meanNm = (588.995 + 589.592) / 2;
    expect(isPairMean(589.3, meanNm)).toBe(true);
    expect(isPairMean(589.0, meanNm)).toBe(false);
  });
});

describe('a colour noted', () => {
  const { fromNm, toNm } = colourRangeNm('green');

  test('says nothing within its range, nor where there is none', () => {
    for (const nm of [fromNm, (fromNm + toNm) / 2, toNm])
      expect(colourLogLikelihood('green', nm)).toBeCloseTo(0, 12);
    expect(colourLogLikelihood(null, 700)).toBe(0);
  });

  test('falls off as a normal law of 12 nm on either side, and never below a word that is altogether wrong', () => {
    expect(colourLogLikelihood('green', toNm + 12)).toBeCloseTo(-0.5, 12);
    expect(colourLogLikelihood('green', fromNm - 24)).toBeCloseTo(-2, 12);
    expect(colourLogLikelihood('green', 700)).toBe(-5);
    expect(Math.exp(colourLogLikelihood('violet', 700))).toBeCloseTo(0.0067, 4);
  });
});
