/** The one-sided error of a prism off its minimum: its mixture against the χ² density, its posterior against integrals. */
import { describe, expect, test } from 'vitest';
import { type GaussianConstants, learned } from '../../src/calibrate/curve/gaussian-curve.ts';
import { learnedSkewed, type SkewedReading } from '../../src/calibrate/curve/skewed-errors.ts';

/** A curve of one constant, so that posteriors can be integrated by the trapezoidal rule. */
const level = Float64Array.of(1);
const priorVariance = 100;
const start: GaussianConstants = { mean: Float64Array.of(0), covariance: Float64Array.of(priorVariance) };

const normal = (x: number, variance: number): number =>
  Math.exp((-0.5 * x * x) / variance) / Math.sqrt(2 * Math.PI * variance);

function integral(f: (x: number) => number, from: number, to: number, steps: number): number {
  const step = (to - from) / steps;
  let sum = (f(from) + f(to)) / 2;
  for (let i = 1; i < steps; i += 1) sum += f(from + i * step);
  return sum * step;
}

/**
 * Density of a normal error plus an excess of c·z² - c with z standard normal: the definition of χ² with one degree of
 * freedom (M. Abramowitz & I. A. Stegun, Handbook of Mathematical Functions, 26.4.1), integrated over z.
 */
const errorDensity = (error: number, variance: number, meanExcess: number): number =>
  integral((z) => normal(z, 1) * normal(error - meanExcess * (z * z - 1), variance), -7, 7, 700);

const reading = (ordinate: number, meanExcess: number): SkewedReading => ({
  values: level,
  ordinate,
  variance: 0.36,
  meanExcess,
});

function integrated(readings: readonly SkewedReading[]): { mean: number; sd: number; log: number } {
  const weight = (at: number): number =>
    readings.reduce(
      (product, { ordinate, variance, meanExcess }) =>
        product * errorDensity(ordinate - at, variance, meanExcess),
      normal(at, priorVariance),
    );
  const places = Array.from({ length: 401 }, (_, i) => -10 + i / 20);
  const weights = places.map(weight);
  const total = weights.reduce((sum, value) => sum + value, 0);
  const mean = places.reduce((sum, place, i) => sum + place * weights[i]!, 0) / total;
  const square = places.reduce((sum, place, i) => sum + (place - mean) ** 2 * weights[i]!, 0) / total;
  return { mean, sd: Math.sqrt(square), log: Math.log(total / 20) };
}

describe.each([
  ['scattered readings', [0.2, -0.6, 0.9, -0.3, 0.1], 0.8],
  ['one far above the others', [0.1, -0.4, 4.5, -0.2, 0.3], 0.8],
  ['two only', [0.5, -0.7], 1.2],
  ['a small excess', [0.2, -0.6, 0.9, -0.3], 0.2],
] as const)('%s', (_, ordinates, meanExcess) => {
  const readings = ordinates.map((ordinate) => reading(ordinate, meanExcess));
  const { constants, log } = learnedSkewed(start, readings);
  const exact = integrated(readings);

  test('give the mean and width that the integral gives', () => {
    expect(Math.abs(constants.mean[0]! - exact.mean)).toBeLessThan(0.12 * exact.sd);
    expect(Math.sqrt(constants.covariance[0]!) / exact.sd).toBeGreaterThan(0.85);
    expect(Math.sqrt(constants.covariance[0]!) / exact.sd).toBeLessThan(1.15);
  });

  test('give its evidence', () => {
    expect(Math.abs(log - exact.log)).toBeLessThan(0.25);
  });
});

test('a reading far above the others moves the curve less than one as far below', () => {
  const at = (ordinate: number): number => {
    const readings = [0, 0.1, -0.1, ordinate].map((each) => reading(each, 0.8));
    return Math.abs(learnedSkewed(start, readings).constants.mean[0]!);
  };
  expect(at(4)).toBeLessThan(0.5 * at(-4));
});

test('without an excess the readings are learned as normal ones are', () => {
  const ordinates = [0.2, -0.6, 0.9];
  const { constants } = learnedSkewed(
    start,
    ordinates.map((ordinate) => reading(ordinate, 0)),
  );
  const plain = ordinates.reduce<GaussianConstants>(
    (sofar, ordinate) => learned(sofar, level, ordinate, 0.36),
    start,
  );
  expect(constants.mean[0]).toBeCloseTo(plain.mean[0]!, 9);
  expect(constants.covariance[0]).toBeCloseTo(plain.covariance[0]!, 9);
});
