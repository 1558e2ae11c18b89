/** The forward recursion against all alignments written out one by one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  alignmentLogRatio,
  alignmentWork,
  anyOrderLogGain,
  bestAlignment,
  keptPairings,
  PairingList,
  type Pairings,
} from '../../src/identify/evidence/alignment.ts';

/** `ratio[i][j]`: reading i at line j against reading i as a stray; 0: too far. `odds[j]`: line seen against missed. */
interface Case {
  readonly ratio: readonly (readonly number[])[];
  readonly odds: readonly number[];
}

const cases = fc
  .record({ readings: fc.integer({ min: 0, max: 5 }), lines: fc.integer({ min: 1, max: 6 }) })
  .chain(({ readings, lines }) =>
    fc.record({
      ratio: fc.array(
        fc.array(fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 40, noNaN: true })), {
          minLength: lines,
          maxLength: lines,
        }),
        { minLength: readings, maxLength: readings },
      ),
      odds: fc.array(fc.double({ min: 0.01, max: 20, noNaN: true }), { minLength: lines, maxLength: lines }),
    }),
  );

interface Alignment {
  readonly picks: readonly (number | null)[];
  readonly weight: number;
}

/** Every way to give each reading a line or none, lines in ascending order and none of them twice. */
function everyAlignment({ ratio, odds }: Case, reading = 0, last = -1): Alignment[] {
  if (reading === ratio.length) return [{ picks: [], weight: 1 }];
  const options: { pick: number | null; factor: number }[] = [{ pick: null, factor: 1 }];
  odds.forEach((chance, j) => {
    const factor = chance * ratio[reading]![j]!;
    if (j > last && factor > 0) options.push({ pick: j, factor });
  });
  return options.flatMap(({ pick, factor }) =>
    everyAlignment({ ratio, odds }, reading + 1, pick ?? last).map(({ picks, weight }) => ({
      picks: [pick, ...picks],
      weight: factor * weight,
    })),
  );
}

/** One for all, as the program has one for a tube: nothing of an earlier case may be left in it. */
const list = new PairingList();

function pairingsOf({ ratio }: Case): Pairings {
  list.clear();
  for (const row of ratio) {
    for (const [line, value] of row.entries()) if (value > 0) list.add(line, value);
    list.endReading();
  }
  return list.pairings();
}

describe('alignments of readings with lines', () => {
  test('the recursion sums what all alignments sum to', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const sum = everyAlignment(one).reduce((total, { weight }) => total + weight, 0);
        const log = alignmentLogRatio(pairingsOf(one), one.odds, alignmentWork());
        expect(Math.abs(log - Math.log(sum))).toBeLessThan(1e-10);
      }),
      { numRuns: 300 },
    );
  });

  test('the best alignment weighs as much as the heaviest of all', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const all = everyAlignment(one);
        const best = bestAlignment(pairingsOf(one), one.odds);
        const found = all.find(({ picks }) => picks.every((pick, i) => pick === best[i]));
        const heaviest = Math.max(...all.map(({ weight }) => weight));
        expect(found!.weight / heaviest).toBeCloseTo(1, 10);
      }),
      { numRuns: 300 },
    );
  });

  test('space that was used before does not leave a trace', () => {
    const work = alignmentWork();
    const [large, small] = [
      {
        ratio: [
          [3, 3, 3],
          [3, 3, 3],
        ],
        odds: [5, 5, 5],
      },
      { ratio: [[0, 2, 0]], odds: [1, 1, 1] },
    ];
    alignmentLogRatio(pairingsOf(large!), large!.odds, work);
    expect(alignmentLogRatio(pairingsOf(small!), small!.odds, work)).toBeCloseTo(Math.log(3), 12);
  });

  test('pairings that are kept stay as they are when others are collected', () => {
    fc.assert(
      fc.property(cases, cases, (one, other) => {
        const log = alignmentLogRatio(pairingsOf(one), one.odds, alignmentWork());
        const kept = keptPairings(pairingsOf(one));
        pairingsOf(other);
        expect(alignmentLogRatio(kept, one.odds, alignmentWork())).toBe(log);
      }),
    );
  });

  test('more readings than the work space was made for are no trouble', () => {
    const many: Case = {
      ratio: Array.from({ length: 40 }, () => new Array<number>(90).fill(1e-3)),
      odds: new Array<number>(90).fill(1),
    };
    expect(alignmentLogRatio(pairingsOf(many), many.odds, alignmentWork())).toBeGreaterThan(0);
  });

  test('hundreds of matched readings do not overflow', () => {
    // Each reading has a line of its own: the sum over all alignments is a product.
    const count = 500;
    const diagonal: Case = {
      ratio: Array.from({ length: count }, (_, i) =>
        Array.from({ length: count }, (__, j) => (i === j ? 1e6 : 0)),
      ),
      odds: new Array<number>(count).fill(1),
    };
    const log = alignmentLogRatio(pairingsOf(diagonal), diagonal.odds, alignmentWork());
    expect(log).toBeCloseTo(count * Math.log(1 + 1e6), 6);
    const best = bestAlignment(pairingsOf(diagonal), diagonal.odds);
    expect(best).toEqual(diagonal.ratio.map((_, i) => i));
  });
});

describe('readings in another order than their lines', () => {
  /** Every way to give each reading a line or none, none of the lines twice: the sum of their weights. */
  const sumInAnyOrder = ({ ratio, odds }: Case, reading = 0, taken = 0): number => {
    if (reading === ratio.length) return 1;
    let sum = sumInAnyOrder({ ratio, odds }, reading + 1, taken);
    for (const [j, chance] of odds.entries()) {
      const factor = chance * ratio[reading]![j]!;
      if (factor > 0 && (taken & (1 << j)) === 0)
        sum += factor * sumInAnyOrder({ ratio, odds }, reading + 1, taken | (1 << j));
    }
    return sum;
  };
  const sums = (one: Case) => {
    const ordered = alignmentLogRatio(pairingsOf(one), one.odds, alignmentWork());
    return {
      gain: anyOrderLogGain(pairingsOf(one), one.odds, ordered),
      ordered,
      any: Math.log(sumInAnyOrder(one)),
    };
  };

  test('are counted by a sum between that in order and that of all matchings', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const { gain, ordered, any } = sums(one);
        expect(gain).toBeGreaterThanOrEqual(0);
        expect(ordered + gain).toBeLessThan(any + 0.02);
      }),
      { numRuns: 300 },
    );
  });

  test.each([2, 3, 4, 5, 6])(
    'gain a good part of what they should, where %i lines lie so close that any reading may be any',
    (count) => {
      const row = new Array<number>(count).fill(50);
      const { gain, ordered, any } = sums({ ratio: row.map(() => row), odds: row.map(() => 1) });
      expect(any - ordered).toBeGreaterThan(0.6);
      expect(gain / (any - ordered)).toBeGreaterThan(0.3);
    },
  );

  test('gain nothing where each has a line of its own', () => {
    const ratio = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => (i === j ? 30 : 0)));
    expect(sums({ ratio, odds: [1, 2, 3, 4] }).gain).toBeCloseTo(0, 6);
  });

  test('are found quickly among hundreds', () => {
    const count = 200;
    const near = (i: number, j: number): number =>
      Math.abs(i - j) <= 6 ? Math.exp(4 - (i - j) ** 2 / 8) : 0;
    const many: Case = {
      ratio: Array.from({ length: count }, (_, i) => Array.from({ length: count }, (__, j) => near(i, j))),
      odds: new Array<number>(count).fill(1),
    };
    const ordered = alignmentLogRatio(pairingsOf(many), many.odds, alignmentWork());
    const gain = anyOrderLogGain(pairingsOf(many), many.odds, ordered);
    expect(gain).toBeGreaterThan(20);
    expect(Number.isFinite(gain)).toBe(true);
  });
});
