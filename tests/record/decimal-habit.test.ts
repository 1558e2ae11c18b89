/** Decimal degrees or degrees.minutes, all through one record: what one hand writes, whatever it means by it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import { benchOf } from '../calibrate/glass-bench.ts';

const record = (write: (degrees: number) => string | number, directions: readonly number[]) => ({
  whichgas: 1,
  instrument: { method: 'central', leastCount: "1'" },
  central: [write(directions[0]!)],
  known: {
    lamp: 'mercury',
    lines: directions.slice(1, 4).map((each) => ({ readings: [write(each)] })),
    check: [{ wavelengthNm: 546.07, readings: [write(directions[4]!)] }],
  },
  unknown: { lines: directions.slice(5).map((each) => ({ readings: [write(each), write(each)] })) },
});

const signs = (minutes: number): string => `${Math.floor(minutes / 60)}°${minutes % 60}'`;
const dotted = (minutes: number): string =>
  `${Math.floor(minutes / 60)}.${String(minutes % 60).padStart(2, '0')}`;
const decimal = (minutes: number): string => (minutes / 60).toFixed(2);

const settings = (parts: object) => {
  const { central, known, tubes, check } = benchOf(parts as Record<string, unknown>);
  const lists = [...known, ...tubes].flatMap(({ lines }) => lines.map((line) => line.settings));
  return [central, ...lists, ...check.map((line) => line.settings)];
};
const remarks = (parts: object) => {
  const read = readRecord(JSON.stringify(parts));
  return read.ok ? read.warnings.filter(({ code }) => code === 'decimals').map(({ message }) => message) : [];
};

/** 181°04' and 228°44' are 181.07 and 228.73 in decimals: as degrees.minutes 181.04 is no decimal mark, 228.73 no minutes. */
const plain = [181 * 60 + 4, 228 * 60 + 44];
const directions = fc
  .array(fc.integer({ min: 60, max: 359 * 60 + 59 }), { minLength: 6, maxLength: 12 })
  .map((more) => [...plain, ...more]);

describe('readings with a decimal mark, all through a record', () => {
  it('are settled where they are all halves and quarters of a degree, as texts too', () => {
    const halves = (minutes: number) => `${Math.floor(minutes / 60)}.5`;
    const quarters = (minutes: number) => `${Math.floor(minutes / 60)}.${minutes % 2 ? '25' : '5'}`;
    const many = plain.concat([6000, 6301, 7206, 8003, 9004, 9905]);
    expect(remarks(record(halves, many))).toEqual([]);
    expect(remarks(record(quarters, many))).toEqual([]);
    // Too few to settle anything.
    const few = { ...record(signs, many), central: ['181.5'] };
    expect(remarks(few)).toEqual([expect.stringContaining('can be')]);
  });

  it('are degrees.minutes where one of them can only be that and none can be anything else', () => {
    fc.assert(
      fc.property(directions, (minutes) => {
        const written = record(dotted, minutes);
        expect(settings(written)).toEqual(settings(record(signs, minutes)));
        expect(remarks(written)).toEqual([
          expect.stringContaining(
            "central[0]: 181.04 is no mark of this circle as decimal degrees, but 181°04' is one",
          ),
        ]);
      }),
    );
  });

  it('are decimal degrees where one of them can only be that, without a word', () => {
    fc.assert(
      fc.property(directions, (minutes) => {
        const written = record(decimal, minutes);
        const [central] = settings(written);
        expect(central).toEqual([{ kind: 'one-side', windows: [181.07] }]);
        expect(remarks(written)).toEqual([]);
      }),
    );
  });

  it('are decimal degrees where both habits can have written them, and it is said', () => {
    const both = record(decimal, [
      181 * 60 + 3,
      228 * 60 + 27,
      229 * 60 + 9,
      230 * 60 + 21,
      60,
      120,
      180,
      240,
    ]);
    expect(settings(both)[0]).toEqual([{ kind: 'one-side', windows: [181.05] }]);
    expect(remarks(both)).toEqual([
      "central[0]: 181.05 can be 181°03' (decimal degrees) or 181°05' (degrees.minutes): all 4 readings with a decimal mark are taken as decimal degrees; write all of them with signs to settle it",
    ]);
  });

  it('are degrees.minutes all but one that cannot be, and that one is named', () => {
    const slip = record(
      (minutes) => (minutes === 61 ? '230.61' : dotted(minutes)),
      [...plain, 13_729, 13_743, 61, 13_744, 13_751],
    );
    expect(remarks(slip)).toEqual([
      expect.stringContaining('taken as degrees.minutes but 230.61, which cannot be'),
    ]);
    expect(settings(slip)[0]).toEqual([{ kind: 'one-side', windows: [181 + 4 / 60] }]);
  });

  it('that contradict each other are decimal degrees, and one sentence says so', () => {
    const mixed = record(
      (minutes) => (minutes % 2 === 0 ? dotted(minutes) : decimal(minutes)),
      [181 * 60 + 4, 228 * 60 + 43, 229 * 60 + 45, 229 * 60 + 8, 230 * 60 + 51, 230 * 60 + 44],
    );
    expect(remarks(mixed)).toEqual([
      expect.stringContaining("181.04 can only be degrees.minutes (181°04') and 228.72 can not: all"),
    ]);
    expect(settings(mixed)[0]).toEqual([{ kind: 'one-side', windows: [181.04] }]);
  });

  it('of the two images that give the apex angle are as all the others', () => {
    const written = (write: (minutes: number) => string) => {
      const parts = record(write, [...plain, 13_000, 13_100, 13_200, 13_300, 13_400]);
      const images = { left: write(121 * 60 + 50), right: write(60 + 50) };
      return benchOf({ ...parts, instrument: { ...parts.instrument, apexAngle: { readings: images } } });
    };
    expect(written(dotted).apexAngle).toEqual(written(signs).apexAngle);
    expect(written(dotted).apexAngle?.valueDeg).toBeCloseTo(60, 9);
  });

  it('that are means of several takes are decimal degrees', () => {
    const mean = (minutes: number): string => (minutes / 60 + 0.0061).toFixed(4);
    expect(remarks(record(mean, [...plain, 13_000, 13_100, 13_200, 13_300, 13_400]))).toEqual([]);
  });

  it('of numbers are decimal degrees always', () => {
    const number = (minutes: number): number => Number(dotted(minutes));
    const written = record(number, [...plain, 13_000, 13_100, 13_200, 13_300, 13_400]);
    expect(settings(written)[0]).toEqual([{ kind: 'one-side', windows: [181.04] }]);
    expect(remarks(written)).toEqual([]);
  });
});
