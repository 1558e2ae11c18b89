/**
 * The sizes of errors in prominence.ts against the data: how far two kinds of witness disagree on the same lines must be what
 * their errors say together. Levels, which no set of intensities knows, are taken off spectrum by spectrum.
 */
import { describe, expect, it } from 'vitest';
import { brightnessFile } from '../../src/lines/brightness-file.ts';
import { lineFile } from '../../src/lines/line-file.ts';
import {
  countsOf,
  errorSd,
  eyeVariance,
  type Level,
  type Line,
  type Observation,
  settledLines,
  type Weighed,
} from '../../src/lines/prominence.ts';
import { tubeFile } from '../../src/lines/tube-file.ts';
import { sumOf } from '../../src/numeric/sum.ts';

type Kind = Observation['kind'] | 'counts' | 'intensity';

const lines = settledLines(lineFile, tubeFile, brightnessFile);
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function witness(line: Line, kind: Kind): Weighed | null {
  if (kind === 'counts') return line.counts.some(({ isClipped }) => isClipped) ? null : countsOf(line);
  if (kind === 'intensity') {
    const { intensity } = line;
    return intensity && { ...intensity, value: intensity.value + (intensity.level?.value ?? 0) };
  }
  const own = line.observations.filter((each) => each.kind === kind);
  if (own.length === 0) return null;
  return {
    value: mean(own.map(({ value, level }) => value + (level?.value ?? 0))),
    variance: mean(own.map(({ variance }) => variance)) / own.length,
  };
}

/** Variance of the differences seen and as the errors say; degrees of freedom. */
function disagreement(a: Kind, b: Kind) {
  const bySet = new Map<string, { difference: number; variance: number }[]>();
  for (const line of lines) {
    const [one, other] = [witness(line, a), witness(line, b)];
    if (one === null || other === null) continue;
    const set = `${line.spectrum.spectrum} ${line.row.scale ?? ''}`;
    // Between two that were both measured the eye makes no difference.
    const eyes = [a, b].filter((kind) => kind === 'counts' || kind === 'intensity').length;
    const eye = eyes === 1 ? eyeVariance(line.row.nm) : 0;
    const pair = { difference: one.value - other.value, variance: one.variance + other.variance + eye };
    bySet.set(set, [...(bySet.get(set) ?? []), pair]);
  }
  let squares = 0;
  let freedom = 0;
  let expected = 0;
  for (const pairs of bySet.values()) {
    if (pairs.length < 3) continue;
    const level = mean(pairs.map(({ difference }) => difference));
    squares += pairs.reduce((sum, { difference }) => sum + (difference - level) ** 2, 0);
    freedom += pairs.length - 1;
    expected += (pairs.length - 1) * mean(pairs.map(({ variance }) => variance));
  }
  return { seen: squares / freedom, expected: expected / freedom, freedom };
}

/** Which lines people wrote down against what all else says of them, each set at its own level; χ² and degrees of freedom. */
function readsAgainstTheRest(weight: (line: Line) => number) {
  const withoutReads = settledLines(lineFile, tubeFile, { ...brightnessFile, reads: [] });
  const bySet = new Map<Level, { readonly apart: number; readonly weight: number }[]>();
  for (const [i, line] of lines.entries())
    for (const { kind, value, variance, level } of line.observations)
      if (kind === 'reads' && level !== null)
        bySet.set(level, [
          ...(bySet.get(level) ?? []),
          { apart: value - weight(withoutReads[i]!), weight: 1 / variance },
        ]);
  let chiSquared = 0;
  let freedom = 0;
  for (const set of bySet.values()) {
    const weights = sumOf(set, (each) => each.weight);
    const middle = sumOf(set, (each) => each.weight * each.apart) / weights;
    chiSquared += sumOf(set, (each) => each.weight * (each.apart - middle) ** 2);
    freedom += set.length - 1;
  }
  return { chiSquared, freedom };
}

describe('errors of prominence', () => {
  it('foretell which lines people write down, left out of what is foretold, better than grades held to', () => {
    const all = readsAgainstTheRest(({ value }) => value);
    const held = readsAgainstTheRest(({ held: value }) => value);
    expect(all.freedom).toBe(43);
    expect(all.chiSquared).toBeLessThan(1.2 * all.freedom);
    expect(held.chiSquared).toBeLessThan(1.4 * held.freedom);
  });

  it.each([
    ['memory', 'counts'],
    ['memory', 'intensity'],
    ['memory', 'reads'],
    ['memory', 'statement'],
    ['counts', 'reads'],
    ['counts', 'intensity'],
    ['reads', 'intensity'],
    ['reads', 'statement'],
  ] as const)('%s and %s disagree as much as their errors say, within a factor of two', (a, b) => {
    const { seen, expected, freedom } = disagreement(a, b);
    expect(freedom).toBeGreaterThanOrEqual(10);
    expect(seen / expected).toBeGreaterThan(0.5);
    expect(seen / expected).toBeLessThan(2);
  });

  it('laboratories differ from one another as their error says', () => {
    const several = lines.filter((line) => line.counts.filter(({ isClipped }) => !isClipped).length > 1);
    let squares = 0;
    let freedom = 0;
    for (const line of several) {
      const values = line.counts
        .filter(({ isClipped }) => !isClipped)
        .map(({ value, level }) => value + level.value);
      squares += values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0);
      freedom += values.length - 1;
    }
    expect(freedom).toBeGreaterThan(100);
    const seen = Math.sqrt(squares / freedom) / errorSd.laboratory;
    expect(seen).toBeGreaterThan(0.8);
    expect(seen).toBeLessThan(1.2);
  });
});
