/** What a line left out is predicted to: against fits that really leave it out. */
import { describe, expect, test } from 'vitest';
import { curveChoice, leaveOneOutRms, leverages } from '../../src/calibrate/compare/leave-one-out.ts';
import { prismBasis } from '../../src/calibrate/curve/basis.ts';
import { predicted } from '../../src/calibrate/curve/gaussian-curve.ts';
import { leastSquares } from '../../src/calibrate/curve/least-squares.ts';
import { curvePosterior } from '../../src/calibrate/curve/posterior.ts';
import { prismPrior } from '../../src/calibrate/curve/prism-prior.ts';

const x = [1, 2, 3.5, 4, 6, 7.5];
const y = [2.1, 3.9, 7.4, 7.9, 12.3, 14.8];
const design = x.map((value) => [1, value]);
const valueAt = ([a, b]: readonly number[], at: number) => a! + b! * at;

describe('leaving one out', () => {
  test('by leverage is what fits without the point say (Allen 1974)', () => {
    const residuals = y.map((value, i) => value - valueAt(leastSquares(design, [y])[0]!, x[i]!));
    const really = x.map((at, i) => {
      const without = <T>(list: readonly T[]) => list.filter((_, k) => k !== i);
      return y[i]! - valueAt(leastSquares(without(design), [without(y)])[0]!, at);
    });
    const rms = Math.hypot(...really) / Math.sqrt(really.length);
    expect(leaveOneOutRms(residuals, leverages(design))).toBeCloseTo(rms, 9);
  });

  test('leverages add up to the number of constants', () => {
    expect(leverages(design).reduce((sum, each) => sum + each, 0)).toBeCloseTo(2, 12);
  });

  test('is not possible where one point alone holds a constant', () => {
    expect(leaveOneOutRms([0, 0.1, -0.1], [1, 0.5, 0.5])).toBeNull();
    expect(leaveOneOutRms([0.3, 0.4], [0, 0])).toBeCloseTo(Math.sqrt(0.125), 12);
  });
});

describe('the choice of a curve', () => {
  const scatter = { grid: [{ variance: 0.25, logWeight: 0 }] };
  const prior = prismPrior('each-line', 180);
  const pointAt = (wavelengthNm: number, off: number) => ({
    wavelengthNm,
    wavelengthVariance: 0,
    ordinate:
      predicted({ mean: prior.mean, covariance: prior.covariance }, prismBasis.at(wavelengthNm)).ordinate +
      off,
    resolutionVariance: 0.1,
    settingShare: 1,
  });
  const points = [700, 650, 590, 550, 480, 440].map((nm, i) =>
    pointAt(nm, [0.3, -0.5, 0.4, 0.1, -0.4, 0.2][i]!),
  );
  const posterior = curvePosterior(prismBasis, prior, points, scatter);

  test('tells the scatter of each line about the curve through the others, the prior holding it', () => {
    const really = points.map((point, i) => {
      const { constants } = curvePosterior(
        prismBasis,
        prior,
        points.filter((_, k) => k !== i),
        scatter,
      );
      return point.ordinate - predicted(constants, prismBasis.at(point.wavelengthNm)).ordinate;
    });
    const rms = Math.hypot(...really) / Math.sqrt(really.length);
    expect(curveChoice(points, posterior, []).leaveOneOutRms! / rms).toBeCloseTo(1, 4);
  });

  test('names the best of the others that can be used at all', () => {
    const rival = (name: string, leaveOneOutRms: number | null, refused: string | null = null) => ({
      name,
      leaveOneOutRms,
      refused,
    });
    const others = [
      rival('line', 2),
      rival('parabola', 0.4),
      rival('cubic', 0.1, 'not monotone'),
      rival('none', null),
    ];
    expect(curveChoice(points, posterior, others)).toMatchObject({
      model: 'prism curve',
      lines: 6,
      other: { model: 'parabola', leaveOneOutRms: 0.4 },
    });
  });

  test('of two lines none can be spared', () => {
    expect(curveChoice(points.slice(0, 2), posterior, []).leaveOneOutRms).toBeNull();
    expect(curveChoice(points.slice(0, 3), posterior, []).leaveOneOutRms).not.toBeNull();
  });
});
