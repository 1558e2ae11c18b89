/** Where the lamps of a bench count from that was moved between two of them, and when its central image was read. */
import { describe, expect, test } from 'vitest';
import { benchConstants } from '../../src/observe/bench-constants.ts';
import { lampMoveLog, moveSize } from '../../src/observe/bench-move.ts';
import { moveAmongCentrals } from '../../src/observe/moved-centrals.ts';
import {
  knownObservations,
  lampOrigin,
  originShift,
  tubeOrigin,
  withMove,
} from '../../src/observe/origin.ts';
import { readingAt } from '../../src/observe/reading-at.ts';
import type { Bench, LampMove } from '../../src/record/bench.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  mercuryNm,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';
import { logNormal } from './by-hand.ts';

const still = new GlassReader();
const moved = new GlassReader({ centralDeg: 181 + 12 / 60 });
const lamps = [
  knownLamp(still, { lamp: 'helium', lines: linesAt(heliumNm) }),
  knownLamp(moved, { lamp: 'mercury', lines: linesAt(mercuryNm) }),
];
const benchWith = (parts: PlainRecord): Bench => benchOf(recordOf(still, { known: lamps, ...parts }));
const move = (centralsBefore: number): LampMove => ({ lampIndex: 1, shift: 8, u: 0.3, centralsBefore });
const centralOf = (bench: Bench, lampIndex?: number): number =>
  60 * (lampOrigin(bench, lampIndex).central!.windowsDeg[0]! - 181);

describe('a bench moved by 8 minutes before its second lamp', () => {
  const [before, after] = [still.central(), moved.central()];

  test.each([
    ['before it', [before], 1],
    ['after it', [after], 0],
    ['before and after it', [before, after], 1],
    ['twice before and once after it', [before, before, after], 2],
  ])('whose central image was read %s', (_, central, centralsBefore) => {
    const bench = withMove(benchWith({ central }), move(centralsBefore));
    expect(centralOf(bench, 0)).toBeCloseTo(4, 9);
    expect(centralOf(bench, 1)).toBeCloseTo(12, 9);
    // What is read now stands as the last lamp did.
    expect(centralOf(bench)).toBeCloseTo(12, 9);
    const nm = [...heliumNm, ...mercuryNm];
    knownObservations(bench).forEach(({ observation }, i) => {
      expect(Math.abs(observation.ordinate - still.deviationArcmin(nm[i]!))).toBeLessThan(0.51);
    });
    const expected = readingAt(bench, still.deviationArcmin(587.56));
    expect(expected).toBe(moved.line(587.56));
  });

  test('knows how the readings that it has were carried along', () => {
    const bench = benchWith({ central: [before] });
    expect(lampOrigin(bench).carried).toBeNull();
    expect(lampOrigin(withMove(bench, move(1)), 0).carried).toBeNull();
    expect(lampOrigin(withMove(bench, move(1))).carried).toEqual({ arcmin: 8, u: 0.3 });
    expect(lampOrigin(withMove(bench, move(0)), 0).carried).toEqual({ arcmin: -8, u: 0.3 });
    // Of three in the mean of what is read now one was carried there, of that of the first lamp two were carried back.
    const three = withMove(benchWith({ central: [before, after, after] }), move(1));
    expect(lampOrigin(three).carried).toEqual({ arcmin: 0, u: 0.3 / 3 });
    expect(lampOrigin(three, 0).carried).toEqual({ arcmin: 0, u: 0.3 * (2 / 3) });
    expect(withMove(withMove(bench, move(1)), null)).toEqual(bench);
    expect(withMove(bench, null)).toBe(bench);
  });

  test("is no difference of a tube's own central image, but its uncertainty is", () => {
    const bench = benchWith({ central: [before], unknown: unknownTube(moved, neonNm, { central: [after] }) });
    const shiftOf = (each: Bench) => originShift(lampOrigin(each), tubeOrigin(each, each.tubes[0]!), 0.25)!;
    const [plain, carried] = [shiftOf(bench), shiftOf(withMove(bench, move(1)))];
    expect(plain.shiftArcmin).toBeCloseTo(8, 9);
    expect(carried.shiftArcmin).toBeCloseTo(0, 9);
    expect(carried.u ** 2 - plain.u ** 2).toBeCloseTo(0.3 ** 2, 12);
  });
});

describe('when the central image was read', () => {
  const amongOf = (parts: PlainRecord) => {
    const bench = benchWith(parts);
    const knowledge = { constants: benchConstants(bench), settingVariance: 0.5 };
    return moveAmongCentrals(bench, { lampIndex: 1, shift: 8, u: 0.3 }, knowledge);
  };
  const tubeAt = (reader: GlassReader): PlainRecord => ({
    unknown: unknownTube(reader, neonNm, { central: [reader.central()] }),
  });

  test('nothing tells: before all lamps, as is usual', () => {
    const { centralsBefore, log } = amongOf({});
    expect(centralsBefore).toBe(1);
    // One reading says nothing of a move.
    expect(log).toBeCloseTo(Math.log(0.9 + 0.07), 2);
  });

  test('the readings differ as the move would have it', () => {
    const { centralsBefore, log } = amongOf({ central: [still.central(), moved.central()] });
    expect(centralsBefore).toBe(1);
    expect(log).toBeGreaterThan(3);
    expect(amongOf({ central: [still.central(), still.central()] }).centralsBefore).toBe(2);
  });

  test("a tube's own tells", () => {
    expect(amongOf(tubeAt(moved))).toMatchObject({ centralsBefore: 1 });
    expect(amongOf(tubeAt(moved)).log).toBeGreaterThan(3);
    // Or before it, and the bench was put back: 5 of 100 times 90 against 7.
    expect(amongOf(tubeAt(still))).toMatchObject({ centralsBefore: 0, otherwise: { centralsBefore: 1 } });
    expect(amongOf(tubeAt(still)).otherwise!.logOdds).toBeCloseTo(Math.log((0.05 * 0.9) / 0.07), 0);
    expect(amongOf(tubeAt(moved)).otherwise).toBeUndefined();
    expect(amongOf({}).otherwise).toBeUndefined();
    expect(amongOf({ ...tubeAt(moved), central: [moved.central()] })).toMatchObject({ centralsBefore: 0 });
  });
});

test('a move between two lamps is as probable as one between lamp and tube', () => {
  // 5 of 100 knocked by 12', 15 of 1000 turned to anywhere within 300' either way.
  const size = moveSize({ method: 'central' }, Number.NaN);
  for (const shift of [0, 8, -30, 200])
    expect(lampMoveLog(shift, size)).toBeCloseTo(
      Math.log(0.05 * Math.exp(logNormal(shift, 144)) + 0.015 / 600),
      9,
    );
  expect(lampMoveLog(301, size)).toBeCloseTo(Math.log(0.05) + logNormal(301, 144), 6);
});
