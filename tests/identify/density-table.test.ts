/** The tabulated density against the density itself, and the classes of variance that share a table. */
import { describe, expect, test } from 'vitest';
import { readingDensity, readingReach } from '../../src/identify/bench/unknown-reading.ts';
import {
  DensityRow,
  DensityTable,
  DensityTables,
  varianceClass,
} from '../../src/identify/evidence/density-table.ts';
import { logNormal } from '../observe/by-hand.ts';
import { handReading } from './hand-made.ts';

const averaged = handReading(0, 3000);
/** One reading of a 1' vernier: half a count either way, set to 0.3'. */
const single = handReading(0, 3000, { halfCount: 0.5, variance: 0.09 });

describe('the density of a reading about its line', () => {
  test('is normal where several readings are averaged, the variance of the place of the line in it', () => {
    for (const off of [-2, -0.3, 0, 0.7])
      expect(readingDensity(averaged, off, 0.24)).toBeCloseTo(Math.exp(logNormal(off, 0.49)), 12);
    expect(readingReach(averaged, 0.24)).toBeCloseTo(5 * 0.7, 12);
    expect(readingReach(single, 0.07)).toBeCloseTo(1.5 + 5 * 0.4, 12);
  });

  test('of one reading is rounding blurred by the hand, two per cent of it a whole tick off', () => {
    // Summed up in steps from the two rectangles that it is made of.
    const step = 0.001;
    const byHand = (off: number): number => {
      let sum = 0;
      for (let error = -1.5 + step / 2; error < 1.5; error += step)
        sum += (Math.abs(error) < 0.5 ? 0.98 : 0.01) * step * Math.exp(logNormal(off - error, 0.09 + 0.07));
      return sum;
    };
    for (const off of [-1.8, -0.9, -0.5, 0, 0.4, 1.2])
      expect(readingDensity(single, off, 0.07)).toBeCloseTo(byHand(off), 5);
  });

  test('is the same on both sides and one in all', () => {
    let sum = 0;
    for (let off = -4; off < 4; off += 0.01) sum += 0.01 * readingDensity(single, off, 0.07);
    expect(sum).toBeCloseTo(1, 6);
    expect(readingDensity(single, 1.1, 0.07)).toBeCloseTo(readingDensity(single, -1.1, 0.07), 12);
  });
});

describe('the table', () => {
  test.each([
    ['averaged', averaged],
    ['single', single],
  ])(
    'of a reading %s gives the density to half a per cent of its height, nothing beyond its reach',
    (_, reading) => {
      const table = new DensityTable(reading, 0.07);
      const height = readingDensity(reading, 0, 0.07);
      expect(table.reach).toBeCloseTo(readingReach(reading, 0.07), 12);
      for (let off = -table.reach; off <= table.reach; off += table.reach / 37)
        expect(Math.abs(table.at(off) - readingDensity(reading, off, 0.07))).toBeLessThan(0.005 * height);
      // Asked again it says the same.
      expect(table.at(0.31)).toBe(table.at(-0.31));
      expect(table.at(table.reach * 0.9999)).toBeGreaterThan(0);
      expect(table.at(table.reach * 1.0001)).toBe(0);
      expect(table.at(-table.reach * 1.0001)).toBe(0);
    },
  );

  test('is exact at its steps and between them straight', () => {
    const table = new DensityTable(averaged, 0);
    const step = table.reach / 80;
    const at = (k: number) => readingDensity(averaged, k * step, 0);
    for (const k of [0, 7, 33]) {
      expect(table.at(k * step)).toBeCloseTo(at(k), 9);
      expect(table.at((k + 0.25) * step)).toBeCloseTo(0.75 * at(k) + 0.25 * at(k + 1), 9);
    }
  });
});

describe('classes of variance', () => {
  test('are a tenth wide, and all that is as good as exact is one', () => {
    expect([0, 1e-6, 1e-4].map(varianceClass)).toEqual([0, 0, 0]);
    expect([1.01e-4, 1.1e-4, 1.11e-4, 1.2e-4, 1.22e-4].map(varianceClass)).toEqual([1, 1, 2, 2, 3]);
  });

  test('have a table as wide as the widest of the class', () => {
    const row = new DensityRow(averaged);
    for (const variance of [1e-4, 0.01, 0.3, 2]) {
      const inClass = 1e-4 * 1.1 ** varianceClass(variance);
      expect(inClass / variance).toBeGreaterThanOrEqual(1 - 1e-9);
      expect(inClass / variance).toBeLessThan(1.1);
      expect(row.table(varianceClass(variance)).reach).toBeCloseTo(readingReach(averaged, inClass), 9);
    }
    expect(row.table(5)).toBe(row.table(5));
    expect(row.table(6)).not.toBe(row.table(5));
  });

  test('readings alike share their tables, others do not', () => {
    const tables = new DensityTables();
    const row = tables.row(averaged);
    expect(tables.row(averaged)).toBe(row);
    expect(tables.row(handReading(3, 2800))).toBe(row);
    expect(tables.row(handReading(3, 2800, { variance: 0.26 }))).not.toBe(row);
    expect(tables.row(handReading(3, 2800, { halfCount: 0.5 }))).not.toBe(row);
  });
});
