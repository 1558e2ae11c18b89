/** Faults in the readings of the unknown tube itself. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import {
  benchOf,
  GlassReader,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';
import { analysedTube, reader, tubeWith } from './tube-bench.ts';

const analysed = (unknown: PlainRecord) => analysedTube(recordOf(reader, { unknown }));
const neonWithSlip = (slipped: number, slipArcmin: number): PlainRecord => ({
  lines: neonNm.map((nm, i) => ({ readings: [reader.line(nm, i === slipped ? slipArcmin : 0)] })),
});

describe('a slip in one reading of the tube', () => {
  test.each([
    [3, -60],
    [1, -600],
    [6, 600],
  ])(
    'reading %i off by %i′ is announced with its index, and the tube is neon all the same',
    (index, slipArcmin) => {
      const tube = analysed(neonWithSlip(index, slipArcmin));
      expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
      expect(tube.doubts).toEqual([expect.objectContaining({ step: 'unknown', index, kind: 'slip' })]);
      expect(tube.lines.filter(({ status }) => status === 'slip').map((line) => line.index)).toEqual([index]);
      expect(tube.lines[index]!.message).toContain(reader.line(neonNm[index]!, slipArcmin));
      expect(tube.lines[index]!.message).toContain(reader.line(neonNm[index]!));
    },
  );

  test('with repeats, the one repeat that disagrees is named', () => {
    const readings = (nm: number, i: number) => [reader.line(nm), reader.line(nm, i === 4 ? 30 : 0)];
    const tube = analysed({ lines: neonNm.map((nm, i) => ({ readings: readings(nm, i) })) });
    expect(tube.doubts.map(({ index }) => index)).toEqual([4]);
    expect(tube.doubts[0]!.message).toContain(reader.line(neonNm[4]!, 30));
  });

  test('on both sides, a slip on one of them is named with its side', () => {
    const lines = (slip: number) =>
      neonNm.map((nm, i) => ({ readings: [reader.bothSides(nm, i === 2 ? slip : 0)] }));
    const known = {
      lamp: 'helium',
      lines: [706.52, 667.82, 587.56, 501.57, 492.19, 471.31, 447.15].map((nm) => ({
        wavelengthNm: nm,
        readings: [reader.bothSides(nm)],
      })),
    };
    const tube = analysedTube({
      instrument: { method: 'both-sides', leastCount: "1'" },
      known,
      unknown: { lines: lines(30) },
    });
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
    expect(tube.doubts.map(({ index, kind }) => ({ index, kind }))).toEqual([{ index: 2, kind: 'slip' }]);
    expect(tube.doubts[0]!.message).toMatch(/on the left/);
  });

  test('a reading far from everything visible is doubted, and lies outside the known lines', () => {
    const readings = neonNm.map((nm, i) => ({ readings: [i === 2 ? "12°28'" : reader.line(nm)] }));
    const tube = analysed({ label: 'tube C', lines: readings });
    expect(tube.doubts).toMatchObject([{ step: 'unknown', index: 2, kind: 'beyond-the-curve' }]);
    expect(tube.doubts[0]!.message).toMatch(/^tube C, reading 3: 12°28' /);
    expect(tube.lines[2]).toMatchObject({
      wavelengthNm: null,
      standardUncertaintyNm: null,
      extrapolated: true,
      status: 'used',
      message: tube.doubts[0]!.message,
    });
  });

  test('where all of them are, there is one doubt', () => {
    const lines = neonNm.map((_, i) => ({ readings: [`12°${10 + i}'`] }));
    const { doubts } = analysed({ lines });
    expect(doubts).toMatchObject([{ step: 'unknown', index: null, kind: 'beyond-the-curve' }]);
  });

  test('a clean tube is not accused', () => {
    const tube = tubeWith(neonNm);
    expect(tube.doubts).toEqual([]);
    expect(tube.lines.every(({ status, message }) => status === 'used' && message === null)).toBe(true);
  });
});

describe('the central image of the tube', () => {
  const neon = unknownTube(reader, neonNm);

  test('misread by half a degree is announced, and the tube is neon all the same', () => {
    const tube = analysed({ ...neon, central: [reader.central(30)] });
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
    expect(tube.doubts).toHaveLength(1);
    expect(tube.doubts[0]).toMatchObject({ step: 'central', index: null });
    // Of one reading each, either may be the wrong one.
    const { message, probability } = tube.doubts[0]!;
    expect(message).toContain(`the tube's ${reader.central(30)} for ${reader.central()}`);
    expect(message).toContain(`the calibration's ${reader.central()} for ${reader.central(30)}`);
    expect(message).toMatch(/ either .*, or .*\. Read the central image again\.$/);
    expect(probability).toBeGreaterThan(0.99);
  });

  test('read anew on a bench that was truly moved gives neon, and says that it moved', () => {
    const moved = new GlassReader({ centralDeg: 181 + 34 / 60 });
    const tube = analysed({ ...unknownTube(moved, neonNm), central: [moved.central()] });
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
    expect(tube.doubts).toEqual([expect.objectContaining({ step: 'central', kind: 'moved-central' })]);
  });

  test('one of three misread at the calibration is named once, and the tube is neon all the same', () => {
    const central = [reader.central(), reader.central(30), reader.central(1)];
    const record = recordOf(reader, { central, unknown: { ...neon, central: [reader.central()] } });
    const { calibration, tubes } = analyseBench(benchOf(record));
    expect(tubes[0]!.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
    expect(tubes[0]!.doubts).toEqual([]);
    expect(calibration.doubts).toHaveLength(1);
    expect(calibration.doubts[0]!.message).toContain(
      `${reader.central(30)} reads like ${reader.central()}: half a degree`,
    );
  });

  test('one of three of its own misread is said, and is no part of their mean', () => {
    const tube = analysed({ ...neon, central: [reader.central(), reader.central(-60), reader.central()] });
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
    expect(tube.doubts).toHaveLength(1);
    expect(tube.doubts[0]!.message).toMatch(
      /^tube 1: the readings of its central image .* left out of their mean/,
    );
    expect(tube.candidates[0]!.matches.every(({ asRead }) => asRead)).toBe(true);
  });

  test('two against two is told as either', () => {
    const tube = analysed({ ...neon, central: [reader.central(), reader.central(30), reader.central(30)] });
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
    const message = tube.doubts.find(({ kind }) => kind === 'central-misread')!.message;
    expect(message).toContain(`the tube's ${reader.central(30)} for ${reader.central()}`);
    // Both are as likely: which is named first is left to rounding.
    expect(message).toMatch(/ either .* or /);
    expect(message).toContain(`the calibration's ${reader.central()} for ${reader.central(30)}`);
  });

  test.each([
    { calibration: [0, 30, 9], tube: [0], misread: 9 },
    { calibration: [0], tube: [9, 0, 0], misread: 9 },
    { calibration: [0, 30], tube: [0], misread: 30 },
  ])('$calibration at the calibration, $tube at the tube: the one that is off is named', (lists) => {
    const central = lists.calibration.map((off) => reader.central(off));
    const unknown = { ...neon, central: lists.tube.map((off) => reader.central(off)) };
    const [tube] = analyseBench(benchOf(recordOf(reader, { central, unknown }))).tubes;
    expect(tube!.candidates[0]).toMatchObject({ substance: 'neon' });
    const { message } = tube!.doubts.find(({ kind }) => kind === 'central-misread')!;
    expect(message).toContain(reader.central(lists.misread));
    expect(message).not.toMatch(/ and |either/);
  });

  test('readings that scatter by a few arc-minutes are none of them accused', () => {
    const central = [0, 2, 0].map((off) => reader.central(off));
    const unknown = { ...neon, central: [1, -2, -3].map((off) => reader.central(off)) };
    const { calibration, tubes } = analyseBench(benchOf(recordOf(reader, { central, unknown })));
    expect([...calibration.doubts, ...tubes[0]!.doubts]).toEqual([]);
    expect(tubes[0]!.candidates[0]!.matches.every(({ asRead }) => asRead)).toBe(true);
  });

  test('far off is one doubt, and not one for every reading of the tube', () => {
    const tube = analysed({ ...neon, central: [reader.central(60)] });
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
    expect(tube.doubts).toMatchObject([{ step: 'central', kind: 'central-misread' }]);
  });

  test('a mean of three readings beside one changes nothing', () => {
    const central = [reader.central(), reader.central(1), reader.central(3)];
    const record = recordOf(reader, { central, unknown: { ...neon, central: [reader.central(1)] } });
    const [lead] = analyseBench(benchOf(record)).tubes[0]!.candidates;
    expect(lead!.matches.every(({ asRead }) => asRead)).toBe(true);
  });

  test('read anew within a minute is no doubt', () => {
    expect(analysed({ ...neon, central: [reader.central(1)] }).doubts).toEqual([]);
  });

  test('not read anew on a bench that was moved never identifies something else', () => {
    for (const movedArcmin of [-30, -6, 6, 30]) {
      const moved = new GlassReader({ centralDeg: 181 + (4 + movedArcmin) / 60 });
      const { verdict } = analysed(unknownTube(moved, neonNm));
      expect(verdict.kind === 'identified' ? verdict.substance : 'neon').toBe('neon');
    }
  });
});

describe('the colours noted', () => {
  const coloured = (colours: readonly string[]): PlainRecord => ({
    lines: neonNm.map((nm, i) => ({
      readings: [reader.line(nm)],
      ...(colours[i] ? { color: colours[i] } : {}),
    })),
  });
  const wrong = ['violet', 'blue', 'violet', 'blue', 'green', 'violet'];

  test('that contradict the named tube, six of them, are told', () => {
    const tube = analysed(coloured(wrong));
    expect(tube.candidates[0]!.substance).toBe('neon');
    const doubt = tube.doubts.find(({ kind }) => kind === 'colours')!;
    expect(doubt).toMatchObject({ step: 'unknown', index: null });
    expect(doubt.message).toMatch(/6 of 6 colours noted are not those of the lines they fit/);
  });

  test('are no doubt where they belong, nor where one or two do not', () => {
    const right = ['red', 'red', 'red', 'orange', 'orange', 'orange', 'orange', 'orange', 'yellow', 'green'];
    for (const colours of [right, ['violet', 'blue', ...right.slice(2)]])
      expect(analysed(coloured(colours)).doubts.filter(({ kind }) => kind === 'colours')).toEqual([]);
  });
});
