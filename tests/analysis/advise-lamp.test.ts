/** What a lamp would do for a bench, against the calibration computed anew with its line read. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { type Advice, adviseLamps } from '../../src/analysis/advise-lamp.ts';
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { CalibrationCurve } from '../../src/calibrate/types.ts';
import { errorShares, readingVariance } from '../../src/observe/reading-variance.ts';
import type { Bench } from '../../src/record/bench.ts';
import { readRecord } from '../../src/record/read-record.ts';
import type { BenchRecord } from '../../src/record/schema.ts';

import { straightCurve } from '../cli/analysis-fixture.ts';

type Json = Record<string, unknown>;
const shelf = ['helium', 'neon', 'argon', 'krypton', 'hydrogen'];

function example(change: (record: BenchRecord) => object = (record) => record): BenchRecord {
  const text = readFileSync('data/examples/harbour-lane-bench-2.json', 'utf8');
  return change(JSON.parse(text) as BenchRecord) as BenchRecord;
}

function benchOf(record: object): Bench {
  const read = readRecord(JSON.stringify(record));
  if (!read.ok) throw new Error(read.problems[0]?.message);
  return read.bench;
}

const withShelf = (record: Json, lines: readonly object[]): Json => ({
  ...record,
  shelf,
  known: { ...(record.known as Json), lines },
});

/** The bench of the example with these of its known lines. */
const benchWith = (...keptNm: number[]): Json =>
  withShelf(
    example() as unknown as Json,
    (example() as unknown as { known: { lines: { wavelengthNm: number }[] } }).known.lines.filter(
      ({ wavelengthNm }) => keptNm.includes(wavelengthNm),
    ),
  );

function adviceFor(record: Json, lamps: readonly string[]): Advice {
  const { bench, calibration } = analyseBench({ ...benchOf(record), tubes: benchOf(record).tubes });
  return adviseLamps(bench, calibration, calibration.curve!, lamps);
}

/** With another lamp's line read where the advice says it stands. */
function recordRead(record: Json, lamp: string, wavelengthNm: number, reading: string): Json {
  return { ...record, known: [record.known, { lamp, lines: [{ wavelengthNm, readings: [reading] }] }] };
}

describe('advice on the lamp', () => {
  const benches = {
    'the yellow to violet lines': benchWith(579.07, 546.07, 491.61, 435.83, 404.66),
    'three lines in the middle': benchWith(579.07, 546.07, 435.83),
  };

  test.each(Object.entries(benches))(
    '%s: what it promises is what a new calibration gives',
    (_what, record) => {
      const lamps = ['helium', 'cadmium', 'hydrogen', 'neon'];
      const advice = adviceFor(record, lamps);
      expect(advice.lamps.map(({ lamp }) => lamp).sort()).toEqual([...lamps].sort());
      expect(advice.of).toEqual(shelf);
      const recomputed = advice.lamps.map(({ lamp, lines: [line] }) => {
        const after = adviceFor(recordRead(record, lamp, line!.wavelengthNm, line!.reading!), []);
        // The scatter is estimated anew with one line more, and a line just where it should be makes it less.
        expect(after.nowNm / line!.rmsNm).toBeGreaterThan(0.82);
        expect(after.nowNm / line!.rmsNm).toBeLessThan(1.03);
        return { lamp, promised: line!.rmsNm, given: after.nowNm };
      });
      for (const one of recomputed)
        for (const other of recomputed)
          if (one.promised < 0.9 * other.promised) expect(one.given).toBeLessThan(other.given);
      expect(advice.lamps[0]!.lines[0]!.rmsNm).toBeLessThan(0.95 * advice.nowNm);
      expect(advice.bestNm).toBeLessThan(advice.lamps[0]!.rmsNm);
    },
  );

  test('is the regression with one point more, to the last digit', () => {
    const record = benches['three lines in the middle'];
    const bench = benchOf(record);
    // A straight line through two constants of known covariance; more of a point in information form: S' = (S⁻¹ + f·fᵀ/v)⁻¹.
    const x = (nm: number) => (nm - 550) / 100;
    const slope = -1;
    const straight = (s: readonly [number, number, number]): CalibrationCurve => ({
      ...straightCurve(),
      domainNm: [380, 760],
      ordinateAt: (nm) => slope * nm,
      slopeAt: () => slope,
      covariance: (a, b) => s[0] + s[1] * (x(a) + x(b)) + s[2] * x(a) * x(b),
    });
    const before = [0.3, 0.1, 0.9] as const;
    const settingScatter = 0.5;
    const advice = adviseLamps(bench, { settingScatter }, straight(before), ['hydrogen']);
    const line = advice.lamps[0]!.lines[0]!;
    const v = readingVariance(errorShares(bench), settingScatter ** 2);
    const det = before[0] * before[2] - before[1] ** 2;
    const f = x(line.wavelengthNm);
    const information = [
      before[2] / det + 1 / v,
      -before[1] / det + f / v,
      before[0] / det + f ** 2 / v,
    ] as const;
    const after = information[0] * information[2] - information[1] ** 2;
    const posterior = [information[2] / after, -information[1] / after, information[0] / after] as const;
    const again = adviseLamps(bench, { settingScatter }, straight(posterior), []);
    expect(line.rmsNm).toBeCloseTo(again.nowNm, 9);
    expect(line.rmsNm).toBeLessThan(advice.nowNm);
  });

  test('every line read makes it surer, the best first, none of them read before', () => {
    const { nowNm, lamps } = adviceFor(benches['three lines in the middle'], ['helium', 'mercury', 'neon']);
    for (const { lines, rmsNm, lamp } of lamps) {
      const steps = [nowNm, ...lines.map((line) => line.rmsNm)];
      expect(steps).toEqual([...steps].sort((a, b) => b - a));
      expect(rmsNm).toBe(steps.at(-1));
      if (lamp === 'mercury') expect(lines.map((line) => Math.round(line.wavelengthNm))).not.toContain(546);
    }
    expect(lamps.map(({ rmsNm }) => rmsNm)).toEqual(lamps.map(({ rmsNm }) => rmsNm).sort((a, b) => a - b));
  });

  test('a shelf in the violet asks for other lines than one in the red', () => {
    const record = benches['three lines in the middle'];
    const first = (tubes: readonly string[]) =>
      adviceFor({ ...record, shelf: tubes }, ['helium', 'mercury']).lamps[0]!.lines[0]!.wavelengthNm;
    expect(first(['rubidium'])).toBeLessThan(460);
    expect(first(['lithium'])).toBeGreaterThan(640);
  });
});
