/** From the raw readings of a line to its deviation. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { agreeingCentrals, centralImage } from '../../src/observe/central-image.ts';
import { observe } from '../../src/observe/observation.ts';
import { resolutionVariance } from '../../src/observe/reading-variance.ts';
import type { Bench, Setting } from '../../src/record/bench.ts';
import { benchOf, type PlainRecord } from '../calibrate/glass-bench.ts';

const instruments: Record<string, PlainRecord> = {
  central: { method: 'central', leastCount: "1'" },
  twoWindows: { method: 'central', leastCount: "1'", windows: 2 },
  bothSides: { method: 'both-sides', leastCount: "1'" },
  bothInTwo: { method: 'both-sides', leastCount: "1'", windows: 2 },
  scale: { method: 'scale', leastCount: 0.1 },
};
const bench = (name: string, central: readonly unknown[] = []): Bench =>
  benchOf({ instrument: instruments[name], ...(central.length > 0 ? { central } : {}) });
const oneSide = (...windows: number[]): Setting => ({ kind: 'one-side', windows });
const bothSides = (left: number[], right: number[]): Setting => ({ kind: 'both-sides', left, right });

/** A line against a central image, on a bench with one window. */
const against = (centralDeg: number, ...lines: number[]) => {
  const circle = bench('central', [centralDeg]);
  return observe(
    circle,
    lines.map((line) => oneSide(line)),
    centralImage(circle, circle.central),
  )!;
};

describe('a line against the central image', () => {
  test.each([
    [181, 229.5, 48.5, 1],
    [181, 132.5, 48.5, -1],
    [350, 38.5, 48.5, 1],
    [10, 321.5, 48.5, -1],
    [0, 359, 1, -1],
  ])('centre %d°, line %d°: deviation %d°, side %d', (centralDeg, lineDeg, deviationDeg, side) => {
    const { ordinate, side: found } = against(centralDeg, lineDeg);
    expect(ordinate).toBeCloseTo(60 * deviationDeg, 9);
    expect(found).toBe(side);
  });

  test('turning the whole circle changes no deviation', () => {
    const angle = fc.double({ min: 0, max: 360, noNaN: true });
    fc.assert(
      fc.property(angle, fc.double({ min: -170, max: 170, noNaN: true }), (centralDeg, signedDeg) => {
        const circle = bench('central', [100]);
        const centre = centralImage(circle, [oneSide(centralDeg)]);
        const lineDeg = (centralDeg + signedDeg + 360) % 360;
        expect(
          Math.abs(observe(circle, [oneSide(lineDeg)], centre)!.ordinate - 60 * Math.abs(signedDeg)),
        ).toBeLessThan(1e-8);
      }),
    );
  });

  test('repeats on both sides of the central image: the mean of their distances from it', () => {
    const { ordinate, side, repeats, parts } = against(181, 229.5, 132.6)!;
    expect(ordinate).toBeCloseTo(60 * 48.45, 9);
    expect(side).toBe(0);
    for (const [at, degrees] of [48.5, 48.4].entries()) expect(repeats[at]).toBeCloseTo(60 * degrees, 9);
    expect(parts.map(({ weight }) => weight)).toEqual([0.5, -0.5]);
    expect(against(181, 229.5, 132.6, 132.5).side).toBe(-1);
  });

  test('repeats are averaged, also around 360°', () => {
    const observation = against(330, 359.9, 0.1);
    expect(observation.ordinate).toBeCloseTo(30 * 60, 9);
    expect(observation.repeats).toHaveLength(2);
    expect(observation.parts.map(({ weight }) => weight)).toEqual([0.5, 0.5]);
  });

  test('a central image read around 360° has its mean there', () => {
    const circle = bench('central', [359.9, 0.1]);
    const centre = centralImage(circle, circle.central)!;
    expect((centre.windowsDeg[0]! + 180) % 360).toBeCloseTo(180, 9);
    expect(observe(circle, [oneSide(50)], centre)!.ordinate).toBeCloseTo(3000, 9);
  });

  test('two windows are averaged: what is eccentric in one is undone in the other', () => {
    const circle = bench('twoWindows', [[100, 280]]);
    const centre = centralImage(circle, circle.central)!;
    const observation = observe(circle, [oneSide(148.05, 327.95)], centre)!;
    expect(observation.ordinate).toBeCloseTo(48 * 60, 9);
    expect(observation.parts).toHaveLength(2);
  });

  test('there is none without a central image', () => {
    expect(observe(bench('central'), [oneSide(229)], null)).toBeNull();
    expect(centralImage(bench('central'), [])).toBeNull();
  });
});

describe('both sides', () => {
  test.each([
    [229.5, 132.5, 48.5],
    [132.5, 229.5, 48.5],
    [38.5, 301.5, 48.5],
    [358.5, 261.5, 48.5],
  ])('left %d°, right %d°: half the arc between, %d°', (left, right, deviationDeg) => {
    const { ordinate, side } = observe(bench('bothSides'), [bothSides([left], [right])], null)!;
    expect(ordinate).toBeCloseTo(60 * deviationDeg, 9);
    expect(side).toBe(0);
  });

  test('each repeat and each window is half of its own smaller arc', () => {
    // The second left reading is misread by 30°, which takes the arc past half a turn; the third has its sides mixed up.
    const takes = [bothSides([75.5], [284.5]), bothSides([105.5], [284.5]), bothSides([284.5], [75.5])];
    const { ordinate, repeats, parts } = observe(bench('bothSides'), takes, null)!;
    expect(repeats.map((repeat) => repeat / 60)).toEqual([75.5, 89.5, 75.5]);
    expect(ordinate / 60).toBeCloseTo((75.5 + 89.5 + 75.5) / 3, 9);
    expect(parts.map(({ weight }) => Math.sign(weight))).toEqual([1, -1, -1, 1, -1, 1]);
  });

  test('a misreading on one side moves the deviation by half of it, with its sign', () => {
    const circle = bench('bothSides');
    const clean = observe(circle, [bothSides([229.5], [132.5])], null)!;
    const misread = observe(circle, [bothSides([230], [132.5])], null)!;
    const part = clean.parts.find(({ side }) => side === 'left')!;
    expect(misread.ordinate - clean.ordinate).toBeCloseTo(15, 9);
    expect(part.weight * 30).toBeCloseTo(15, 9);
  });

  test('in two windows a line has four readings, and their weights make the deviation', () => {
    const circle = bench('bothInTwo');
    const setting = bothSides([229.5, 49.6], [132.5, 312.4]);
    const { parts, ordinate } = observe(circle, [setting], null)!;
    expect(parts).toHaveLength(4);
    for (const part of parts) {
      const nudge = (windows: readonly number[], side: string): number[] =>
        windows.map((reading, window) =>
          part.side === side && part.window === window ? reading + 0.1 : reading,
        );
      if (setting.kind !== 'both-sides') throw new Error('both sides were set');
      const nudged = bothSides(nudge(setting.left, 'left'), nudge(setting.right, 'right'));
      expect(observe(circle, [nudged], null)!.ordinate - ordinate).toBeCloseTo(6 * part.weight, 8);
    }
  });
});

describe('uncertainty of a reading', () => {
  const single = resolutionVariance(1);

  test('is that of a rectangle and a little more', () => {
    expect(single).toBeGreaterThan(1 / 12);
    expect(single).toBeLessThan(0.15);
    expect(resolutionVariance(5) / single).toBeCloseTo(25, 9);
  });

  test('does not shrink with repeats that agree (GUM F.2.2.1), and does with repeats that scatter', () => {
    const agreeing = against(100, 148, 148, 148, 148);
    const scattered = against(100, 148, 148 + 3 / 60, 148 - 3 / 60, 148 + 2 / 60);
    expect(agreeing.resolutionVariance).toBeCloseTo(single, 12);
    expect(scattered.resolutionVariance).toBeCloseTo(single / 4, 12);
  });

  test('of setting the cross-hairs falls with repeats, but never to nothing', () => {
    const share = (count: number) => against(100, ...new Array<number>(count).fill(148)).settingShare;
    expect(share(1)).toBeCloseTo(1, 12);
    expect(share(4)).toBeLessThan(share(2));
    expect(share(400)).toBeGreaterThan(0.2);
  });

  test('of both sides and of two windows is smaller, for each reading is one more', () => {
    const both = observe(bench('bothSides'), [bothSides([229.5], [132.5])], null)!;
    const four = observe(bench('bothInTwo'), [bothSides([229.5, 49.5], [132.5, 312.5])], null)!;
    expect(both.resolutionVariance).toBeCloseTo(single / 2, 12);
    expect(four.resolutionVariance).toBeCloseTo(single / 4, 12);
  });
});

test('a scale is read as it stands', () => {
  const observation = observe(bench('scale'), [oneSide(812.3), oneSide(812.5)], null)!;
  expect(observation.ordinate).toBeCloseTo(812.4, 9);
  expect(observation.side).toBe(0);
});

describe('central readings that belong together', () => {
  const bench = benchOf({ instrument: { method: 'central', leastCount: "1'" } });
  const settings = (minutes: readonly number[], fromDeg = 181): Setting[] =>
    minutes.map((minute) => ({ kind: 'one-side', windows: [fromDeg + minute / 60] }));
  const kept = (minutes: readonly number[], fromDeg?: number): number[] =>
    agreeingCentrals(bench, settings(minutes, fromDeg)).map((setting) =>
      setting.kind === 'one-side' ? Math.round((setting.windows[0]! - (fromDeg ?? 181)) * 60) : Number.NaN,
    );

  test('are those that most lie near; of two nobody knows which', () => {
    expect(kept([4, 34, 5])).toEqual([4, 5]);
    expect(kept([34, 4, 5, 4, -56])).toEqual([4, 5, 4]);
    expect(kept([4, 34])).toEqual([4, 34]);
    expect(kept([4, 34, 64])).toEqual([4, 34, 64]);
    expect(kept([4, 5, 34, 35])).toEqual([4, 5, 34, 35]);
  });

  test('whatever their order and wherever on the circle', () => {
    expect(
      [
        [0, 8, 16, 24],
        [24, 16, 8, 0],
        [0, 16, 8, 24],
      ].map((list) => kept(list).length),
    ).toEqual([4, 4, 4]);
    for (let degree = 0; degree < 360; degree += 7) expect(kept([0, 0, 10], degree)).toEqual([0, 0, 10]);
    const list = fc.array(fc.integer({ min: 0, max: 59 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(list, (minutes) => {
        const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);
        expect(sorted(kept([...minutes].reverse()))).toEqual(sorted(kept(minutes)));
      }),
    );
  });
});
