/** Central readings of one list that lie apart: from where on, by how much, and which is misread. */
import { describe, expect, test } from 'vitest';
import { benchConstants } from '../../src/observe/bench-constants.ts';
import { centralApart } from '../../src/observe/central-list.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { resolution } from './by-hand.ts';

const usualVariance = 0.68;

function apart(
  central: readonly unknown[],
  windows: 1 | 2 = 1,
  leastCount = "1'",
  settingVariance = usualVariance,
) {
  const bench = benchOf({ instrument: { method: 'central', leastCount, windows }, central, unknown: [] });
  return centralApart(bench, bench.central, { constants: benchConstants(bench), settingVariance });
}

/** Where a difference begins to be noticed: four standard uncertainties of it. */
const noticed = 4 * Math.sqrt(2 * (resolution(0.5) + usualVariance));

describe('two readings of the central image', () => {
  test('that agree are nothing to speak of', () => {
    expect(apart(["181°04'", "181°04'"])).toBeNull();
    expect(apart(["181°04'"])).toBeNull();
    expect(apart([])).toBeNull();
  });

  test('are measured by the usual hand where the lines were set more finely', () => {
    expect(apart(["181°04'", "181°08'"], 1, "1'", 0.01)).toBeNull();
    expect(apart(["181°04'", "181°10'"], 1, "1'", 0.01)).not.toBeNull();
  });

  test('are noticed from four standard uncertainties on', () => {
    const counts = Math.ceil(noticed / 0.5);
    const text = (halves: number): string =>
      `181°${String(4 + Math.floor(halves / 2)).padStart(2, '0')}'${halves % 2 ? '30' : '00'}"`;
    expect(apart([text(0), text(counts - 1)], 1, '30"')).toBeNull();
    const found = apart([text(0), text(counts)], 1, '30"')!;
    expect(found.spreadArcmin).toBeCloseTo(counts / 2, 6);
    expect(apart([text(counts), text(0)], 1, '30"')!.spreadArcmin).toBeCloseTo(counts / 2, 6);
  });

  test('half a degree apart: one of them is misread, and nothing says which', () => {
    const found = apart(["181°04'", "181°34'"])!;
    expect(found.spreadArcmin).toBeCloseTo(30, 6);
    expect(found).toMatchObject({ leftOut: [], misread: null });
    expect(found.probability).toBeGreaterThan(0.99);
    expect(found.probability).toBeLessThanOrEqual(1);
  });
});

describe('of three or more', () => {
  test('the one that lies apart is out of the mean, and read for what it was', () => {
    const found = apart(["0°01'", "359°59'", "0°31'"])!;
    expect(found.spreadArcmin).toBeCloseTo(32, 6);
    expect(found.leftOut).toEqual([found.settings[2]]);
    expect(found.misread).toMatchObject({ corrected: { cause: { kind: 'half-degree' } } });
    expect(found.misread!.readingDeg).toBeCloseTo(31 / 60, 9);
    expect(found.misread!.corrected!.readingDeg).toBeCloseTo(1 / 60, 9);
  });

  test('the spread is that of all, not only from the first', () =>
    expect(apart(["181°14'", "181°04'", "181°24'"])!.spreadArcmin).toBeCloseTo(20, 6));

  test('one that is out of the mean is told of, be the hand ever so shaky', () => {
    const found = apart(["181°04'", "181°04'", "181°19'"], 1, "1'", 16)!;
    expect(found.spreadArcmin).toBeLessThan(4 * Math.sqrt(2 * 16));
    expect(found.leftOut).toEqual([found.settings[2]]);
  });

  test('that scatter as repeats do they are left alone', () =>
    expect(apart(["181°04'", "181°05'", "181°06'"])).toBeNull());
});

test('of two windows the larger spread counts, and both are needed for a reading left out', () => {
  const found = apart(
    [
      ["181°04'", "1°04'"],
      ["181°04'", "1°04'"],
      ["181°04'", "1°45'"],
    ],
    2,
  )!;
  expect(found.spreadArcmin).toBeCloseTo(41, 6);
  expect(found.leftOut).toHaveLength(1);
  expect(found.misread).toBeNull();
});
