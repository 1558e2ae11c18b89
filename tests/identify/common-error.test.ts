/** Errors that all readings share: modes, places and what is left add up to the covariance that went in. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MODE_REACH, MOST_MODE_STEPS, WORTH_A_MODE } from '../../src/identify/assumptions.ts';
import { type CommonError, commonError } from '../../src/identify/bench/common-error.ts';

const PLACES = [440, 500, 560, 620, 680];
const variance = ({ nodes }: CommonError, mode: number): number =>
  nodes.reduce((sum, { z, logWeight }) => sum + Math.exp(logWeight) * z[mode]! ** 2, 0);
const weights = ({ nodes }: CommonError): number =>
  nodes.reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0);

describe('an error that shifts all readings alike', () => {
  const sd = 3;
  const common = commonError(() => sd ** 2, PLACES, 1);

  test('is one mode, as large everywhere', () => {
    expect(common.modes).toHaveLength(1);
    for (const nm of [400, 500, 690]) expect(Math.abs(common.modes[0]!.at(nm))).toBeCloseTo(sd, 9);
  });

  test('is integrated over places of weight 1 in all, as far out on both sides, closer than 1.5 u', () => {
    expect(weights(common)).toBeCloseTo(1, 12);
    const places = common.nodes.map(({ z }) => z[0]!).sort((a, b) => a - b);
    expect(places[0]).toBeCloseTo(-MODE_REACH, 12);
    expect(places.at(-1)).toBeCloseTo(MODE_REACH, 12);
    expect((places[1]! - places[0]!) * sd).toBeLessThanOrEqual(1.5);
  });

  test('is all there: what the places do not carry is left to each line', () => {
    for (const nm of [400, 560, 690])
      expect(variance(common, 0) * sd ** 2 + common.residualVariance(nm)).toBeCloseTo(sd ** 2, 9);
  });
});

test.each([
  ['is left to each line just below the bound', 0.999, 0],
  ['is a mode just above it', 1.001, 1],
])('an error small beside a reading %s', (_, factor, modes) => {
  const sd = factor * WORTH_A_MODE * 2;
  const common = commonError(() => sd ** 2, PLACES, 2);
  expect(common.modes).toHaveLength(modes);
  expect(common.nodes.length > 1).toBe(modes === 1);
  if (modes === 0) {
    expect(common.nodes).toEqual([{ z: [], logWeight: 0 }]);
    expect(common.residualVariance(500)).toBeCloseTo(sd ** 2, 12);
  }
});

test('two constants are two modes, which give their covariance back at every pair of places', () => {
  // A shift and a tilt about 560 nm, as of a curve's level and dispersion.
  const covariance = (a: number, b: number): number => 9 + ((a - 560) * (b - 560)) / 400;
  const common = commonError(covariance, PLACES, 1);
  expect(common.modes).toHaveLength(2);
  for (const a of [410, 440, 600, 690])
    for (const b of [440, 560, 660]) {
      const product = common.modes.reduce((sum, mode) => sum + mode.at(a) * mode.at(b), 0);
      expect(product).toBeCloseTo(covariance(a, b), 6);
    }
  // The larger one first: of the constants a tilt of 6 at the ends is.
  const [first, second] = common.modes.map((mode) => PLACES.reduce((sum, nm) => sum + mode.at(nm) ** 2, 0));
  expect(first).toBeGreaterThan(second!);
});

test('however large the error, its places are bounded, and no variance is negative', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 1e4, noNaN: true }),
      fc.double({ min: 0.1, max: 1e4, noNaN: true }),
      fc.double({ min: 0.2, max: 10, noNaN: true }),
      (level, tilt, u) => {
        const covariance = (a: number, b: number): number =>
          level ** 2 + tilt ** 2 * ((a - 560) / 100) * ((b - 560) / 100);
        const common = commonError(covariance, PLACES, u);
        expect(common.nodes.length).toBeLessThanOrEqual(MOST_MODE_STEPS[0] * MOST_MODE_STEPS[1]);
        expect(weights(common)).toBeCloseTo(1, 9);
        for (const nm of [380, 560, 760]) expect(common.residualVariance(nm)).toBeGreaterThanOrEqual(0);
      },
    ),
  );
});
