/** What counts as evidence that readings were rounded: the places that lines were read at. */
import { describe, expect, test } from 'vitest';
import { asWritten, stepOf } from '../../src/observe/reading-step.ts';
import type { Bench } from '../../src/record/bench.ts';
import { benchOf } from '../calibrate/glass-bench.ts';

/** Arc-minutes as an angle. */
const text = (arcmin: number): string =>
  `${Math.floor(arcmin / 60)}°${String(arcmin % 60).padStart(2, '0')}'`;

function stepFor(lines: readonly { readings: unknown[] }[], instrument: object) {
  const bench = benchOf({
    instrument: { leastCount: "1'", ...instrument },
    ...('central' === (instrument as { method: string }).method
      ? { central: [(instrument as { windows?: number }).windows === 2 ? ["60°00'", "240°00'"] : "60°00'"] }
      : {}),
    unknown: { lines },
  });
  const [tube] = asWritten(bench).tubes;
  return stepOf(
    bench,
    tube!.lines.flatMap(({ settings }) => settings),
  );
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
        expect(stepFor(places(count).map(both(eccentric)), { method: 'central', windows: 2 })).toBe(1);
      expect(stepFor(places(6).map(both(eccentric)), { method: 'central', windows: 2 })).toBe(5);
    }
    // All of them must be multiples none the less.
    expect(stepFor(places(6).map(both(1)), { method: 'central', windows: 2 })).toBe(1);
  });

  test('the other side is none either', () => {
    const sides = (a: number) => ({ readings: [{ left: text(a), right: text(7200 - a) }] });
    expect(stepFor(places(5).map(sides), { method: 'both-sides' })).toBe(1);
    expect(stepFor(places(6).map(sides), { method: 'both-sides' })).toBe(5);
  });

  test('nor are repeats of one line', () => {
    const twice = (a: number) => ({ readings: [text(a), text(a + 5)] });
    expect(stepFor(places(3).map(twice), { method: 'central' })).toBe(1);
    expect(stepFor(places(6).map(twice), { method: 'central' })).toBe(5);
  });
});

/** A bench of 1' with these known lines and this tube, arc-minutes, and readings of the central image. */
function written(
  lamps: readonly (readonly number[])[],
  tube: readonly number[],
  central: string[],
  own?: string[],
) {
  return asWritten(
    benchOf({
      instrument: { method: 'central', leastCount: "1'" },
      central,
      known: lamps.map((places) => ({
        lamp: 'mercury',
        lines: places.map((a) => ({ readings: [text(a)] })),
      })),
      unknown: {
        lines: tube.map((a) => ({ readings: [text(a)] })),
        ...(own === undefined ? {} : { central: own }),
      },
    }),
  );
}

/** Multiples of 10', and places of 1' that are multiples of nothing. */
const tens = (count: number): number[] => Array.from({ length: count }, (_, i) => 5900 + 70 * i);
const ones = (count: number): number[] => Array.from({ length: count }, (_, i) => 5901 + 67 * i);

describe('each list carries the step that it was written to:', () => {
  const stepsOf = ({ known, tubes, central }: Bench) => ({
    lamps: known.map(({ lines }) => lines.map(({ settings }) => settings[0]!.step ?? 1)),
    tube: tubes[0]!.lines.map(({ settings }) => settings[0]!.step ?? 1),
    central: central.map(({ step }) => step ?? 1),
    own: tubes[0]!.central?.map(({ step }) => step ?? 1),
  });
  const tenTimes = (step: number) => Array(10).fill(step);

  test('a central image is rounded as the lines beside it where it is a multiple too', () => {
    const lines = [tens(10)];
    expect(stepsOf(written(lines, ones(10), ["60°00'"])).central).toEqual([10]);
    expect(stepsOf(written(lines, ones(10), ["60°04'", "60°05'"])).central).toEqual([1, 1]);
    expect(stepsOf(written(lines, ones(10), ["60°00'", "60°04'"])).central).toEqual([1, 1]);
  });

  test('the image read for the lamp is as fine as the lamp, whatever the tube is', () => {
    const steps = stepsOf(written([ones(10)], tens(10), ["60°00'"], ["60°10'"]));
    expect(steps).toEqual({ lamps: [tenTimes(1)], tube: tenTimes(10), central: [1], own: [10] });
  });

  test('of two lamps each has its own', () => {
    const { lamps } = stepsOf(written([ones(10), tens(10)], ones(2), ["60°00'"]));
    expect(lamps).toEqual([tenTimes(1), tenTimes(10)]);
  });

  test('two lines are rounded where they agree with a list that is', () => {
    expect(stepsOf(written([tens(10)], [6000, 6030], ["60°00'"])).tube).toEqual([10, 10]);
    expect(stepsOf(written([tens(10)], [6000, 6031], ["60°00'"])).tube).toEqual([1, 1]);
    expect(stepsOf(written([ones(10)], [6000, 6030], ["60°00'"])).tube).toEqual([1, 1]);
  });

  test('one line of many that is no multiple was read finer; of two in five, or of five, nothing is known', () => {
    expect(stepsOf(written([[...tens(10), 6003]], ones(5), ["60°00'"])).lamps).toEqual([
      [...tenTimes(10), 1],
    ]);
    expect(stepsOf(written([[...tens(6), ...ones(4)]], ones(5), ["60°00'"])).lamps).toEqual([tenTimes(1)]);
    // Multiples of 5', and of those five in six of 10' too.
    expect(stepsOf(written([[...tens(10), 6005, 6015]], ones(5), ["60°00'"])).lamps).toEqual([
      Array(12).fill(5),
    ]);
  });

  test('it is worked out anew when a reading is added, and the bench is the same where nothing was rounded', () => {
    const rounded = written([tens(10)], tens(3), ["60°00'"]);
    expect(asWritten(rounded)).toEqual(rounded);
    const [lamp] = rounded.known;
    const fine = written([ones(10)], ones(3), ["60°00'"]).known[0]!;
    expect(stepsOf(asWritten({ ...rounded, known: [{ ...lamp!, lines: fine.lines }] })).lamps).toEqual([
      tenTimes(1),
    ]);
    const plain = written([ones(10)], ones(3), ["60°00'"]);
    expect(asWritten(plain)).toBe(plain);
  });
});

test('a repeat that was read finer makes none finer beside it, nor the mean of both', () => {
  const lines = tens(9).map((a) => ({ readings: [text(a)] }));
  const mixed = { readings: [text(6200), text(6196)] };
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: ["60°00'"],
    unknown: { lines: [...lines, mixed] },
  });
  const { settings } = asWritten(bench).tubes[0]!.lines.at(-1)!;
  expect(settings.map(({ step }) => step)).toEqual([10, undefined]);
  expect(stepOf(bench, settings)).toBe(10);
});
