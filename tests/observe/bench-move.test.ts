/** A bench that is moved: how far, and how probable it is after a difference. Expected values from the definition. */
import { describe, expect, test } from 'vitest';
import { movedProbability, moveLogs, moveSize } from '../../src/observe/bench-move.ts';

const normal = (x: number, variance: number): number =>
  Math.exp((-x * x) / (2 * variance)) / Math.sqrt(2 * Math.PI * variance);

/** 4 of 100 knocked by 12', 1 of 100 turned to anywhere within 300' either way. */
const byHand = (apart: number, variance: number, sd = 12, reach = 300) => {
  const still = 0.95 * normal(apart, variance);
  const moved = 0.04 * normal(apart, variance + sd ** 2) + 0.01 / (2 * reach);
  return { still, moved, probability: moved / (still + moved) };
};

describe('a difference between two readings of the same thing', () => {
  test.each([
    [0, 1],
    [2, 1],
    [4, 1],
    [-4, 1],
    [4, 9],
    [40, 1],
    [200, 1],
  ])('of %f with variance %f', (apart, variance) => {
    const size = moveSize({ method: 'central' }, Number.NaN);
    const expected = byHand(apart, variance);
    const { still, moved } = moveLogs(apart, variance, size);
    expect(Math.exp(still)).toBeCloseTo(expected.still, 12);
    expect(Math.exp(moved)).toBeCloseTo(expected.moved, 12);
    expect(movedProbability(apart, variance, size)).toBeCloseTo(expected.probability, 10);
  });

  test('is judged on a scale by the length of its spectrum, whatever its units are worth', () => {
    const probability = (units: number): number =>
      movedProbability(4 * units, units ** 2, moveSize({ method: 'scale' }, 200 * units));
    expect(probability(1)).toBeCloseTo(byHand(4, 1, 12, 200).probability, 10);
    expect(probability(0.01)).toBeCloseTo(probability(1), 10);
    expect(probability(1000)).toBeCloseTo(probability(1), 10);
  });
});
