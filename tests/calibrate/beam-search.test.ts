/** The search along the spectrum: its weights against the whole of a normal distribution, written out with matrices. */
import { determinant, Matrix, solve } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import {
  basisValues,
  idealLogs,
  type SearchOptions,
  searchExplanations,
} from '../../src/calibrate/assign/beam-search.ts';
import type { LineChoice } from '../../src/calibrate/assign/line-hypotheses.ts';
import type { KnownItem } from '../../src/calibrate/assign/transition-prior.ts';
import { prismBasis } from '../../src/calibrate/curve/basis.ts';
import type { Observation } from '../../src/observe/observation.ts';
import type { ReadingAlternative } from '../../src/observe/slip-hypotheses.ts';

/** Five constants, about a prism's: what they are does not matter here. */
const mean = [2900, 180, 5, 0.5, 0.1];
const sd = [30, 20, 3, 0.5, 0.2];
const prior = {
  mean: [...mean],
  covariance: sd.flatMap((s, row) => sd.map((_, column) => (row === column ? s * s : 0))),
};
const settingVariance = 0.6;
const resolutionVariance = 0.1;
const own = resolutionVariance + settingVariance;

const expectedAt = (nm: number): number => prismBasis.at(nm).reduce((sum, f, k) => sum + f * mean[k]!, 0);
const slopeAt = (nm: number): number => prismBasis.slopeAt(nm).reduce((sum, f, k) => sum + f * mean[k]!, 0);

const observation = (ordinate: number): Observation => ({
  ordinate,
  side: 1,
  parts: [],
  repeats: [ordinate],
  step: 1,
  resolutionVariance,
  settingShare: 1,
});
const stated = (wavelengthNm: number | null, more: Partial<LineChoice> = {}): LineChoice => ({
  kind: 'as-stated',
  wavelengthNm,
  wavelengthVariance: 0,
  slip: null,
  logPrior: -0.1,
  ...more,
});
const slip = (correction: number) => ({ correction }) as ReadingAlternative;
const item = (ordinate: number, ...choices: LineChoice[]): KnownItem => ({
  observation: observation(ordinate),
  choices,
  passedOver: () => 0,
});

const options: SearchOptions = {
  prior,
  settingVariance,
  wavelengthFalls: true,
  logStray: -Math.log(600),
  width: 20,
  valuesAt: basisValues(),
  rival: null,
};

/** ln density of these ordinates at these wavelengths, all at once: normal with the curve's covariance and `variances`. */
function evidence(nm: readonly number[], ordinates: readonly number[], variances: readonly number[]): number {
  const design = new Matrix(nm.map((each) => [...prismBasis.at(each)]));
  const covariance = design
    .mmul(Matrix.diag(sd.map((s) => s * s)))
    .mmul(design.transpose())
    .add(Matrix.diag([...variances]));
  const residual = Matrix.columnVector(ordinates.map((each, i) => each - expectedAt(nm[i]!)));
  const squares = residual.transpose().mmul(solve(covariance, residual)).get(0, 0);
  return -squares / 2 - Math.log(determinant(covariance)) / 2 - (nm.length / 2) * Math.log(2 * Math.PI);
}

const lines = [650, 588, 546, 436] as const;
const offs = [0.5, -1, 0.3, 0.9];
const ordinates = lines.map((nm, i) => expectedAt(nm) + offs[i]!);
/** ln density of these four lines, read so. */
const together = (read: readonly number[]): number =>
  evidence(
    lines,
    read,
    lines.map(() => own),
  );
/** In an order that is not that of the ordinates. */
const shuffled = [2, 0, 3, 1];

describe('an explanation', () => {
  test('weighs as much as its readings do together, in whatever order they are written down', () => {
    const [best, ...more] = searchExplanations(
      shuffled.map((i) => item(ordinates[i]!, stated(lines[i]!))),
      options,
    );
    expect(more).toEqual([]);
    expect(best!.logPrior).toBeCloseTo(-0.4, 12);
    expect(best!.log).toBeCloseTo(-0.4 + together(ordinates), 6);
    expect(best!.choices.map(({ wavelengthNm }) => wavelengthNm)).toEqual(shuffled.map((i) => lines[i]));
  });

  test('a wavelength that is itself uncertain adds its variance through the slope', () => {
    const [best] = searchExplanations(
      [item(ordinates[0]!, stated(lines[0], { wavelengthVariance: 0.25 }))],
      options,
    );
    const variance = own + 0.25 * slopeAt(lines[0]) ** 2;
    expect(best!.log).toBeCloseTo(-0.1 + evidence([lines[0]], [ordinates[0]!], [variance]), 9);
  });

  test('a misread line counts with what it was, each further one likelier; one set aside is a stray', () => {
    const [best] = searchExplanations(
      [
        item(ordinates[0]! - 17, stated(null, { kind: 'set-aside', logPrior: -6 })),
        item(ordinates[1]! + 60, stated(lines[1], { slip: slip(-60), logPrior: -5 })),
        item(ordinates[2]! - 30, stated(lines[2], { slip: slip(30), logPrior: -5 })),
        item(ordinates[3]!, stated(lines[3])),
      ],
      options,
    );
    const used = [1, 2, 3];
    const density = evidence(
      used.map((i) => lines[i]!),
      used.map((i) => ordinates[i]!),
      used.map(() => own),
    );
    expect(best!.logPrior).toBeCloseTo(-5 - 5 + Math.log(2) - 0.1 - 6, 12);
    expect(best!.log).toBeCloseTo(best!.logPrior + density - Math.log(600), 6);
  });
});

describe('of several choices', () => {
  const wrong = 577;
  const items = lines.map((nm, i) =>
    item(ordinates[i]!, stated(nm), ...(i === 1 ? [stated(wrong, { kind: 'neighbour', logPrior: -3 })] : [])),
  );

  test('all explanations are found, best first', () => {
    const near = items.with(
      1,
      item(ordinates[1]!, stated(lines[1]), stated(lines[1], { slip: slip(1), logPrior: -2 })),
    );
    const found = searchExplanations(near, options);
    expect(found).toHaveLength(2);
    expect(found[0]!.log).toBeGreaterThan(found[1]!.log);
    for (const { choices, log, logPrior } of found) {
      const read = ordinates.with(1, ordinates[1]! + (choices[1]!.slip?.correction ?? 0));
      expect(log).toBeCloseTo(logPrior + together(read), 6);
    }
    expect(searchExplanations(near, { ...options, width: 1 })).toEqual(found.slice(0, 1));
  });

  test('what lies too far behind is given up on the way', () => {
    const [best, ...others] = searchExplanations(items, options);
    expect(best!.choices[1]!.wavelengthNm).toBe(588);
    expect(others).toEqual([]);
    // Alike but for their chance: 24 behind in ln is the end, whichever comes first.
    for (const [behind, count] of [
      [23.9, 2],
      [24.1, 1],
    ] as const) {
      const likely = stated(lines[1]);
      const unlikely = stated(lines[1], { kind: 'set-aside', logPrior: -0.1 - behind });
      for (const choices of [
        [likely, unlikely],
        [unlikely, likely],
      ]) {
        const found = searchExplanations(items.with(1, item(ordinates[1]!, ...choices)), options);
        expect(found).toHaveLength(count);
        expect(found[0]!.choices[1]).toBe(likely);
        expect(
          searchExplanations(items.with(1, item(ordinates[1]!, ...choices)), { ...options, width: 1 }),
        ).toEqual(found.slice(0, 1));
      }
    }
  });

  test('the order of the lines is that of the ordinates: none is found twice or backwards', () => {
    const assigned = (i: number) => item(ordinates[i]!, stated(lines[i]!, { kind: 'assigned' }));
    const [best] = searchExplanations(shuffled.map(assigned), options);
    expect(best!.log).toBeCloseTo(-0.4 + together(ordinates), 6);
    const [backwards] = searchExplanations(shuffled.map(assigned), { ...options, wavelengthFalls: false });
    expect(backwards?.log ?? Number.NEGATIVE_INFINITY).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe('a rival', () => {
  const items = lines.map((nm, i) => item(ordinates[i]!, stated(nm)));
  // Shuffled here too: what is known of the curve grows in the order of the ordinates.
  const idealOf = (order: readonly number[]): number[] =>
    idealLogs(
      order.map((i) => ({ observation: items[i]!.observation, nm: lines[i]! })),
      options,
    );

  test('has the densities of readings that lie exactly where they are expected', () => {
    const ideal = idealOf([0, 1, 2, 3]);
    expect(shuffled.map((i) => ideal[i])).toEqual(idealOf(shuffled));
    const total = ideal.reduce((a, b) => a + b);
    expect(total).toBeCloseTo(together(lines.map(expectedAt)), 6);
    const log = (variance: number): number => -Math.log(2 * Math.PI * variance) / 2;
    const first = prismBasis.at(650).reduce((sum, f, k) => sum + (f * sd[k]!) ** 2, 0);
    expect(ideal[0]).toBeCloseTo(log(own + first), 9);
    const [nothing] = idealLogs([{ observation: observation(3000), nm: null }], options);
    expect(nothing).toBeCloseTo(log(own), 9);
  });

  test('ends a search that cannot come near it, and no other', () => {
    const ideal = idealOf([0, 1, 2, 3]);
    const [best] = searchExplanations(items, options);
    const near = { ...options, rival: { worthLog: best!.log - 0.001, ideal } };
    expect(searchExplanations(items, near)).toEqual([best]);
    const far = { ...options, rival: { worthLog: best!.log + 0.001, ideal } };
    expect(searchExplanations(items, far)).toEqual([]);
  });
});
