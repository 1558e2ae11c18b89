/** What a tube shows through one view of the bench: chances of its lines under each way of looking, by hand. */
import { describe, expect, test } from 'vitest';
import { READ_ALL_THE_SAME, STRAYS_ANYWHERE, STRAYS_AT_IMPURITIES } from '../../src/identify/assumptions.ts';
import type { LookedPlace } from '../../src/identify/bench/looked-places.ts';
import {
  boundedLooking,
  chanceSeenLooking,
  chancesOf,
  visibilityClass,
  waysOfLooking,
} from '../../src/identify/spectrum/detection.ts';
import { type DetectionModel, SpectraThrough } from '../../src/identify/spectrum/spectra-through.ts';
import { strengthNodes } from '../../src/identify/spectrum/strengths.ts';
import type { TubeLine, TubeSpectrum } from '../../src/lines/spectrum.ts';
import type { BenchLine } from '../../src/record/bench.ts';
import { handCurve, handReading, handView } from './hand-made.ts';

const line = (wavelengthNm: number, prominence: number, component = 'atom'): TubeLine =>
  ({
    wavelengthNm,
    prominence,
    prominenceSd: 0.5,
    component,
    expected: true,
    kind: 'line',
    uNm: 0,
  }) as TubeLine;
const tubeOf = (lines: readonly TubeLine[], strengthSd = 0): TubeSpectrum => ({
  substance: 'neon',
  symbol: 'Ne',
  components: [
    { name: 'atom', strengthSd: 0 },
    { name: 'ion', strengthSd },
  ],
  lines,
});
const lines = [line(450, -1), line(540, 0), line(541, -2, 'ion'), line(600, -2.5, 'ion')];
const tube = tubeOf(lines);
// 2' to a nm: 541 and 540 nm are 2' apart.
const fine = { size: 0, logWeight: 0 };
const coarse = { size: 2, logWeight: 0 };
const through = ({
  of = tube,
  looked = [] as LookedPlace[],
  readings = [handReading(0, 2920)],
  resolution = fine,
  shift = 0,
} = {}) => new SpectraThrough(looked, readings, false).through(of, { ...handView, shift }, resolution);

const ways = waysOfLooking(false, 1);
const ORDINARY = ways.findIndex(
  ({ looking }) => looking.strays === undefined && looking.atMost === Number.POSITIVE_INFINITY,
);
const ASTRAY = ways.findIndex(({ looking }) => (looking.strays ?? 1) > 1);
const BOUNDED = ways.findIndex(({ looking }) => looking.atMost < 20);

/** The chances written out: odds of each line, and ln of the chance that all are missed. */
function byHand(prominences: readonly number[], place: number, readings = 1) {
  const { looking: way, weight } = waysOfLooking(false, readings)[place]!;
  const odds = prominences.map((each) => chancesOf(way).oddsOf(visibilityClass(each, 0.8)));
  return { odds, logMissed: Math.log(weight) - odds.reduce((sum, each) => sum + Math.log(1 + each), 0) };
}
const agrees = (
  { odds, logAllMissed }: DetectionModel,
  hand: { odds: readonly number[]; logMissed: number },
) => {
  for (const [j, each] of odds.entries()) expect(each / hand.odds[j]!).toBeCloseTo(1, 9);
  expect(logAllMissed).toBeCloseTo(hand.logMissed, 9);
};

describe('the lines', () => {
  test('stand in ascending order of the ordinate, those within the resolution as one', () => {
    expect(through().lines.map(({ ordinate }) => ordinate)).toEqual([2800, 2918, 2920, 3100]);
    expect(through({ resolution: coarse }).lines.map(({ members }) => members.length)).toEqual([1, 2, 1]);
    expect(through({ shift: 7 }).lines[0]!.ordinate).toBe(2807);
  });

  test('know the widest class of variance among them', () => {
    const { lines, widest } = through({ resolution: coarse });
    expect(widest).toBe(Math.max(...lines.map(({ varianceClass }) => varianceClass)));
    expect(widest).toBeGreaterThan(0);
  });

  test('have factors of notes for a reading with notes only, made once', () => {
    const { notes } = through();
    const bare = { colour: null, brightness: null } as BenchLine;
    const noted = { colour: 'green', brightness: null } as BenchLine;
    expect(notes(bare)).toBeNull();
    expect(notes(noted)).toBe(notes(noted));
    expect(notes(noted)!.at(1)).toBeGreaterThan(notes(noted)!.at(3));
  });

  test('are worked out once for a view and a resolution', () => {
    const spectra = new SpectraThrough([], [handReading(0, 2920)], false);
    const seen = spectra.through(tube, handView, fine);
    expect(spectra.through(tube, handView, fine)).toBe(seen);
    expect(spectra.through(tube, { ...handView }, fine)).not.toBe(seen);
    expect(spectra.through(tube, handView, coarse)).not.toBe(seen);
    // Chances are those of another view with the same lines, as long as nobody looked anywhere on purpose.
    expect(spectra.through(tube, { ...handView, shift: 1 }, fine).detections).toBe(seen.detections);
  });
});

test('a line that is two of different components is no line of one, however bright', () => {
  const spectra = new SpectraThrough([], [handReading(0, 2920)], false);
  const ofTwo = tubeOf([line(540, 0), line(541, 0.5, 'ion')], 0.8);
  const both = spectra.through(ofTwo, handView, coarse);
  expect(both.lines).toHaveLength(1);
  const ofOne = tubeOf([line(541, both.lines[0]!.prominence, 'ion')], 0.8);
  const single = spectra.through(ofOne, handView, coarse);
  // As bright, and seen as often while the ion is as usual; a stronger ion makes only the one of them brighter.
  const odds = ({ detections }: typeof both, strength: number) => detections.at(strength, 3).odds[0]!;
  expect(single.detections).not.toBe(both.detections);
  expect(odds(both, 0)).toBe(odds(single, 0));
  expect(both.detections.strengths).toBe(3);
  expect(odds(both, 1)).toBeGreaterThan(odds(both, 0));
  expect(odds(both, 1)).toBeLessThan(odds(single, 1));
});

describe('chances under a way of looking', () => {
  // In the order of the ordinate: 600, 541, 540, 450 nm.
  const prominences = [-2.5, -2, 0, -1];

  test('are those of each line; all are missed with the product of what each is', () => {
    const { detections } = through();
    const first = detections.at(0, ORDINARY);
    agrees(first, byHand(prominences, ORDINARY));
    expect(first).toMatchObject({ way: ORDINARY, looking: ways[ORDINARY]!.looking });
    expect(detections.at(0, ORDINARY)).toBe(first);
    expect(detections.at(0, ORDINARY + 1)).not.toBe(first);
  });

  test('with a component stronger or weaker are those of its lines so much brighter', () => {
    // Of the ion, whose brightest line here is -2.
    const strong = tubeOf(lines, 0.8);
    const nodes = strengthNodes(strong.components, [0, -2]);
    const { detections } = through({ of: strong });
    expect(detections.strengths).toBe(nodes.length);
    expect(nodes).toHaveLength(3);
    for (const [strength, { gains, logWeight }] of nodes.entries()) {
      const [, gain] = gains as [number, number];
      const hand = byHand([-2.5 + gain, -2 + gain, 0, -1], ORDINARY);
      agrees(detections.at(strength, ORDINARY), { ...hand, logMissed: hand.logMissed + logWeight });
    }
  });

  test('of hundreds of lines stay within what a number holds', () => {
    const many = tubeOf(Array.from({ length: 290 }, (_, i) => line(405 + i, 4)));
    const model = through({ of: many }).detections.at(0, ORDINARY);
    const hand = byHand(
      many.lines.map(() => 4),
      ORDINARY,
    );
    expect(model.logAllMissed / hand.logMissed).toBeCloseTo(1, 9);
    expect(model.logAllMissed).toBeLessThan(-900);
  });

  test('of an observer who writes down odd readings too: each line counts against more of them', () => {
    const strays = ways[ASTRAY]!.looking.strays!;
    const hand = byHand(prominences, ASTRAY, 2);
    const readings = [handReading(0, 2920), handReading(1, 2800)];
    agrees(through({ readings }).detections.at(0, ASTRAY), {
      odds: hand.odds.map((each) => each / strays),
      logMissed:
        hand.logMissed + 2 * Math.log(strays) - (strays - 1) * (STRAYS_ANYWHERE + STRAYS_AT_IMPURITIES),
    });
  });

  test('of an observer who stops at a dozen: of few lines as they are, of many less of each', () => {
    const way = ways[BOUNDED]!.looking;
    expect(through().detections.at(0, BOUNDED).looking).toBe(way);
    const many = tubeOf(Array.from({ length: 30 }, (_, i) => line(405 + 9 * i, -1)));
    const odds = chancesOf(way).oddsOf(visibilityClass(-1, 0.8));
    const expected = (30 * odds) / (1 + odds);
    expect(expected).toBeGreaterThan(way.atMost);
    expect(through({ of: many }).detections.at(0, BOUNDED).looking).toBe(boundedLooking(way, expected));
  });
});

describe('a line that was looked for in vain', () => {
  // 600 nm at 2800'; the reading is at 2920', where 540 nm is.
  const looked = (ordinate: number, goesWithLines = false) => [{ ordinate, reach: 3, goesWithLines }];
  const hand = byHand([-2.5, -2, 0, -1], ORDINARY);
  const missing = (j: number) => {
    const prominence = [-2.5, -2, 0, -1][j]!;
    const seen = chanceSeenLooking({ prominence, prominenceSd: 0.8 }, ways[ORDINARY]!.looking.limit);
    return {
      odds: hand.odds.map((each, k) => (k === j ? (each * READ_ALL_THE_SAME) / (1 - seen) : each)),
      logMissed: hand.logMissed + Math.log(1 - seen),
    };
  };

  test('is missing all the surer, and hardly among the readings', () => {
    agrees(through({ looked: looked(2802.9) }).detections.at(0, ORDINARY), missing(0));
    agrees(through({ looked: looked(2803.1) }).detections.at(0, ORDINARY), hand);
  });

  test('is none where a reading is', () => {
    // 541 nm at 2918', four uncertainties off the reading; 540 nm on it.
    agrees(through({ looked: looked(2919) }).detections.at(0, ORDINARY), missing(1));
  });

  test('is where the lines are, for a place told as a wavelength', () => {
    agrees(through({ looked: looked(2800, true), shift: 20 }).detections.at(0, ORDINARY), missing(0));
    agrees(through({ looked: looked(2800), shift: 20 }).detections.at(0, ORDINARY), hand);
  });

  test('makes chances those of its own view', () => {
    const spectra = new SpectraThrough(looked(2800), [handReading(0, 2920)], false);
    const at = (shift: number) => spectra.through(tube, { ...handView, shift }, fine).detections;
    expect(at(0)).not.toBe(at(20));
    expect(at(0).at(0, ORDINARY).odds).not.toEqual(at(20).at(0, ORDINARY).odds);
  });
});

test('who says that all lines are down looks in other ways', () => {
  expect(new SpectraThrough([], [handReading(0, 2920)], true).ways).toBe(waysOfLooking(true, 1));
  expect(new SpectraThrough([], [handReading(0, 2920)], false).ways).toBe(ways);
  expect(handCurve.ordinateAt(600)).toBe(2800);
});
