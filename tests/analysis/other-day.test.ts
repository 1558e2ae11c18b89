/** A tube of today on the calibration of another day. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import {
  benchOf,
  GlassReader,
  heliumNm,
  neonNm,
  type PlainRecord,
  recordOf,
  unknownTube,
} from '../calibrate/glass-bench.ts';

const reader = new GlassReader();
const today = (of: GlassReader, parts: PlainRecord = {}): PlainRecord => {
  const { known: _lamp, ...rest } = recordOf(of, { unknown: unknownTube(of, neonNm), ...parts });
  return rest;
};
const analysed = (record: PlainRecord, lastWeek: PlainRecord = recordOf(reader)) =>
  analyseBench(benchOf(record), { calibrationFrom: benchOf(lastWeek) });
const wavelengths = ({ tubes }: ReturnType<typeof analysed>) =>
  tubes[0]!.lines.map(({ wavelengthNm }) => wavelengthNm!);
const codes = ({ warnings }: ReturnType<typeof analysed>) => warnings.map(({ code }) => code);

const sameDay = analyseBench(benchOf(recordOf(reader, { unknown: unknownTube(reader, neonNm) })));

describe('the calibration of another day', () => {
  test('of the same bench, not moved, gives the wavelengths of the same day, a little less surely', () => {
    const analysis = analysed(today(reader));
    wavelengths(analysis).forEach((nm, i) => {
      expect(nm).toBeCloseTo(sameDay.tubes[0]!.lines[i]!.wavelengthNm!, 9);
      const [now, then] = [analysis, sameDay].map((each) => each.tubes[0]!.lines[i]!.standardUncertaintyNm!);
      expect(now!).toBeGreaterThan(then!);
    });
    expect(analysis.calibration.coefficients).toEqual(sameDay.calibration.coefficients);
    expect(analysis.tubes[0]!.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
  });

  test('of a bench turned since then by 40° gives the same, and that is no fault', () => {
    const turned = new GlassReader({ centralDeg: 221 + 4 / 60 });
    const analysis = analysed(today(turned));
    wavelengths(analysis).forEach((nm, i) => {
      expect(nm).toBeCloseTo(sameDay.tubes[0]!.lines[i]!.wavelengthNm!, 6);
    });
    expect(codes(analysis)).toContain('calibration-drift');
    expect(analysis.tubes[0]!.doubts).toEqual([]);
  });

  test('without a central reading today uses that of the calibration, and warns', () => {
    const analysis = analysed(today(reader, { central: [] }));
    expect(codes(analysis)).toContain('calibration-central');
    expect(analysis.tubes[0]!.verdict).toMatchObject({ kind: 'identified', substance: 'neon' });
  });

  test('without a central reading today says where to look next, on the circle as it was then', () => {
    const few = { unknown: unknownTube(reader, [640.22]), central: [] };
    const { reading, wavelengthNm } = analysed(today(reader, few)).tubes[0]!.verdict.nextLook!;
    const minutes = (text: string) => Number(text.slice(4, 6)) + 60 * Number(text.slice(0, 3));
    expect(Math.abs(minutes(reading) - minutes(reader.line(wavelengthNm)))).toBeLessThanOrEqual(1);
  });

  test('takes the known lamp of the other record, not a lamp that today’s has too', () => {
    const both = recordOf(reader, {
      unknown: unknownTube(reader, neonNm),
      known: { lamp: 'helium', lines: [{ wavelengthNm: 587.56, readings: [reader.line(587.56, 17)] }] },
    });
    const analysis = analysed(both);
    expect(analysis.calibration.lines).toHaveLength(heliumNm.length);
    expect(analysis.calibration.doubts).toEqual([]);
  });

  test('that is none leaves the tube without wavelengths', () => {
    const analysis = analysed(today(reader), recordOf(reader, { known: [] }));
    expect(analysis.calibration.curve).toBeNull();
    expect(analysis.tubes[0]!.verdict).toMatchObject({ kind: 'undecided', substance: null });
  });

  test('of a scale is refused for angles, and the other way round', () => {
    const scale = { instrument: { method: 'scale', leastCount: 0.1 } };
    expect(() => analysed(today(reader), scale)).toThrow(RangeError);
    expect(() => analysed(scale)).toThrow(RangeError);
  });
});

describe('one call for the whole way', () => {
  test('analyses every tube of a bench by itself', () => {
    const tubes = [
      unknownTube(reader, neonNm, { label: 'A' }),
      unknownTube(reader, heliumNm, { label: 'B' }),
      { label: 'C' },
    ];
    const analysis = analyseBench(benchOf(recordOf(reader, { unknown: tubes })));
    expect(analysis.tubes.map(({ label, verdict }) => [label, verdict.substance])).toEqual([
      ['A', 'neon'],
      ['B', 'helium'],
      ['C', null],
    ]);
    expect(analysis.tubes[0]!.candidates[0]!.probability).toBeCloseTo(
      sameDay.tubes[0]!.candidates[0]!.probability,
      12,
    );
  });

  test('gathers the warnings of calibration and tubes', () => {
    const analysis = analyseBench(
      benchOf({
        instrument: { method: 'central', leastCount: "1'" },
        unknown: { lines: [{ readings: ["12°00'"] }] },
      }),
    );
    expect(codes(analysis)).toEqual(['too-few-known-lines', 'no-calibration']);
  });

  test('hands back the bench it was given', () => {
    const bench = benchOf(recordOf(reader));
    expect(analyseBench(bench).bench).toBe(bench);
  });
});
