/** Which catalogue glass a measured nd and Abbe number are nearest to. Outside comparison: ml-matrix's inverse. */
import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { MELT_SPREAD } from '../../src/calibrate/assumptions.ts';
import { glasses } from '../../src/calibrate/curve/glasses.ts';
import { type GlassConstants, nearestGlasses } from '../../src/calibrate/refractive-index.ts';

function measured(nd: number, ndU: number, abbe: number, abbeU: number, correlation: number): GlassConstants {
  return {
    nd: { value: nd, standardUncertainty: ndU },
    principalDispersion: { value: (nd - 1) / abbe, standardUncertainty: 0 },
    abbeNumber: { value: abbe, standardUncertainty: abbeU },
    covariance: correlation * ndU * abbeU,
    extrapolated: false,
  };
}

describe('the distance to a catalogue glass', () => {
  test.each([
    ['measured well', measured(1.6203, 2e-4, 36.2, 0.2, 0)],
    ['with errors that go together', measured(1.52, 0.002, 62, 1.5, -0.8)],
    ['with errors that go against each other', measured(1.52, 0.002, 62, 1.5, 0.8)],
  ])('%s', (_what, constants) => {
    const { nd, abbeNumber, covariance } = constants;
    const expected = glasses
      .map((glass) => {
        const off = new Matrix([[nd.value - glass.nd], [abbeNumber.value - glass.abbeNumber]]);
        const meltAbbe = MELT_SPREAD.abbeFraction * glass.abbeNumber;
        const total = new Matrix([
          [nd.standardUncertainty ** 2 + MELT_SPREAD.nd ** 2, covariance],
          [covariance, abbeNumber.standardUncertainty ** 2 + meltAbbe ** 2],
        ]);
        const squared = off.transpose().mmul(inverse(total)).mmul(off).get(0, 0);
        return { name: glass.name, distance: Math.sqrt(squared) };
      })
      .sort((a, b) => a.distance - b.distance);
    const found = nearestGlasses(constants);
    expect(found.map(({ glass }) => glass.name)).toEqual(expected.slice(0, 3).map(({ name }) => name));
    found.forEach(({ distance }, rank) => {
      expect(distance / expected[rank]!.distance).toBeCloseTo(1, 9);
    });
  });
});
