/** Mixed spectral lamps as tubes: on a shelf, in a key, among the answers. Lines: NIST SRD 108. */
import { describe, expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { benchExpecting, verifyTube } from '../../src/analysis/verify.ts';
import { benchOf, mercuryNm, neonNm, recordOf, unknownTube } from '../calibrate/glass-bench.ts';
import { probabilityOf, reader, tubeWith } from './tube-bench.ts';

const cadmiumNm = [643.85, 508.58, 479.99, 467.81];
const zincNm = [636.23, 481.05, 472.22, 468.01];
const read = (...lines: (readonly number[])[]): number[] => lines.flat().sort((a, b) => b - a);
const bright = mercuryNm.filter((nm) => ![690.75, 623.44, 491.61].includes(nm));

/** What `verify` says of a tube with these lines. */
const verified = (lines: readonly number[], expected: string, more: Record<string, unknown> = {}) => {
  const bench = benchExpecting(
    benchOf(recordOf(reader, { unknown: unknownTube(reader, lines, more) })),
    () => expected,
  );
  const analysis = analyseBench(bench);
  return verifyTube(analysis, analysis.tubes[0]!, expected);
};

describe('a mixed lamp on the shelf', () => {
  const shelf = ['mercury', 'cadmium', 'zinc', 'HgCd', 'mercury cadmium zinc'];

  test('is a candidate of its own, whose matches say whose line each is', () => {
    const tube = tubeWith(read(cadmiumNm, bright), { shelf: ['mercury', 'cadmium', 'zinc', 'HgCd'] });
    expect(probabilityOf(tube, 'mercury-cadmium')).toBeGreaterThan(0.99);
    expect(tube.verdict).toMatchObject({ kind: 'identified', substance: 'mercury-cadmium' });
    const [first] = tube.candidates;
    expect(first).toMatchObject({ with: [], unexplained: [], symbol: 'Hg-Cd' });
    const owners = first!.matches.map(({ wavelengthNm, substance }) => [Math.round(wavelengthNm), substance]);
    expect(owners).toContainEqual([644, 'cadmium']);
    expect(owners).toContainEqual([546, 'mercury']);
    // As two gases in one tube it is not told a second time.
    expect(tube.candidates.filter((row) => row.with.includes('cadmium'))).toEqual([]);
  });

  test.each([
    ['mercury', read(mercuryNm)],
    ['cadmium', read(cadmiumNm)],
    ['mercury-cadmium', read(cadmiumNm, bright)],
    ['mercury-zinc-cadmium', read(cadmiumNm, zincNm, bright)],
  ])('is told from %s', (substance, lines) => {
    expect(probabilityOf(tubeWith(lines, { shelf }), substance)).toBeGreaterThan(0.85);
  });

  test('may show its starting gas besides', () => {
    const argonNm = [696.54, 706.72];
    const tube = tubeWith(read(cadmiumNm, bright, argonNm), { shelf: ['mercury', 'cadmium', 'HgCd'] });
    expect(tube.candidates[0]!.substance).toBe('mercury-cadmium');
  });

  test('is not weighed a second time as its metal with the gas that starts it', () => {
    const lines = read(bright, [696.54, 706.72]);
    const pairs = (shelf: readonly string[]) =>
      tubeWith(lines, { shelf }).candidates.filter(
        ({ substance, with: rest }) => substance === 'mercury' && rest.includes('argon'),
      );
    // Without the lamp on the shelf it is told as that: the pair is there to be found.
    expect(pairs(['mercury', 'cadmium', 'argon']).length).toBe(1);
    expect(pairs(['mercury', 'cadmium', 'argon', 'mercury-argon'])).toEqual([]);
  });

  test('without a shelf it is told as two gases', () => {
    const { candidates } = tubeWith(read(cadmiumNm, bright));
    expect(candidates.filter(({ substance }) => substance.includes('-'))).toEqual([]);
    expect([candidates[0]!.substance, ...candidates[0]!.with].sort()).toEqual(['cadmium', 'mercury']);
  });
});

describe('a mixed lamp that is expected', () => {
  test.each([
    ['on no shelf', {}],
    ['on a shelf without it', { shelf: ['mercury', 'cadmium', 'neon'] }],
  ])('is supported by its lines, %s', (_, more) => {
    expect(verified(read(cadmiumNm, bright), 'mercury-cadmium', more)).toMatchObject({
      outcome: 'supported',
      answerAgrees: null,
    });
  });

  test('of three metals too', () => {
    expect(verified(read(cadmiumNm, zincNm, bright), 'mercury-zinc-cadmium').outcome).toBe('supported');
  });

  test.each([
    ['mercury alone', read(mercuryNm)],
    ['neon', read(neonNm)],
  ])('is not supported by %s', (_, lines) => {
    expect(verified(lines, 'mercury-cadmium').outcome).not.toBe('supported');
  });

  test('is answered by any of its names', () => {
    const lines = read(cadmiumNm, bright);
    for (const answer of ['Hg + Cd', 'cadmium-mercury lamp', 'HgCd'])
      expect(verified(lines, 'mercury-cadmium', { answer }).answerAgrees).toBe(true);
    expect(verified(lines, 'mercury-cadmium', { answer: 'mercury' }).answerAgrees).toBe(false);
  });

  test('is no right answer where one of its metals is expected', () => {
    const lines = read(cadmiumNm, bright);
    expect(verified(lines, 'cadmium', { answer: 'mercury and cadmium' }).answerAgrees).toBe(false);
    expect(verified(lines, 'cadmium', { answer: 'cadmium' }).answerAgrees).toBe(true);
  });
});
