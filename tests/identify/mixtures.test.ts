/** Two substances in one tube, and tubes that show bands. */
import { describe, expect, test } from 'vitest';
import { tubeNamed } from '../../src/lines/table.ts';
import { hydrogenNm, neonNm } from '../calibrate/glass-bench.ts';
import { probabilityOf, tubeWith } from './tube-bench.ts';

type Tube = ReturnType<typeof tubeWith>;

/** Probability of all rows that are a mixture of two substances out of these lists, either of them the main one. */
const mixtureProbability = (
  { candidates }: Tube,
  first: readonly string[],
  second: readonly string[],
): number =>
  candidates
    .filter(({ substance, with: [admixture] }) => {
      const pair = (a: readonly string[], b: readonly string[]) =>
        a.includes(substance) && admixture !== undefined && b.includes(admixture);
      return pair(first, second) || pair(second, first);
    })
    .reduce((sum, { probability }) => sum + probability, 0);

const heliumLinesNm = [706.52, 667.82, 587.56, 501.57, 492.19, 447.15];
const cadmiumNm = [643.85, 508.58, 479.99, 467.81];
const mercuryNm = [579.07, 576.96, 546.07, 435.83, 404.66];
const descending = (nm: readonly number[]): number[] => [...nm].sort((a, b) => b - a);

describe('mixtures', () => {
  const balmer = ['hydrogen', 'deuterium', 'water vapour'];

  test('a mercury-cadmium lamp is mercury with cadmium', () => {
    const tube = tubeWith(descending([...cadmiumNm, ...mercuryNm]));
    expect(mixtureProbability(tube, ['mercury'], ['cadmium'])).toBeGreaterThan(0.95);
    expect(tube.candidates[0]!.unexplained).toEqual([]);
    expect(tube.verdict.sentence).toMatch(/mainly/);
  });

  test('helium with three lines of hydrogen is helium with hydrogen', () => {
    const tube = tubeWith(descending([...heliumLinesNm, ...hydrogenNm.slice(0, 3)]));
    expect(mixtureProbability(tube, ['helium'], balmer)).toBeGreaterThan(0.95);
    expect(tube.candidates[0]!.unexplained).toEqual([]);
    // Nor is a row its own double, with an admixture or without.
    for (const { substance, indistinguishable } of tube.candidates)
      expect(indistinguishable).not.toContain(substance);
  });

  test('one line of hydrogen in a helium tube is a stray, not a mixture', () => {
    const tube = tubeWith(descending([...heliumLinesNm, 656.28]));
    expect(tube.candidates[0]).toMatchObject({
      substance: 'helium',
      with: [],
      unexplained: [expect.any(Number)],
    });
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'helium' });
  });

  test('a clean tube has no mixture beside it that matters', () => {
    for (const { with: admixtures, probability } of tubeWith(neonNm).candidates) {
      if (admixtures.length > 0) expect(probability).toBeLessThan(0.01);
    }
  });
});

describe('the gas that a metal lamp is started with', () => {
  /** Mercury with bright lines of argon (NIST SRD 108) read besides. */
  const rowsOf = (argonNm: readonly number[]) =>
    tubeWith(descending([...mercuryNm, ...argonNm])).candidates.filter(
      ({ substance, probability }) => substance === 'mercury' && probability > 0.01,
    );

  test('is part of the lamp where it does not show, a row of its own where it surely does, or both', () => {
    expect(rowsOf([]).map((row) => row.with)).toEqual([[]]);
    expect(rowsOf([696.54]).map((row) => row.with)).toEqual([[]]);
    expect(rowsOf([696.54, 706.72]).map((row) => row.with)).toEqual([['argon'], []]);
    const argonNm = [696.54, 706.72, 675.28, 603.21, 518.77, 451.07, 430.01, 420.07, 415.86];
    expect(rowsOf(argonNm).map((row) => row.with)).toEqual([['argon']]);
  });
});

describe('bands', () => {
  const heads = (substance: string) =>
    tubeNamed(substance)!.lines.filter(
      (line) =>
        line.kind === 'band-head' &&
        line.prominence > -1.5 &&
        line.wavelengthNm > 400 &&
        line.wavelengthNm < 680,
    );
  /** Set on the shaded side of the head, as a person does. */
  const read = (substance: string): number[] =>
    descending(
      heads(substance).map(({ wavelengthNm, degraded }) => wavelengthNm + (degraded === 'red' ? 0.5 : -0.5)),
    );

  test.each(['nitrogen', 'carbon dioxide'])('%s is identified by its band heads', (substance) => {
    const tube = tubeWith(read(substance));
    expect(heads(substance).length).toBeGreaterThan(3);
    expect(probabilityOf(tube, substance)).toBeGreaterThan(0.98);
  });

  test('heads are read better on their shaded side than on the other', () => {
    const other = descending(heads('nitrogen').map(({ wavelengthNm }) => wavelengthNm + 1.5));
    const evidence = (nm: readonly number[]): number =>
      tubeWith(nm).candidates.find((row) => row.substance === 'nitrogen')!.logEvidence;
    expect(evidence(read('nitrogen'))).toBeGreaterThan(evidence(other) + 3);
  });

  test('the bands of nitrogen do not swallow neon', () => {
    expect(probabilityOf(tubeWith(neonNm), 'nitrogen')).toBeLessThan(0.01);
  });
});
