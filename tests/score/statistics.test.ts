import { describe, expect, test } from 'vitest';
import { leastCurveVariance } from './bound.ts';
import { readLine } from './instrument.ts';
import { Random } from './random.ts';
import { readingErrorDensity } from './reading-error.ts';
import { simulateBench } from './simulate-bench.ts';
import { clusteredProportion, expectedCalibrationError, rootRatio, upperBound95 } from './statistics.ts';

describe('figures of a score', () => {
  test('with no failure in n the bound is 1 - 0.05^(1/n)', () => {
    expect(upperBound95(0, 10)).toBeCloseTo(1 - 0.05 ** 0.1, 9);
    expect(upperBound95(0, 2000)).toBeCloseTo(1 - 0.05 ** (1 / 2000), 9);
  });

  test('with failures it is where so few would come once in twenty (Clopper and Pearson 1934)', () => {
    const p = upperBound95(1, 20);
    expect((1 - p) ** 20 + 20 * p * (1 - p) ** 19).toBeCloseTo(0.05, 9);
  });

  test('lines of one bench that always agree count as one', () => {
    const together = clusteredProportion([0, 8, 8, 0].map((hits) => ({ hits, trials: 8 })));
    expect(together).toEqual({ value: 0.5, standardError: 0.25 });
  });

  test('a ratio of roots', () => {
    expect(
      rootRatio([
        { above: 8, below: 2 },
        { above: 4, below: 1 },
      ]),
    ).toEqual({ value: 2, standardError: 0 });
  });

  test('claims of 80 % that are right half the time are 0.3 off', () => {
    const claims = [true, false].map((isRight) => ({ probability: 0.8, isRight }));
    expect(expectedCalibrationError(claims)).toBeCloseTo(0.3, 12);
  });
});

describe('best possible', () => {
  const { truth } = simulateBench(new Random(2), { family: 'flint', leastCountArcmin: 1, lamp: 'helium' });
  const density = readingErrorDensity(truth.instrument);

  test('the density of a reading’s error has the mean and the scatter of simulated readings', () => {
    let [total, mean] = [0, 0];
    for (let error = -10; error < 30; error += 0.01) {
      total += density.at(error) * 0.01;
      mean += error * density.at(error) * 0.01;
    }
    expect(total).toBeCloseTo(1, 3);
    expect(Math.abs(mean)).toBeLessThan(0.02);

    const random = new Random(6);
    const readings = Array.from({ length: 20_000 }, () => {
      const { setting } = readLine(random, truth.instrument, 550);
      return setting.kind === 'one-side'
        ? ((setting.windows[0]! - truth.instrument.centralDeg + 540) % 360) * 60
        : 0;
    });
    const centre = readings.reduce((sum, value) => sum + value, 0) / readings.length;
    const variance = readings.reduce((sum, value) => sum + (value - centre) ** 2, 0) / readings.length;
    expect(variance / density.varianceArcmin2).toBeGreaterThan(0.94);
    expect(variance / density.varianceArcmin2).toBeLessThan(1.06);
  });

  test('no reading tells more than its information, and a normal one would tell less', () => {
    expect(density.information).toBeGreaterThan(1 / density.varianceArcmin2);
  });

  test('knowing prisms helps most where there are few lines; more lines always help', () => {
    const variance = (knownNm: number[], withPrior: boolean) =>
      leastCurveVariance(knownNm, density.information, [540], withPrior)[0]!;
    const [few, many] = [
      [447.15, 587.56, 667.82],
      [447.15, 471.31, 501.57, 587.56, 667.82, 706.52],
    ];
    expect(variance(few, true)).toBeLessThan(0.7 * variance(few, false));
    expect(variance(many, true)).toBeLessThan(variance(few, true));
    expect(variance(many, true)).toBeGreaterThan(0.5 * variance(many, false));
  });
});
