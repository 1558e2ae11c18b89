/** What is only another way of writing the same readings must not change what is said of the tube. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { TubeAnalysis } from '../../src/analysis/types.ts';
import type { Bench, BenchLine, Setting } from '../../src/record/bench.ts';
import {
  benchOf,
  heliumNm,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';
import { reader } from './tube-bench.ts';

/** Two lines only, so that many tubes have a share; one minute off here and there, so that nothing is exact. */
const undecidedNm = [640.22, 603.0, 585.25];
const record = recordOf(reader, { unknown: unknownTube(reader, undecidedNm) });
const bench = benchOf(record);
const plain = analyseBench(bench).tubes[0]!;

const shares = ({ candidates }: TubeAnalysis): Map<string, number> =>
  new Map(
    candidates.map((row) => [
      [row.substance, ...row.with, '/', ...row.indistinguishable].join(' '),
      row.probability,
    ]),
  );

/** Largest change of any row's probability. */
function change(tube: TubeAnalysis, reference: TubeAnalysis = plain): number {
  const [now, before] = [shares(tube), shares(reference)];
  expect([...now.keys()].sort()).toEqual([...before.keys()].sort());
  return Math.max(...[...now].map(([row, share]) => Math.abs(share - before.get(row)!)));
}

const withReadings = (of: Bench, turn: (degrees: number) => number): Bench => {
  const setting = (each: Setting): Setting =>
    each.kind === 'one-side'
      ? { ...each, windows: each.windows.map(turn) }
      : { ...each, left: each.left.map(turn), right: each.right.map(turn) };
  const line = <Line extends BenchLine>(each: Line): Line => ({
    ...each,
    settings: each.settings.map(setting),
  });
  return {
    ...of,
    central: of.central.map(setting),
    known: of.known.map((lamp) => ({ ...lamp, lines: lamp.lines.map(line) })),
    tubes: of.tubes.map((tube) => ({ ...tube, lines: tube.lines.map(line) })),
  };
};
const analysed = (of: Bench): TubeAnalysis => analyseBench(of).tubes[0]!;
const wrap = (degrees: number): number => ((degrees % 360) + 360) % 360;

describe('the probabilities stay the same', () => {
  test('there is something that could change', () => {
    expect(plain.candidates.filter(({ probability }) => probability > 0.01).length).toBeGreaterThan(1);
    const other = analysed(
      benchOf(recordOf(reader, { unknown: unknownTube(reader, [640.22, 603.0, 586.9]) })),
    );
    expect(Math.abs(other.candidates[0]!.probability - plain.candidates[0]!.probability)).toBeGreaterThan(
      1e-3,
    );
  });

  test('when the circle is turned by 100°', () => {
    expect(change(analysed(withReadings(bench, (degrees) => wrap(degrees + 100))))).toBeLessThan(1e-6);
  });

  // Which digits can have been written in the wrong order belongs to the numbers read, so that slips are not quite the same.
  test.each([37, 150, 180, 359])('but for the digits of the degrees, when it is turned by %i°', (turnDeg) => {
    expect(change(analysed(withReadings(bench, (degrees) => wrap(degrees + turnDeg))))).toBeLessThan(2e-3);
  });

  test('but for the digits of the minutes, when the telescope is on the other side', () => {
    expect(change(analysed(withReadings(bench, (degrees) => wrap(-degrees))))).toBeLessThan(2e-2);
  });

  test('when the lines are written down in another order', () => {
    const shuffled = <T>(list: readonly T[]): T[] => [...list.slice(2), ...list.slice(0, 2)].reverse();
    const [lamp] = bench.known;
    const tube = bench.tubes[0]!;
    const index = <Line extends BenchLine>(line: Line, i: number): Line => ({ ...line, index: i });
    const other: Bench = {
      ...bench,
      known: [{ ...lamp!, lines: shuffled(lamp!.lines).map(index) }],
      tubes: [{ ...tube, lines: shuffled(tube.lines).map(index) }],
    };
    expect(change(analysed(other))).toBeLessThan(1e-6);
  });

  test('when angles are written in decimals of a degree', () => {
    const decimals = (text: string): number => {
      const [, degrees, minutes] = /^(\d+)°(\d+)'$/.exec(text)!;
      return Number(degrees) + Number(minutes) / 60;
    };
    const lines = (nm: readonly number[], stated: boolean): PlainRecord[] =>
      nm.map((each) => ({
        ...(stated ? { wavelengthNm: each } : {}),
        readings: [decimals(reader.line(each))],
      }));
    const other = {
      ...record,
      central: [decimals(reader.central())],
      known: { lamp: 'helium', lines: lines(heliumNm, true) },
      unknown: { lines: lines(undecidedNm, false) },
    };
    expect(change(analysed(benchOf(other)))).toBeLessThan(1e-6);
  });

  test('when the lamp is written as two lamps of one kind', () => {
    const [lamp] = bench.known;
    const part = (from: number, to: number, lampIndex: number) => ({
      ...lamp!,
      lines: lamp!.lines.slice(from, to).map((line) => ({ ...line, lampIndex })),
    });
    expect(change(analysed({ ...bench, known: [part(0, 4, 0), part(4, 8, 1)] }))).toBeLessThan(1e-6);
  });

  test('when a scale has other units', () => {
    const place = (nm: number) => Math.round(10 * 20 * (reader.deviationArcmin(nm) / 60 - 40)) / 10;
    const scale = (unit: number) => ({
      instrument: { method: 'scale', leastCount: 0.1 * unit },
      known: {
        lamp: 'helium',
        lines: heliumNm.map((nm) => ({ wavelengthNm: nm, readings: [place(nm) * unit] })),
      },
      unknown: { lines: undecidedNm.map((nm) => ({ readings: [place(nm) * unit] })) },
    });
    // Which marks can be missed belongs to the numbers written on a scale, so that slips are not quite the same.
    expect(change(analysed(benchOf(scale(10))), analysed(benchOf(scale(1))))).toBeLessThan(5e-3);
  });
});

test('repeats that agree make a reading surer, never less sure, and change no wavelength', () => {
  const twice = { lines: undecidedNm.map((nm) => ({ readings: [reader.line(nm), reader.line(nm)] })) };
  const repeated = analysed(benchOf(recordOf(reader, { unknown: twice })));
  repeated.lines.forEach((line, i) => {
    expect(line.wavelengthNm).toBeCloseTo(plain.lines[i]!.wavelengthNm!, 6);
    expect(line.standardUncertaintyNm!).toBeLessThan(plain.lines[i]!.standardUncertaintyNm!);
  });
});

test('the same bench twice gives the same answer to the last digit', () => {
  expect(analysed(benchOf(record))).toEqual(analysed(benchOf(record)));
  expect(
    analysed(benchOf(recordOf(reader, { unknown: unknownTube(reader, neonNm) }))).candidates[0]!.substance,
  ).toBe('neon');
});
