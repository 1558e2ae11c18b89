/** The errors that all readings share, taken apart into modes: against covariances with known roots. */
import { describe, expect, test } from 'vitest';
import { MODE_REACH, MOST_MODE_STEPS, WORTH_A_MODE } from '../../src/identify/assumptions.ts';
import { commonError } from '../../src/identify/bench/common-error.ts';

const placesNm = [450, 500, 550, 600, 650];
/** One error of this size, the same at every wavelength; or one that leans about the middle place. */
const level = (sd: number) => (): number => sd ** 2;
const leaning = (sd: number) => (one: number, other: number) =>
  (sd ** 2 * (one - 550) * (other - 550)) / 100 ** 2;
/** Root mean square of what leans, over the places. */
const leaningRms = Math.sqrt((1 + 0.25 + 0 + 0.25 + 1) / 5);
const sumOver = <T>(list: readonly T[], of: (each: T) => number): number =>
  list.reduce((total, each) => total + of(each), 0);

describe('the common error', () => {
  test('that is the same everywhere is one mode of that size; what its places carry is taken off the rest', () => {
    const { modes, nodes, residualVariance } = commonError(level(2), placesNm, 1);
    expect(modes).toHaveLength(1);
    for (const nm of [420, 550, 690]) expect(Math.abs(modes[0]!.at(nm))).toBeCloseTo(2, 9);
    const weights = nodes.map(({ logWeight }) => Math.exp(logWeight));
    expect(sumOver(weights, (weight) => weight)).toBeCloseTo(1, 12);
    const carried = sumOver(nodes, ({ z, logWeight }) => z[0]! ** 2 * Math.exp(logWeight));
    expect(carried).toBeGreaterThan(0.8);
    expect(residualVariance(550)).toBeCloseTo(4 * Math.max(0.02, 1 - carried), 9);
  });

  test('is summed over places evenly spaced, normal in weight, as dense as its size needs', () => {
    for (const [sd, count] of [
      [0.5, 3],
      [1, 5],
      [2, 9],
      [4, 15],
      [20, MOST_MODE_STEPS[0]],
    ] as const) {
      const { nodes } = commonError(level(sd), placesNm, 1);
      expect(nodes).toHaveLength(count);
      expect(nodes[0]!.z[0]).toBeCloseTo(-MODE_REACH, 12);
      expect(nodes.at(-1)!.z[0]).toBeCloseTo(MODE_REACH, 12);
      const step = nodes[1]!.z[0]! - nodes[0]!.z[0]!;
      nodes.forEach(({ z, logWeight }, i) => {
        expect(z[0]).toBeCloseTo(-MODE_REACH + i * step, 12);
        const middle = nodes[(count - 1) / 2]!;
        expect(logWeight - middle.logWeight).toBeCloseTo(-(z[0]! ** 2) / 2, 9);
      });
    }
  });

  test('too small to matter beside one reading is no mode, and stays with each line', () => {
    for (const [sd, count] of [
      [0.99 * WORTH_A_MODE, 0],
      [1.01 * WORTH_A_MODE, 1],
    ] as const) {
      const { modes, nodes } = commonError(level(3 * sd), placesNm, 3);
      expect(modes).toHaveLength(count);
      if (count > 0) continue;
      expect(nodes).toEqual([{ z: [], logWeight: 0 }]);
      expect(commonError(level(3 * sd), placesNm, 3).residualVariance(500)).toBeCloseTo(9 * sd ** 2, 12);
    }
  });

  test('of two independent causes is two modes, the larger first, on a grid of both', () => {
    const both = (one: number, other: number): number => level(2)() + leaning(1.5)(one, other);
    const { modes, nodes } = commonError(both, placesNm, 1);
    expect(modes).toHaveLength(2);
    for (const nm of [430, 550, 650]) {
      expect(Math.abs(modes[0]!.at(nm))).toBeCloseTo(2, 9);
      expect(Math.abs(modes[1]!.at(nm))).toBeCloseTo(Math.abs((1.5 * (nm - 550)) / 100), 9);
    }
    const alone = 1 + 2 * Math.ceil((MODE_REACH * 1.5 * leaningRms) / 1.5);
    expect(nodes).toHaveLength(9 * Math.min(alone, MOST_MODE_STEPS[1]));
    expect(sumOver(nodes, ({ logWeight }) => Math.exp(logWeight))).toBeCloseTo(1, 12);
    expect(new Set(nodes.map(({ z }) => z.join(' '))).size).toBe(nodes.length);
  });

  test('never leaves a negative variance, and keeps what no mode explains', () => {
    const own = (one: number, other: number): number => 4 + (one === other ? 0.3 : 0);
    const { residualVariance } = commonError(own, [500, 600], 1);
    for (const nm of [450, 500, 550]) {
      expect(residualVariance(nm)).toBeGreaterThanOrEqual(0);
      expect(residualVariance(nm)).toBeLessThan(4.3);
    }
  });
});
