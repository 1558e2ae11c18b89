/** Where one more look would tell most. */
import { describe, expect, test } from 'vitest';
import type { TubeIdentification } from '../../src/identify/types.ts';
import { tubeNamed } from '../../src/lines/table.ts';
import { verdictSentence } from '../../src/words/verdict.ts';
import {
  GlassReader,
  heliumNm,
  knownLamp,
  linesAt,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';
import { analysedTube, reader, tubeWith } from './tube-bench.ts';

const fewNm = [640.22, 585.25];
const lookOf = (record: PlainRecord) => analysedTube(record).verdict.nextLook!;
const arcmin = (text: string): number => {
  const [, degrees, minutes] = /^(\d+)°(\d+)'$/.exec(text)!;
  return 60 * Number(degrees) + Number(minutes);
};

describe('the next look', () => {
  test('is none where the tube is identified, and none where nothing was read', () => {
    expect(tubeWith(neonNm).verdict.nextLook).toBeNull();
    expect(tubeWith([]).verdict.nextLook).toBeNull();
  });

  test('is where the line can be read, though the tube’s central image is misread', () => {
    const unknown = { ...unknownTube(reader, [650.65, 640.22, 614.31]), central: [reader.central(30)] };
    const { reading, wavelengthNm } = lookOf(recordOf(reader, { unknown }));
    expect(Math.abs(arcmin(reading) - arcmin(reader.line(wavelengthNm)))).toBeLessThanOrEqual(1.5);
  });

  test.each([
    ["1'", 1],
    ["5'", 5],
  ])(
    'lies on the grid of a circle read to %s, where the bench shows its wavelength',
    (leastCount, leastCountArcmin) => {
      const of = new GlassReader({ leastCountArcmin });
      const { reading, wavelengthNm } = lookOf(recordOf(of, { unknown: unknownTube(of, fewNm) }, leastCount));
      expect(arcmin(reading) % leastCountArcmin).toBe(0);
      expect(Math.abs(arcmin(reading) - arcmin(of.line(wavelengthNm)))).toBeLessThanOrEqual(
        1.5 * leastCountArcmin,
      );
    },
  );

  test('is on the side on which the tube was read', () => {
    const mirrored = new GlassReader({ side: -1 });
    const { reading, wavelengthNm } = lookOf(recordOf(mirrored, { unknown: unknownTube(mirrored, fewNm) }));
    expect(Math.abs(arcmin(reading) - arcmin(mirrored.line(wavelengthNm)))).toBeLessThanOrEqual(2);
  });

  test('names two different tubes, both still possible, and is named in the sentence', () => {
    const { verdict, candidates } = tubeWith(fewNm);
    const { separates, reading } = verdict.nextLook!;
    expect(new Set(separates).size).toBe(2);
    for (const name of separates) {
      expect(candidates.find(({ substance }) => name.startsWith(substance))!.probability).toBeGreaterThan(
        1e-4,
      );
    }
    expect(verdict.sentence).toContain(reading);
  });

  test('is where nobody has read a line yet', () => {
    const { wavelengthNm } = tubeWith(fewNm).verdict.nextLook!;
    for (const nm of fewNm) expect(Math.abs(wavelengthNm - nm)).toBeGreaterThan(2);
  });

  test('followed and seen, it speaks for the tube that has a line there; not seen, against it', () => {
    const before = tubeWith(fewNm);
    const { wavelengthNm, separates } = before.verdict.nextLook!;
    const share = (tube: typeof before, name: string) =>
      tube.candidates.find(({ substance, with: rest }) => substance === name && rest.length === 0)!
        .probability;
    const odds = (tube: typeof before) => share(tube, separates[0]!) / share(tube, separates[1]!);
    expect(odds(tubeWith([...fewNm, wavelengthNm]))).toBeGreaterThan(odds(before));
    expect(odds(tubeWith(fewNm, { notSeen: [{ wavelengthNm }] }))).toBeLessThan(odds(before));
  });

  test('with both sides gives both readings, on the grid', () => {
    const lines = (nm: readonly number[]) =>
      nm.map((each) => ({ wavelengthNm: each, readings: [reader.bothSides(each)] }));
    const unknown = { lines: fewNm.map((nm) => ({ readings: [reader.bothSides(nm)] })) };
    const { reading, wavelengthNm } = lookOf({
      instrument: { method: 'both-sides', leastCount: "1'" },
      known: { lamp: 'helium', lines: lines(heliumNm) },
      unknown,
    });
    const [, left, right] = /^left (\S+) right (\S+)$/.exec(reading)!;
    const expected = reader.bothSides(wavelengthNm);
    expect(Math.abs(arcmin(left!) - arcmin(expected.left))).toBeLessThanOrEqual(2);
    expect(Math.abs(arcmin(right!) - arcmin(expected.right))).toBeLessThanOrEqual(2);
  });

  test('with two windows gives what both of them show', () => {
    const pair = (text: string): string[] => {
      const [degrees, minutes] = text.split('°');
      return [text, `${(Number(degrees) + 180) % 360}°${minutes}`];
    };
    const { reading, wavelengthNm } = lookOf({
      instrument: { method: 'central', leastCount: "1'", windows: 2 },
      central: [pair(reader.central())],
      known: {
        lamp: 'helium',
        lines: heliumNm.map((nm) => ({ wavelengthNm: nm, readings: [pair(reader.line(nm))] })),
      },
      unknown: { lines: fewNm.map((nm) => ({ readings: [pair(reader.line(nm))] })) },
    });
    const [first, second] = reading.split(' / ').map(arcmin);
    expect(Math.abs(first! - arcmin(reader.line(wavelengthNm)))).toBeLessThanOrEqual(2);
    expect((first! - second! + 21600) % 21600).toBe(180 * 60);
  });

  test('on a circle divided in decimals is written in decimals', () => {
    const decimals = (nm: number) => `${(100 + reader.deviationArcmin(nm) / 60).toFixed(2)}°`;
    const { reading } = lookOf({
      instrument: { method: 'central', leastCount: '0.01°' },
      central: ['100.00°'],
      known: {
        lamp: 'helium',
        lines: heliumNm.map((nm) => ({ wavelengthNm: nm, readings: [decimals(nm)] })),
      },
      unknown: { lines: fewNm.map((nm) => ({ readings: [decimals(nm)] })) },
    });
    expect(reading).toMatch(/^14\d\.\d\d°$/);
  });

  test('on a scale is a number of its steps', () => {
    const place = (nm: number) => Math.round(20 * (reader.deviationArcmin(nm) / 60 - 40) * 10) / 10;
    const { reading } = lookOf({
      instrument: { method: 'scale', leastCount: 0.1 },
      known: { lamp: 'helium', lines: heliumNm.map((nm) => ({ wavelengthNm: nm, readings: [place(nm)] })) },
      unknown: { lines: fewNm.map((nm) => ({ readings: [place(nm)] })) },
    });
    expect(reading).toMatch(/^\d+(\.\d)?$/);
  });

  test('needs no apex angle, no colours and only two known lines', () => {
    const known = knownLamp(reader, { lamp: 'helium', lines: linesAt([667.82, 447.15]) });
    expect(lookOf(recordOf(reader, { known, unknown: unknownTube(reader, fewNm) }))).not.toBeNull();
  });
});

describe('looks one after another', () => {
  /** Within this many arc-minutes of the cross-hairs a line is seen; a hand sets them no better. */
  const handArcmin = 1.2;

  /** A student who looks where the prompt says, and says truly what is there. */
  function looksFor(substance: string, firstNm: readonly number[], most: number) {
    const shown = tubeNamed(substance)!.lines.filter(
      ({ prominence, expected }) => prominence > -2 && expected,
    );
    const read = [...firstNm];
    const notSeen: { wavelengthNm: number }[] = [];
    const asked: number[] = [];
    for (;;) {
      const tube = tubeWith(read, { notSeen });
      const look = tube.verdict.nextLook;
      if (look === null || asked.length === most) return { tube, asked, read };
      asked.push(look.wavelengthNm);
      const place = reader.deviationArcmin(look.wavelengthNm);
      const there = shown.filter(
        ({ wavelengthNm }) => Math.abs(reader.deviationArcmin(wavelengthNm) - place) < handArcmin,
      );
      const brightest = [...there].sort((a, b) => b.prominence - a.prominence)[0];
      if (brightest) read.push(brightest.wavelengthNm);
      else notSeen.push({ wavelengthNm: look.wavelengthNm });
    }
  }

  test.each([
    ['hydrogen', [656.28], 3],
    ['helium', [587.56], 8],
    ['krypton', [587.09], 7],
    ['neon', [640.22, 585.25], 8],
  ])('lead from the first lines of %s to a verdict, no place twice', (substance, firstNm, most) => {
    const { tube, asked } = looksFor(substance, firstNm, most);
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance });
    const places = [...asked, ...firstNm].map((nm) => reader.deviationArcmin(nm)).sort((a, b) => a - b);
    for (const [i, place] of places.entries())
      if (i > 0) expect(place - places[i - 1]!).toBeGreaterThan(handArcmin);
  });

  test('ask for the bright lines of the one that leads, too: after a red hydrogen line the blue one', () => {
    const { asked } = looksFor('hydrogen', [656.28], 3);
    expect(asked.some((nm) => Math.abs(nm - 486.13) < 0.5)).toBe(true);
  });

  test('"nothing there" three times within 2 arc-minutes counts as once', () => {
    const at = (off: number) => ({ reading: reader.line(603, off) });
    const once = tubeWith(fewNm, { notSeen: [at(0)] });
    const thrice = tubeWith(fewNm, { notSeen: [at(0), at(1), at(-1), at(0)] });
    const neon = ({ candidates }: typeof once) =>
      candidates.find(({ substance, with: rest }) => substance === 'neon' && rest.length === 0)!.probability;
    expect(neon(once)).toBeLessThan(neon(tubeWith(fewNm)));
    expect(neon(thrice)).toBeCloseTo(neon(once), 10);
  });

  test('"nothing there" beside a line that was read says nothing against it', () => {
    const beside = tubeWith(fewNm, { notSeen: [{ reading: reader.line(640.22, 1) }] });
    const before = tubeWith(fewNm);
    expect(beside.candidates.map(({ probability }) => probability)).toEqual(
      before.candidates.map(({ probability }) => probability),
    );
  });

  test('where none is left the sentence says what there is to do', () => {
    const found: TubeIdentification = {
      lines: [],
      candidates: tubeWith(fewNm).candidates.map((row) => ({ ...row, against: null })),
      verdict: { kind: 'undecided', substance: null, heldBackBy: null, nextLook: null },
      readings: 2,
      shift: null,
      reasons: [],
      findings: [],
      lacks: null,
    };
    expect(verdictSentence(found)).toMatch(/No look at another place would tell more: read the lines again/);
  });
});
