/** How much evidence counts: the power, and the chances that follow. Lines: NIST SRD 108. */
import { describe, expect, test } from 'vitest';
import { evidencePower } from '../../src/identify/rank/evidence-power.ts';
import { tubeWith } from './tube-bench.ts';

describe('the power of the evidence', () => {
  test('is 1 without readings, and half where the readings are as many as outweigh what is taken for granted', () => {
    expect(evidencePower(0)).toBe(1);
    expect(evidencePower(40)).toBe(0.5);
    expect(evidencePower(10)).toBeCloseTo(0.8, 12);
  });

  test('never lets a further reading of the same kind count for nothing', () => {
    for (let n = 1; n < 300; n += 1)
      expect((n + 1) * evidencePower(n + 1)).toBeGreaterThan(n * evidencePower(n));
  });

  test.each([[[706.52, 667.82, 587.56]], [[706.52, 667.82, 587.56, 501.57, 447.15]]])(
    'makes the chances of %j',
    (nm) => {
      const [first, second] = tubeWith(nm).candidates;
      expect(Math.log(first!.probability / second!.probability)).toBeCloseTo(
        evidencePower(nm.length) * (first!.logEvidence - second!.logEvidence),
        6,
      );
    },
  );
});
