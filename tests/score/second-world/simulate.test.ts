/** The simulator of the second world: the same seed gives the same bench, and its readings err as they are said to. */
import { describe, expect, it } from 'vitest';
import { readRecord } from '../../../src/record/read-record.ts';
import { formatRecord } from '../../../src/record/write-record.ts';
import { Random } from '../random.ts';
import { clusteredProportion } from '../statistics.ts';
import { hands } from './assumptions.ts';
import { chanceShown, heavyTailed } from './hand.ts';
import { askOracle } from './oracle.ts';
import { worldColumns } from './plan.ts';
import { simulateWorldBench, type WorldBench, worldSeed } from './simulate.ts';
import { isAlike } from './tubes.ts';

const column = (name: string) => worldColumns.find((one) => one.name === name)!;
const benchesOf = (name: string, count: number): WorldBench[] =>
  Array.from({ length: count }, (_, bench) => simulateWorldBench(worldSeed(name, bench, 7), column(name)));

describe('benches of the second world', () => {
  it('are the same for the same seed and others for another', () => {
    for (const one of worldColumns) {
      const text = (seed: number) => formatRecord(simulateWorldBench(seed, one).record);
      expect(text(11)).toBe(text(11));
      expect(text(11)).not.toBe(text(12));
    }
  });

  it.each(worldColumns.map(({ name }) => name))('are valid records: %s', (name) => {
    for (const { record, lines } of benchesOf(name, 60)) {
      const read = readRecord(formatRecord(record));
      expect(read.ok ? [] : read.problems).toEqual([]);
      if (!read.ok) continue;
      expect(read.bench.known[0]!.lines.length).toBeGreaterThanOrEqual(3);
      expect(read.bench.tubes[0]!.lines.map(({ settings }) => settings.length)).toEqual(
        record.unknown[0]!.lines.map(({ readings }) => readings.length),
      );
      expect(lines.length).toBeGreaterThanOrEqual(2);
    }
  });
});

describe('readings', () => {
  /** Errors of all numbers read off the tubes, the excess of the prism's misset included. */
  const errorsOf = (bench: WorldBench): number[] =>
    bench.lines.flatMap(({ nm, raw }) =>
      raw.map(({ shown, slip, zero, sign }) => sign * (shown - slip - zero) - bench.instrument.ordinate(nm)),
    );
  const root = (values: readonly number[]) =>
    Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

  it('scatter by the hand and by the step of the vernier', () => {
    // In units of what each bench should scatter by: setting and rounding, the misset (about half a minute) apart.
    const scaled = benchesOf("flint 5'", 300).flatMap((bench) => {
      const expected = Math.hypot(bench.hand.scatter, bench.instrument.leastCount / Math.sqrt(12));
      return errorsOf(bench).map((error) => error / expected);
    });
    expect(scaled.length).toBeGreaterThan(2000);
    expect(root(scaled)).toBeGreaterThan(0.9);
    expect(root(scaled)).toBeLessThan(1.15);
  });

  it('have hands from a fifth of a least count to several', () => {
    const counts = benchesOf("flint 5'", 300).map(
      ({ hand, instrument }) => hand.scatter / instrument.leastCount,
    );
    const sorted = counts.sort((a, b) => a - b);
    expect(sorted[150]).toBeGreaterThan(0.42);
    expect(sorted[150]).toBeLessThan(0.58);
    expect(sorted[0]).toBeGreaterThanOrEqual(hands.scatterCounts.from);
    expect(sorted.at(-1)).toBeGreaterThan(1.5);
  });

  it('have heavy tails: one setting in a hundred is 3.3 standard deviations off', () => {
    const random = new Random(3);
    const draws = Array.from({ length: 40_000 }, () => heavyTailed(random));
    expect(root(draws)).toBeGreaterThan(0.95);
    expect(root(draws)).toBeLessThan(1.06);
    // Student's t with 4 degrees of freedom: P(|t| > 4.604) = 0.01 (tables); in standard deviations 4.604/√2.
    const beyond = draws.filter((draw) => Math.abs(draw) > 4.604 / Math.SQRT2).length / draws.length;
    expect(beyond).toBeGreaterThan(0.0085);
    expect(beyond).toBeLessThan(0.0115);
  });

  it('have slips as often as the column says, where a slip changes anything', () => {
    for (const name of ['mixed, 3 % slips', 'mixed, 8 % slips']) {
      const clusters = benchesOf(name, 200).map(({ lines }) => {
        const raw = lines.flatMap((line) => line.raw);
        return { hits: raw.filter(({ slip }) => slip !== 0).length, trials: raw.length };
      });
      const { value, standardError } = clusteredProportion(clusters);
      // A seventh of them change nothing: digits alike, a vernier at its zero.
      const { slipChance } = column(name);
      expect(value).toBeGreaterThan(0.75 * slipChance - 3 * standardError);
      expect(value).toBeLessThan(slipChance + 3 * standardError);
      expect(value).toBeGreaterThan(0.5 * slipChance);
    }
    const clean = benchesOf("flint 1'", 50).flatMap(({ lines }) => lines.flatMap(({ raw }) => raw));
    expect(clean.every(({ slip }) => slip === 0)).toBe(true);
  });

  it('are as likely as the law of the oracle says: all numbers that can be shown sum to 1', () => {
    for (const [expected, scatter] of [
      [0.3, 0.4],
      [7.9, 2.5],
    ] as const) {
      const sum = Array.from({ length: 4001 }, (_, k) => chanceShown(k - 2000, expected, scatter, 1));
      expect(sum.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 6);
    }
  });
});

describe('the oracle', () => {
  it('names what a fine circle shows', () => {
    const benches = benchesOf("flint 1'", 12);
    const right = benches.filter((bench, k) => isAlike(askOracle(bench, k).substance, bench.tube.substance));
    expect(right.length).toBeGreaterThanOrEqual(9);
  });
});
