/** A tube that is not listed: any lines in any order, and as many as a student is shown. */
import { describe, expect, test } from 'vitest';
import { type Evidence, unlistedEvidence } from '../../src/identify/evidence/candidate-evidence.ts';
import { logUnlistedCount } from '../../src/identify/spectrum/outlier-readings.ts';

const evidence = (count: number, ...views: (readonly [weight: number, anywhere: number])[]): Evidence =>
  ({
    readings: Array.from({ length: count }, () => ({})),
    allLikelihoods: views.map(([logWeight, logAllAnywhere]) => ({ view: { logWeight }, logAllAnywhere })),
  }) as unknown as Evidence;

describe('the evidence for a tube off the list', () => {
  test.each([
    [1, 1],
    [2, 2],
    [3, 6],
    [5, 120],
  ])('of %i readings has %i orders', (count, orders) => {
    expect(unlistedEvidence(evidence(count, [0, -10]))).toBeCloseTo(
      -10 + Math.log(orders) + logUnlistedCount(count),
      10,
    );
  });

  test('is the sum over what the bench may be', () => {
    const both = unlistedEvidence(evidence(2, [Math.log(0.25), -8], [Math.log(0.75), -8 + Math.LN2]));
    expect(both).toBeCloseTo(-8 + Math.log(0.25 + 1.5) + Math.log(2) + logUnlistedCount(2), 10);
  });
});
