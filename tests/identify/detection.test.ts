import { describe, expect, it } from 'vitest';
import {
  boundedLooking,
  ChanceTable,
  chanceSeen,
  chanceSeenLooking,
  visibilityClass,
  waysOfLooking,
} from '../../src/identify/spectrum/detection.ts';
import { strengthNodes } from '../../src/identify/spectrum/strengths.ts';
import { normalCdf } from '../../src/numeric/normal.ts';

const looking = { ...waysOfLooking(false, 5)[2]!.looking, limit: -2, overlooked: 0, surprise: 0 };

describe('the chance that a line is seen', () => {
  it.each([
    [-1, 0.3],
    [-2.5, 0.8],
    [-3.5, 1.2],
    [0, 0.2],
  ])('at prominence %f ± %f is the mean over what the prominence may be', (prominence, prominenceSd) => {
    const nodes = Array.from({ length: 801 }, (_, k) => -4 + k / 100);
    const weights = nodes.map((z) => Math.exp(-0.5 * z * z));
    const sum = nodes.reduce(
      (total, z, k) =>
        total + weights[k]! * normalCdf((prominence + z * prominenceSd - looking.limit) / looking.scatter),
      0,
    );
    const mean = sum / weights.reduce((a, b) => a + b, 0);
    expect(chanceSeen({ prominence, prominenceSd }, looking)).toBeCloseTo(mean, 3);
  });

  it('a line of which little is known decides less, whether it is seen or not', () => {
    const known = { prominence: 0, prominenceSd: 0.2 };
    const guessed = { prominence: 0, prominenceSd: 1.2 };
    expect(chanceSeen(known, looking)).toBeGreaterThan(chanceSeen(guessed, looking) + 0.05);
    expect(chanceSeenLooking(known, -2)).toBeGreaterThan(chanceSeenLooking(guessed, -2));
    const faint = { prominence: -3.8, prominenceSd: 0.2 };
    expect(chanceSeen({ ...faint, prominenceSd: 1.2 }, looking)).toBeGreaterThan(
      2 * chanceSeen(faint, looking),
    );
  });

  it('the table of classes gives the chance of the line within a rounding of its class', () => {
    const table = new ChanceTable(looking);
    for (const prominence of [-5.9, -3.21, -1.3, 0.4])
      for (const prominenceSd of [0, 0.17, 0.62, 1.3]) {
        const line = { prominence, prominenceSd };
        const odds = table.oddsOf(visibilityClass(prominence, prominenceSd));
        expect(odds / (1 + odds)).toBeCloseTo(chanceSeen(line, looking), 1);
      }
  });
});

describe('a list that stops at about a dozen', () => {
  const bounded = waysOfLooking(false, 5).find(
    ({ looking: { atMost, brightFirst } }) => atMost < 20 && brightFirst,
  )!.looking;

  it('leaves a tube of few lines as it is', () => {
    expect(boundedLooking(bounded, bounded.atMost)).toBe(bounded);
    expect(boundedLooking(bounded, 3)).toBe(bounded);
  });

  it.each([15, 25, 40, 80])('of %i lines at the limit about as many as it has room for', (expected) => {
    const { share } = boundedLooking(bounded, expected);
    expect(expected * share).toBeLessThanOrEqual(Math.max(bounded.atMost, 0.1 * expected) + 1e-9);
    expect(expected * share).toBeGreaterThan(0.7 * bounded.atMost);
  });

  it('passes over a bright line more rarely than a faint one, and a fainter one not more often than that', () => {
    const { limit } = bounded;
    const looking = boundedLooking(bounded, 40);
    const written = (above: number) => {
      const line = { prominence: limit + above, prominenceSd: 0.3 };
      return chanceSeen(line, looking) / chanceSeen(line, bounded);
    };
    expect(written(0)).toBeLessThan(0.25);
    expect(written(3)).toBeGreaterThan(2 * written(0));
    expect(written(-0.5)).toBeCloseTo(written(-0.2), 1);
  });
});

describe('strengths of components', () => {
  const atom = { name: 'atom', strengthSd: 0 };
  const moments = (components: { name: string; strengthSd: number }[]) => {
    const nodes = strengthNodes(
      components,
      components.map(() => -1),
    );
    const weights = nodes.map(({ logWeight }) => Math.exp(logWeight));
    const mean = (f: (gains: readonly number[]) => number) =>
      nodes.reduce((sum, { gains }, k) => sum + weights[k]! * f(gains), 0);
    return { nodes, total: weights.reduce((a, b) => a + b, 0), mean };
  };

  it.each([1, 2, 3])('keep mean, variance and independence of %i components', (count) => {
    const free = Array.from({ length: count }, (_, k) => ({ name: `c${k}`, strengthSd: 0.5 + k / 2 }));
    const { nodes, total, mean } = moments([atom, ...free]);
    expect(nodes).toHaveLength(2 * count + 1);
    expect(nodes[0]!.gains.every((gain) => gain === 0)).toBe(true);
    expect(total).toBeCloseTo(1, 12);
    expect(mean((gains) => gains[0]! ** 2)).toBe(0);
    free.forEach(({ strengthSd }, k) => {
      expect(mean((gains) => gains[k + 1]!)).toBeCloseTo(0, 12);
      expect(mean((gains) => gains[k + 1]! ** 2)).toBeCloseTo(strengthSd ** 2, 12);
    });
    if (count > 1) expect(mean((gains) => gains[1]! * gains[2]!)).toBeCloseTo(0, 12);
  });

  it('a component that is never seen, and one more than are followed, has no strength of its own', () => {
    const ion = { name: 'ion', strengthSd: 1 };
    expect(strengthNodes([atom, ion], [0, -4.51])).toHaveLength(1);
    expect(strengthNodes([atom, ion], [0, -4.49])).toHaveLength(3);
    const many = Array.from({ length: 5 }, (_, k) => ({ name: `c${k}`, strengthSd: 1 }));
    const nodes = strengthNodes(many, [-3, -1, -2, -1.5, -4]);
    expect(nodes).toHaveLength(7);
    for (const { gains } of nodes) expect([gains[0], gains[4]]).toEqual([0, 0]);
  });
});

describe('a list that is not done', () => {
  const waysOf = (readings: number) =>
    waysOfLooking(false, readings).filter(({ looking }) => !looking.brightFirst);
  const chanceOf = (readings: number) => waysOf(readings).reduce((sum, { weight }) => sum + weight, 0);

  it('is likely of one line, and the less the more there are', () => {
    expect(chanceOf(1)).toBeCloseTo(0.6 / 1.6, 9);
    expect(chanceOf(3)).toBeCloseTo(0.6 / 9 / (1 + 0.6 / 9), 9);
    expect(chanceOf(12)).toBeLessThan(0.005);
    for (const readings of [1, 4, 500]) {
      const all = waysOfLooking(false, readings).reduce((sum, { weight }) => sum + weight, 0);
      expect(all).toBeCloseTo(1, 12);
    }
    expect(waysOfLooking(true, 1).every(({ looking }) => looking.brightFirst)).toBe(true);
  });

  it('has as many of the lines that would be seen as there are readings, bright or not', () => {
    const { looking } = waysOf(3)[1]!;
    const begun = boundedLooking(looking, 12);
    expect(begun.share).toBeCloseTo(0.25, 1);
    for (const above of [0, 2, 4]) {
      const line = { prominence: looking.limit + above, prominenceSd: 0.2 };
      expect(chanceSeen(line, begun) / chanceSeen(line, looking)).toBeCloseTo(begun.share, 1);
    }
    expect(boundedLooking(looking, 3)).toBe(looking);
  });
});
