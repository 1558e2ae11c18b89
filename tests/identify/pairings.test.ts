/** Pairs of reading and line against every pair written out, and where a line stands under the common error. */
import { describe, expect, test } from 'vitest';
import { readingDensity, type UnknownReading } from '../../src/identify/bench/unknown-reading.ts';
import { PairingList } from '../../src/identify/evidence/alignment.ts';
import { DensityTables } from '../../src/identify/evidence/density-table.ts';
import { PairingsOfView, placeAt } from '../../src/identify/evidence/pairings.ts';
import { WorkAllowance } from '../../src/identify/evidence/work-allowance.ts';
import type { SeenThrough } from '../../src/identify/spectrum/spectra-through.ts';
import { handLine, handPlaces, handReading, handView } from './hand-made.ts';

const at = (ordinate: number, variance: number, modes: readonly number[] = [2, -1]) =>
  handLine(600, { ordinate, variance, modes });

test('a line stands where its modes shift it', () => {
  const line = at(3000, 0.01);
  expect(placeAt(line, [])).toBe(3000);
  expect(placeAt(line, [1.5])).toBe(3003);
  expect(placeAt(line, [1.5, 4])).toBe(2999);
});

/** Variances at the upper end of a class, so that the table of the class is theirs: 0.0101 and 0.3. */
const [small, large] = [49, 84].map((k) => 0.99999 * 1e-4 * 1.1 ** k) as [number, number];
// Two lines near the first reading, both near the second too, and lines that no reading comes near.
const lines = [at(2990, small), at(2998, large), at(3001, small), at(3030, small, [-2, 1])];
const places = handPlaces(lines, 2);
const readings = [handReading(0, 2998.5), handReading(1, 3002, { variance: 0.6 }), handReading(2, 3060)];
const strays = [0.01, 0.002, 0.03];

function pairsAt(node: readonly number[], notes: SeenThrough['notes'] = () => null) {
  const densities = new Map<UnknownReading, { stray: number; anywhere: number }>(
    readings.map((reading, i) => [reading, { stray: strays[i]!, anywhere: 1 }]),
  );
  const allowance = new WorkAllowance(0);
  let spent = 0;
  allowance.spend = (units) => {
    spent += units;
  };
  const widest = Math.max(...lines.map(({ varianceClass }) => varianceClass));
  const { start, line, ratio } = new PairingsOfView(
    { places, widest, notes },
    { view: handView, densities, logAllStray: 0, logAllAnywhere: 0 },
    { readings, densities: new DensityTables(), allowance, pairingList: new PairingList() },
  ).at(node);
  const pairs = readings.map((_, i) =>
    Array.from({ length: start[i + 1]! - start[i]! }, (_, k) => {
      const pair = start[i]! + k;
      return { line: line[pair]!, ratio: ratio[pair]! };
    }),
  );
  return { pairs, spent };
}

const byHand = (i: number, j: number, node: readonly number[]): number =>
  readingDensity(readings[i]!, readings[i]!.ordinate - placeAt(lines[j]!, node), lines[j]!.variance) /
  strays[i]!;

describe('the pairs', () => {
  test.each([
    ['as the curve has them', [], [[1, 2], [1, 2], []]],
    ['shifted down by 2', [-1], [[1, 2], [2], []]],
    ['shifted down by 4, the last one up', [1, 6], [[2], [], []]],
  ] as const)('are those of readings and lines within reach, %s', (_, node, expected) => {
    const { pairs } = pairsAt(node);
    expect(pairs.map((own) => own.map(({ line }) => line))).toEqual(expected);
    for (const [i, own] of pairs.entries())
      for (const { line, ratio } of own) {
        // The table is straight between steps of a sixteenth of a standard deviation.
        const height = readingDensity(readings[i]!, 0, lines[line]!.variance) / strays[i]!;
        expect(Math.abs(ratio - byHand(i, line, node))).toBeLessThan(0.002 * height);
      }
  });

  test('are weighed by what is noted beside the reading', () => {
    const factors = [7, 5, 3, 2];
    const ofFirst = (line: { index: number }) =>
      line.index === 0 ? ({ at: (j: number) => factors[j]! } as ReturnType<SeenThrough['notes']>) : null;
    const plain = pairsAt([]).pairs;
    const noted = pairsAt([], ofFirst).pairs;
    expect(noted[0]!.map(({ ratio }, k) => ratio / plain[0]![k]!.ratio)).toEqual(
      plain[0]!.map(({ line }) => expect.closeTo(factors[line]!, 9)),
    );
    expect(noted[1]).toEqual(plain[1]);
  });

  test('cost two steps for each line and each pair looked at, one for each reading', () => {
    // Four lines are moved, two readings look at two lines each, the third at none.
    expect(pairsAt([]).spent).toBe(2 * (4 + 4) + 3);
  });
});
