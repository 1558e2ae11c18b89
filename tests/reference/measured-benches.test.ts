/**
 * The published benches of `benches/`: sources and our judgement of their faults beside each. What counts as an
 * accusation is defined in `tests/score/measured-benches.ts`; `npm run score:measured` prints every bench.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import {
  judgedBenches,
  type MeasuredResult,
  type Totals,
  totalsOf,
  within,
} from '../score/measured-benches.ts';

/** What is wanted; of held-out lines 95 % within 2u besides, and as much of the tubes' lines. */
const TARGET = { accusedShare: 0.01, noticedShare: 0.9, withinU: [0.62, 0.74] } as const;
/**
 * What the program reaches today where that is short of the target. These numbers may only be tightened: a change that
 * needs them looser has made the program worse on benches that people measured.
 */
const REACHED = {
  accused: 1,
  noticed: 18,
  heldOutWithin2u: 0.9,
  tubesWithinU: 0.54,
  tubesWithin2u: 0.9,
} as const;

describe('benches measured by others', () => {
  let results: MeasuredResult[];
  let total: Totals;
  beforeAll(() => {
    results = judgedBenches();
    total = totalsOf(results);
    // Some fifteen seconds of work; the machine may be busy.
  }, 600_000);

  test('there are 23, with 244 sound known lines and 19 faults', () => {
    expect(results).toHaveLength(23);
    expect(total).toMatchObject({ certain: 8, sound: 244, faults: 19 });
  });

  test('every certain tube comes first', () => {
    const wrong = results.filter(({ isFirstRight }) => isFirstRight === false);
    expect(wrong.map(({ measured }) => measured.id)).toEqual([]);
  });

  test('nothing is identified wrongly: another gas than the certain or the plausible one', () => {
    expect(
      results.filter(({ isIdentifiedWrongly }) => isIdentifiedWrongly).map(({ measured }) => measured.id),
    ).toEqual([]);
  });

  test('sound known lines are left in peace', () => {
    expect(REACHED.accused / total.sound).toBeLessThanOrEqual(TARGET.accusedShare);
    expect(total.accused).toBeLessThanOrEqual(REACHED.accused);
  });

  test('faulty known lines are noticed', () => {
    const wanted = Math.min(REACHED.noticed, Math.ceil(TARGET.noticedShare * total.faults));
    expect(total.noticed).toBeGreaterThanOrEqual(wanted);
  });

  test('two thirds of the sound lines, held out and measured, lie within u of their wavelength', () => {
    const misses = results.flatMap(({ heldOutMisses }) => heldOutMisses);
    expect(misses.length).toBeGreaterThan(180);
    const [low, high] = TARGET.withinU;
    expect(within(misses, 1) / misses.length).toBeGreaterThanOrEqual(low);
    expect(within(misses, 1) / misses.length).toBeLessThanOrEqual(high);
    expect(within(misses, 2) / misses.length).toBeGreaterThanOrEqual(REACHED.heldOutWithin2u);
  });

  test('so do the lines of the certain tubes, though another lamp stood before the slit', () => {
    const misses = results.flatMap(({ tubeMisses }) => tubeMisses);
    expect(misses.length).toBeGreaterThan(30);
    expect(within(misses, 1) / misses.length).toBeGreaterThanOrEqual(REACHED.tubesWithinU);
    expect(within(misses, 2) / misses.length).toBeGreaterThanOrEqual(REACHED.tubesWithin2u);
  });
});
