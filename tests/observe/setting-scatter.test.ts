/** The prior of the scatter of setting, against its definition written out. */
import { describe, expect, test } from 'vitest';
import type { Observation } from '../../src/observe/observation.ts';
import { scatterPrior, usualScatter } from '../../src/observe/setting-scatter.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { logNormal, rounding } from './by-hand.ts';

const benchWith = (instrument: object) => benchOf({ instrument, known: [], unknown: [] });
const circle = benchWith({ method: 'central', leastCount: "1'" });

/** A line with these repeats; `side`: of its raw readings. */
function line(repeats: readonly number[], side: 'left' | null = null): Observation {
  const parts = repeats.map((reading, repeat) => ({ repeat, side, window: 0, reading, weight: 1 }));
  return { ordinate: 0, side: 1, parts, repeats, step: 1, resolutionVariance: 0, settingShare: 1 };
}

describe('the usual scatter of one setting', () => {
  test.each([
    ['a vernier of 1 minute', { method: 'central', leastCount: "1'" }, 0.68 + 0.11],
    ['a vernier of half a minute', { method: 'both-sides', leastCount: '30"' }, 0.68 + 0.055],
    ['a circle of hundredths of a degree', { method: 'central', leastCount: '0.01°' }, 0.68 + 0.45],
    ['a scale', { method: 'scale', leastCount: 0.1 }, 0.1],
  ])('on %s', (_, instrument, expected) =>
    expect(usualScatter(benchWith(instrument))).toBeCloseTo(expected, 9),
  );
});

const STEPS = [-2.1, -1.4, -0.7, 0, 0.7, 1.4, 2.1, 2.8];

/** Weights on the grid from ln likelihoods of a scatter, normalised. */
function expectedPrior(logLikelihood: (variance: number) => number) {
  const raw = STEPS.map((step) => {
    const variance = (0.79 * Math.exp(0.68 * step)) ** 2;
    return { variance, weight: Math.exp(-(step ** 2) / 2 + logLikelihood(variance)) };
  });
  const total = raw.map(({ weight }) => weight).reduce((a, b) => a + b);
  return raw.map(({ variance, weight }) => ({ variance, weight: weight / total }));
}

function expectPrior(observations: readonly Observation[], logLikelihood: (variance: number) => number) {
  const { grid } = scatterPrior(circle, observations);
  const expected = expectedPrior(logLikelihood);
  expect(grid).toHaveLength(expected.length);
  for (const [at, { variance, weight }] of expected.entries()) {
    expect(grid[at]!.variance).toBeCloseTo(variance, 9);
    expect(Math.exp(grid[at]!.logWeight)).toBeCloseTo(weight, 9);
  }
}

describe('the prior of the scatter', () => {
  test('is log-normal about the usual one without repeats, and a single reading says nothing', () => {
    expectPrior([], () => 0);
    expectPrior([line([17])], () => 0);
  });

  test('is sharpened by repeats: n about their mean are n - 1 differences', () => {
    const repeats = [10, 11.5, 9.5];
    expectPrior([line(repeats)], (variance) => {
      const single = 0.6 * variance + rounding(1);
      const mean = 31 / 3;
      return repeats
        .map((value) => (2 / 3) * logNormal(value - mean, (2 / 3) * single))
        .reduce((a, b) => a + b);
    });
  });

  test('of both sides two readings are averaged in each repeat', () => {
    expectPrior([line([0, 1], 'left')], (variance) => {
      const single = (0.6 * variance + rounding(1)) / 2;
      return logNormal(0.5, single / 2);
    });
  });

  test('multiplies over lines', () =>
    expectPrior([line([0, 1]), line([5, 5])], (variance) => {
      const single = 0.6 * variance + rounding(1);
      return logNormal(0.5, single / 2) + logNormal(0, single / 2);
    }));

  test('leaves repeats that no scatter explains to the slips: 12 for each is the least', () =>
    expectPrior([line([0, 60]), line([0, 2])], (variance) => {
      const single = 0.6 * variance + rounding(1);
      return Math.max(-24, logNormal(30, single / 2)) + Math.max(-24, logNormal(1, single / 2));
    }));
});
