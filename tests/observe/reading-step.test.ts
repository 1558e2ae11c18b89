/** What counts as evidence that readings were rounded: the places that lines were read at. */
import { describe, expect, test } from 'vitest';
import { readingStep } from '../../src/observe/reading-step.ts';
import { benchOf } from '../calibrate/glass-bench.ts';

/** Arc-minutes as an angle. */
const text = (arcmin: number): string =>
  `${Math.floor(arcmin / 60)}°${String(arcmin % 60).padStart(2, '0')}'`;

function stepOf(lines: readonly { readings: unknown[] }[], instrument: object) {
  const bench = benchOf({
    instrument: { leastCount: "1'", ...instrument },
    ...('central' === (instrument as { method: string }).method
      ? { central: [(instrument as { windows?: number }).windows === 2 ? ["60°00'", "240°00'"] : "60°00'"] }
      : {}),
    unknown: { lines },
  });
  return readingStep(bench, bench.tubes[0]!.lines);
}

/** Multiples of 5', and of nothing coarser. */
const places = (count: number): number[] => Array.from({ length: count }, (_, i) => 5900 + 35 * i);

describe('by chance all readings of few lines are multiples of a step, so', () => {
  test('the window opposite is no second witness, eccentric or not', () => {
    const both = (eccentric: number) => (a: number) => ({
      readings: [[text(a), text(a + 10800 + eccentric)]],
    });
    for (const eccentric of [0, 5]) {
      for (const count of [3, 4, 5])
        expect(stepOf(places(count).map(both(eccentric)), { method: 'central', windows: 2 })).toBe(1);
      expect(stepOf(places(6).map(both(eccentric)), { method: 'central', windows: 2 })).toBe(5);
    }
    // All of them must be multiples none the less.
    expect(stepOf(places(6).map(both(1)), { method: 'central', windows: 2 })).toBe(1);
  });

  test('the other side is none either', () => {
    const sides = (a: number) => ({ readings: [{ left: text(a), right: text(7200 - a) }] });
    expect(stepOf(places(5).map(sides), { method: 'both-sides' })).toBe(1);
    expect(stepOf(places(6).map(sides), { method: 'both-sides' })).toBe(5);
  });

  test('nor are repeats of one line', () => {
    const twice = (a: number) => ({ readings: [text(a), text(a + 5)] });
    expect(stepOf(places(3).map(twice), { method: 'central' })).toBe(1);
    expect(stepOf(places(6).map(twice), { method: 'central' })).toBe(5);
  });
});
