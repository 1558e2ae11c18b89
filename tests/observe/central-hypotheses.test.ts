/** Which of the central readings is misread, and what that does to a tube's readings. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { benchConstants } from '../../src/observe/bench-constants.ts';
import { type CentralHypothesis, centralHypotheses } from '../../src/observe/central-hypotheses.ts';
import { centralImage } from '../../src/observe/central-image.ts';
import { benchOf } from '../calibrate/glass-bench.ts';
import { logNormal, resolution } from './by-hand.ts';

const settingVariance = 0.5;

interface Lists {
  readonly calibration: readonly unknown[];
  readonly tube: readonly unknown[];
  readonly day?: 'same' | 'another';
  readonly tubeSide?: number;
  readonly windows?: 1 | 2;
}

function hypotheses({
  calibration,
  tube,
  day = 'same',
  tubeSide = 1,
  windows = 1,
}: Lists): readonly CentralHypothesis[] {
  const bench = benchOf({
    instrument: { method: 'central', leastCount: "1'", windows },
    central: calibration,
    unknown: { central: tube, lines: [] },
  });
  return centralHypotheses(
    bench,
    {
      calibration: { settings: bench.central, side: 1 },
      tube: { settings: bench.tubes[0]!.central!, side: tubeSide },
      day,
    },
    { constants: benchConstants(bench), settingVariance },
  );
}

const only = (found: readonly CentralHypothesis[]): CentralHypothesis => {
  expect(found).toHaveLength(1);
  return found[0]!;
};
const misreadIn = ({ alternatives }: CentralHypothesis) => alternatives[0]!.misread;

describe('the central readings of calibration and tube', () => {
  test('that agree are all right, and shift nothing at all', () => {
    for (const [calibration, tube] of [
      [["181°04'", "181°05'"], ["181°04'"]],
      [["181°04'"], ["181°04'", "181°05'", "181°07'"]],
    ] as const) {
      const hypothesis = only(hypotheses({ calibration, tube }));
      expect(misreadIn(hypothesis)).toEqual([]);
      expect(hypothesis).toMatchObject({ probability: 1, shiftArcmin: 0 });
    }
  });

  test('of three, the one that is far off is no part of their mean, and there is nothing left to mend', () => {
    const calibration = ["225°18'", "225°47'", "225°19'"];
    const hypothesis = only(hypotheses({ calibration, tube: ["225°18'"] }));
    expect(misreadIn(hypothesis)).toEqual([]);
    const bench = benchOf({ instrument: { method: 'central', leastCount: "1'" }, central: calibration });
    expect(centralImage(bench, bench.central)!.windowsDeg[0]).toBeCloseTo(225 + 18.5 / 60, 9);
  });

  test('of two, the one that is half a degree off is named, and the mean is corrected by half of it', () => {
    const hypothesis = only(hypotheses({ calibration: ["225°18'", "225°48'"], tube: ["225°18'"] }));
    const [misread, ...more] = misreadIn(hypothesis);
    expect(more).toEqual([]);
    expect(misread).toMatchObject({ readBy: 'calibration', corrected: { cause: { kind: 'half-degree' } } });
    expect(misread!.readingDeg).toBeCloseTo(225 + 48 / 60, 9);
    expect(misread!.corrected!.readingDeg).toBeCloseTo(225 + 18 / 60, 9);
    // The calibration's direction is 15' less than its mean, so the tube's is 15' more beside it.
    expect(hypothesis.shiftArcmin).toBeCloseTo(15, 6);
    expect(hypothesis.apartArcmin).toBeCloseTo(0, 6);
  });

  test('shift a tube on the other side of the image the same way, if the calibration’s own is wrong', () => {
    const two = ["225°18'", "225°48'"];
    const one = ["225°18'"];
    expect(only(hypotheses({ calibration: two, tube: one, tubeSide: -1 })).shiftArcmin).toBeCloseTo(15, 6);
    expect(only(hypotheses({ calibration: one, tube: two, tubeSide: -1 })).shiftArcmin).toBeCloseTo(15, 6);
    expect(only(hypotheses({ calibration: one, tube: two })).shiftArcmin).toBeCloseTo(-15, 6);
  });

  test('of two that disagree, the tube’s own tells which is wrong, though no usual slip explains it', () => {
    const hypothesis = only(hypotheses({ calibration: ["341°10'", "341°55'"], tube: ["341°11'"] }));
    expect(misreadIn(hypothesis)).toMatchObject([{ readBy: 'calibration', corrected: null }]);
    expect(misreadIn(hypothesis)[0]!.readingDeg).toBeCloseTo(341 + 55 / 60, 9);
    expect(hypothesis.shiftArcmin).toBeCloseTo(22.5, 6);
  });

  test('a slip in each list are two', () => {
    const [hypothesis] = hypotheses({ calibration: ["158°39'", "157°39'"], tube: ["147°39'"] });
    expect(misreadIn(hypothesis!).map(({ readBy }) => readBy)).toEqual(['calibration', 'tube']);
    expect(Math.abs(hypothesis!.shiftArcmin)).toBeGreaterThan(600 - 35);
  });

  test('of one reading each, nothing tells which is misread: both are told, and moved is not forgotten', () => {
    const found = hypotheses({ calibration: ["181°04'"], tube: ["181°34'"] });
    expect(Math.abs(found[0]!.shiftArcmin)).toBeCloseTo(30, 6);
    const [first, second] = found[0]!.alternatives;
    expect(new Set([first, second].map((alternative) => alternative!.misread[0]!.readBy)).size).toBe(2);
    expect(second!.probability).toBeGreaterThan(0.4 * first!.probability);
    expect(misreadIn(found.at(-1)!)).toEqual([]);
    expect(found.at(-1)!.probability).toBeGreaterThan(1e-4);
  });

  test('apart by what no slip makes: moved is likelier', () => {
    const [lead] = hypotheses({ calibration: ["181°04'"], tube: ["181°15'"] });
    expect(misreadIn(lead!)).toEqual([]);
    expect(lead!.shiftArcmin).toBe(0);
    expect(lead!.apartArcmin).toBeCloseTo(11, 9);
    expect(lead!.probability).toBeGreaterThan(0.5);
  });

  test('of another day need not agree, but one that disagrees with its own list is found', () => {
    expect(
      misreadIn(only(hypotheses({ calibration: ["181°04'"], tube: ["181°34'"], day: 'another' }))),
    ).toEqual([]);
    // Nothing tells which of the two it is.
    const [hypothesis] = hypotheses({
      calibration: ["225°18'", "225°48'"],
      tube: ["40°10'"],
      day: 'another',
    });
    expect(misreadIn(hypothesis!).map(({ readBy }) => readBy)).toEqual(['calibration']);
    expect(Math.abs(hypothesis!.shiftArcmin)).toBeCloseTo(15, 6);
  });

  test('in two windows, the window that is misread is named, and counts half', () => {
    const right = ["181°04'", "1°04'"];
    const found = hypotheses({
      windows: 2,
      calibration: [right, ["181°04'", "1°34'"]],
      tube: [right],
    });
    expect(misreadIn(found[0]!)).toHaveLength(1);
    expect(misreadIn(found[0]!)[0]!.readingDeg).toBeCloseTo(1 + 34 / 60, 9);
    // 30' in one of two windows of one of two readings.
    expect(found[0]!.shiftArcmin).toBeCloseTo(7.5, 6);
    const [own] = hypotheses({ windows: 2, calibration: [right, right], tube: [["181°34'", "1°04'"]] });
    expect(misreadIn(own!)[0]!.readingDeg).toBeCloseTo(181 + 34 / 60, 9);
    expect(own!.shiftArcmin).toBeCloseTo(-15, 6);
  });

  test('around the zero of the circle they are as near as elsewhere', () => {
    const hypothesis = only(hypotheses({ calibration: ["359°58'", "0°28'"], tube: ["359°58'"] }));
    expect(hypothesis.shiftArcmin).toBeCloseTo(15, 6);
  });

  test('whatever they are, the probabilities are sound and sum to 1', () => {
    const reading = fc
      .integer({ min: 0, max: 21599 })
      .map((minutes) => `${Math.floor(minutes / 60)}°${minutes % 60}'`);
    const list = fc.array(reading, { minLength: 1, maxLength: 5 });
    const day = fc.constantFrom('same' as const, 'another' as const);
    fc.assert(
      fc.property(list, list, day, fc.constantFrom(1, -1), (calibration, tube, onDay, tubeSide) => {
        const found = hypotheses({ calibration, tube, day: onDay, tubeSide });
        expect(found.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
        for (const { shiftArcmin, probability } of found) {
          expect(Number.isFinite(shiftArcmin)).toBe(true);
          expect(probability).toBeGreaterThan(0);
        }
      }),
    );
  });
});

describe('a difference that no slip explains', () => {
  const unnamed = 0.004 / 240;
  /** Of one reading, its direction averaged over: nineteen of twenty scatter narrowly. */
  const narrow = settingVariance + resolution(1);
  const ofNarrow = 0.95 * Math.exp(logNormal(0, narrow));
  const ofWide = 0.05 * Math.exp(logNormal(0, narrow + 25));
  const variance = (ofNarrow * narrow + ofWide * (narrow + 25)) / (ofNarrow + ofWide);
  const single = (ofNarrow + ofWide) * Math.sqrt(2 * Math.PI * variance);
  const asWritten = (apart: number): number =>
    single ** 2 *
    (0.95 * Math.exp(logNormal(apart, 2 * variance)) +
      0.04 * Math.exp(logNormal(apart, 2 * variance + 144)) +
      0.01 / 600);
  /** One of the two may stand for anything. */
  const lost = single * unnamed;

  /** What is not followed is shared out among the rest. */
  const kept = (found: readonly CentralHypothesis[]): number =>
    1 /
    found.flatMap(({ alternatives }) => alternatives).reduce((sum, { probability }) => sum + probability, 0);

  test.each([1, -1])(
    'is the bench moved, or one of the two misread for no known reason; side %d',
    (tubeSide) => {
      const found = hypotheses({ calibration: ["100°00'"], tube: ["100°37'"], tubeSide });
      const written = found.find((each) => misreadIn(each).length === 0)!;
      const misread = found.find((each) => misreadIn(each)[0]?.corrected === null)!;
      expect(written).toMatchObject({ shiftArcmin: 0, apartArcmin: expect.closeTo(37, 6) });
      expect(misread.apartArcmin).toBe(0);
      if (tubeSide === 1) {
        expect(misread.shiftArcmin).toBeCloseTo(-37, 6);
        const [first, second] = misread.alternatives;
        const readBy = [first, second].flatMap((each) =>
          each!.misread.map((misreading) => misreading.readBy),
        );
        expect(readBy.sort()).toEqual(['calibration', 'tube']);
        for (const each of [first, second])
          expect(each!.probability / written.alternatives[0]!.probability).toBeCloseTo(
            lost / asWritten(37),
            9,
          );
        // With both misread it is the same shift.
        expect(misread.alternatives.length).toBeGreaterThan(2);
        // The probabilities are those of all ways to say it.
        for (const each of [misread, written])
          expect(each.probability).toBeCloseTo(
            each.alternatives.reduce((total, { probability }) => total + probability, 0) * kept(found),
            9,
          );
      } else expect(misread.shiftArcmin).toBeCloseTo(37, 6);
    },
  );

  test.each([
    [10, false],
    [11, true],
  ])('of %d minutes: told is %s, since repeats lie 10 apart', (apart, isTold) => {
    const found = hypotheses({ calibration: ["100°00'"], tube: [`100°${apart}'`] });
    expect(found.some((each) => misreadIn(each)[0]?.corrected === null)).toBe(isTold);
  });

  test('on another day is none: the table is turned', () => {
    const found = hypotheses({ calibration: ["100°00'"], tube: ["100°37'"], day: 'another' });
    expect(found.flatMap((each) => misreadIn(each))).toEqual([]);
  });
});

test('three shifts with something misread are followed at the most, none of them unlikely', () => {
  for (const minutes of ['12', '15', '21', '31', '37', '45', '51']) {
    const found = hypotheses({ calibration: ["100°00'", "100°30'"], tube: [`100°${minutes}'`, "101°00'"] });
    const misread = found.filter((each) => misreadIn(each).length > 0);
    expect(misread.length).toBeLessThanOrEqual(4);
    expect(found.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    const probabilities = found.map(({ probability }) => probability);
    expect(probabilities).toEqual([...probabilities].sort((a, b) => b - a));
    for (const { alternatives } of found) {
      const each = alternatives.map(({ probability }) => probability);
      expect(each).toEqual([...each].sort((a, b) => b - a));
    }
  }
});
