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

describe('a finer repeat is written for itself, and takes no line from the step of the rest:', () => {
  const steps = (lines: readonly { readings: unknown[] }[], instrument: object) => {
    const isScale = (instrument as { method: string }).method === 'scale';
    const bench = benchOf({
      instrument: { leastCount: isScale ? 1 : "1'", ...instrument },
      ...((instrument as { method: string }).method === 'central'
        ? { central: [(instrument as { windows?: number }).windows === 2 ? ["60°00'", "240°00'"] : "60°00'"] }
        : {}),
      unknown: { lines },
    });
    return asWritten(bench).tubes[0]!.lines.map(({ settings }) => settings.map(({ step }) => step ?? 1));
  };
  const ways = [
    ['one window', { method: 'central' }, text],
    ['two windows', { method: 'central', windows: 2 }, (a: number) => [text(a), text(a + 10800)]],
    ['both sides', { method: 'both-sides' }, (a: number) => ({ left: text(a), right: text(7200 - a) })],
    ['a scale', { method: 'scale' }, (a: number) => a],
  ] as const;

  test.each(ways)(
    '%s; before or behind the rounded one, in one line or in half of them',
    (_, instrument, at) => {
      for (const step of [5, 10, 20]) {
        const rounded = Array.from({ length: 8 }, (_, i) => 6000 + step * (7 * i + 1));
        for (const finer of [1, 2, 4])
          for (const isBefore of [false, true]) {
            const lines = rounded.map((a, i) => {
              const both = [at(a), at(a + 2)];
              return { readings: i >= finer ? [at(a)] : isBefore ? both.reverse() : both };
            });
            expect(steps(lines, instrument)).toEqual(
              rounded.map((_, i) => (i >= finer ? [step] : isBefore ? [1, step] : [step, 1])),
            );
          }
      }
    },
  );

  test('of lines that were read finer a third may be, where the rest is no chance', () => {
    const of = (rounded: number, finer: number) =>
      steps(
        [...tens(rounded), ...ones(finer)].map((a) => ({ readings: [text(a)] })),
        { method: 'central' },
      ).flat();
    const each = (rounded: number, finer: number, step: number) => [
      ...Array(rounded).fill(step),
      ...Array(finer).fill(1),
    ];
    expect(of(6, 3)).toEqual(each(6, 3, 10));
    expect(of(7, 4)).toEqual(each(7, 4, 1));
    // Five of five by chance: 1 in 100 000; five of seven: 1 in 6000.
    expect(of(5, 0)).toEqual(each(5, 0, 10));
    expect(of(4, 0)).toEqual(each(4, 0, 1));
    expect(of(5, 1)).toEqual(each(5, 1, 10));
    expect(of(5, 2)).toEqual(each(5, 2, 1));
  });

  test('three lines are enough where they are multiples of half a degree', () => {
    const of = (step: number) =>
      steps(
        [0, 1, 3].map((i) => ({ readings: [text(5900 - (5900 % 60) + step * (2 * i + 1))] })),
        { method: 'central' },
      ).flat();
    expect(of(30)).toEqual([30, 30, 30]);
    expect(of(15)).toEqual([1, 1, 1]);
  });

  test("of steps that are proved the likeliest is taken: one finer, eleven of 10', of which eight of 20'", () => {
    const twenties = Array.from({ length: 8 }, (_, i) => 6020 + 140 * i);
    const lines = [...twenties, 6090, 6230, 6370, 6721].map((a) => ({ readings: [text(a)] }));
    expect(steps(lines, { method: 'central' }).flat()).toEqual([...Array(11).fill(10), 1]);
  });

  test('lines that are read finely three times over are not taken as rounded', () => {
    const thrice = (a: number) => ({ readings: [text(a), text(a + 1), text(a + 2)] });
    const lines = Array.from({ length: 9 }, (_, i) => thrice(5901 + 67 * i));
    expect(steps(lines, { method: 'central' }).flat()).toEqual(Array(27).fill(1));
  });
});

test('a finer repeat makes no others coarser than the list beside them is written', () => {
  // All of the tube but the repeat are multiples of 5' as the lamp is, and by chance five lines in seven of 15' too.
  const at = [13870, 13845, 13820, 13815, 13755, 13725, 13710];
  const tube = at.map((a) => ({ readings: a === 13820 ? [text(a), text(a + 1)] : [text(a)] }));
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central: ["181°05'"],
    known: { lamp: 'mercury', lines: places(7).map((a) => ({ readings: [text(a)] })) },
    unknown: { lines: tube },
  });
  const steps = asWritten(bench).tubes[0]!.lines.flatMap(({ settings }) => settings.map(({ step }) => step));
  expect(steps).toEqual([5, 5, 5, undefined, 5, 5, 5, 5]);
});
