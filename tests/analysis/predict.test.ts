/** Where a line is to be looked for: on a curve known by hand, at its ends and beyond, and on a scale. */
import { describe, expect, test } from 'vitest';
import { predictOnCurve, type WantedLine, wantedLines, wantedOf } from '../../src/analysis/predict.ts';
import { tubeNamed } from '../../src/lines/table.ts';
import { bench, straightCurve } from '../cli/analysis-fixture.ts';

const wanted = (wavelengthNm: number): WantedLine => ({
  substance: 'neon',
  wavelengthNm,
  colour: 'red',
  brightness: 'strong',
  prominence: 0,
});
// 3000' at 550 nm, one less for every nm; known lines from 450 to 650 nm, a curve from 350 to 800 nm.
const places = (nms: readonly number[], of = bench(), curve = straightCurve()) =>
  predictOnCurve(of, curve, nms.map(wanted)).map(
    ({ reading, deviationDeg, standardUncertainty, extrapolated }) => [
      reading,
      deviationDeg,
      standardUncertainty,
      extrapolated,
    ],
  );

describe('on a curve', () => {
  test('a line has a deviation, a reading, and the uncertainty of the curve', () => {
    expect(places([550])).toEqual([["150°00'", 50, expect.closeTo(0.1, 12), false]]);
  });

  test('is extrapolated outside the known lines, at none of them', () => {
    expect(places([449.9, 450, 650, 650.1]).map(([, , , extrapolated]) => extrapolated)).toEqual([
      true,
      false,
      false,
      true,
    ]);
  });

  test('has no place beyond the curve, and still is extrapolated', () => {
    expect(places([349.9, 800.1])).toEqual([
      [null, null, null, true],
      [null, null, null, true],
    ]);
    for (const [reading] of places([350, 800])) expect(reading).not.toBeNull();
  });

  test('has no deviation on a scale', () => {
    const scale = bench({ method: 'scale', central: [], leastCount: 0.1 });
    expect(places([550], scale, { ...straightCurve(), unit: 'scale' })).toEqual([
      ['3000.0', null, expect.closeTo(0.1, 12), false],
    ]);
  });
});

test('lines are asked for from red to violet, the weak ones where all are wanted', () => {
  const all = wantedLines('neon', false);
  expect(all).toEqual(wantedOf(tubeNamed('neon')!));
  const nms = all.map(({ wavelengthNm }) => wavelengthNm);
  expect(nms).toEqual([...nms].sort((a, b) => b - a));
  expect(all.some(({ brightness }) => brightness === 'weak')).toBe(true);
  expect(wantedLines('neon', true)).toEqual(all.filter(({ brightness }) => brightness !== 'weak'));
  expect(wantedLines('no such tube', false)).toEqual([]);
});
