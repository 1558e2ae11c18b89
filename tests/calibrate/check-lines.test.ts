/** Known lines kept out of the fit: reading minus curve, with its uncertainty, as far as the curve reaches. */
import { expect, test } from 'vitest';
import { formatAngle } from '../../src/angle/format-angle.ts';
import { checkedLines } from '../../src/calibrate/check-lines.ts';
import { resolution } from '../observe/by-hand.ts';
import { benchOf } from './glass-bench.ts';
import { straightCurve } from './straight-curve.ts';

const settingVariance = 0.5;

/** Check lines that lie `off` arc-minutes off the straight curve. */
function benchWith(
  lines: readonly (readonly [nm: number, off: number])[],
  central: readonly string[] = ["100°00'"],
) {
  return benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central,
    known: [],
    unknown: [],
    check: lines.map(([wavelengthNm, off]) => ({
      wavelengthNm,
      readings: [formatAngle(100 + (straightCurve.ordinateAt(wavelengthNm) + off) / 60, 1)],
    })),
  });
}

const checked = (bench: ReturnType<typeof benchWith>, curve: typeof straightCurve | null = straightCurve) =>
  checkedLines(bench, { curve, curveNow: curve }, settingVariance);

test('each line of the bench has its residual and u, in its order', () => {
  const found = checked(
    benchWith([
      [546, 3],
      [500, -7],
    ]),
  );
  expect(found.map(({ wavelengthNm }) => wavelengthNm)).toEqual([546, 500]);
  expect(found[0]!.ordinate).toBeCloseTo(4000 - 1092 + 3, 6);
  expect(found[0]!.residual).toBeCloseTo(3, 6);
  expect(found[1]!.residual).toBeCloseTo(-7, 6);
  // One reading: its own resolution and setting, and the curve there.
  for (const { standardUncertainty } of found)
    expect(standardUncertainty).toBeCloseTo(Math.sqrt(resolution(1) + settingVariance + 0.04), 9);
});

test.each([
  [399, false],
  [400, true],
  [700, true],
  [701, false],
])('at %f nm the curve reaches it: %s', (nm, reaches) => {
  const [found] = checked(benchWith([[nm, 0]]));
  expect(found!.ordinate).not.toBeNull();
  expect(found!.residual !== null).toBe(reaches);
  expect(found!.standardUncertainty !== null).toBe(reaches);
});

test('without a curve, or without a central image, nothing is compared', () => {
  expect(checked(benchWith([[546, 0]]), null)[0]).toMatchObject({
    residual: null,
    standardUncertainty: null,
  });
  expect(checked(benchWith([[546, 0]], []))[0]).toEqual({
    wavelengthNm: 546,
    ordinate: null,
    residual: null,
    standardUncertainty: null,
  });
});
