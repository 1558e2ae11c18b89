/** Slips in a tube's readings: which are found, what they weigh, and which are never put together. */
import { describe, expect, test } from 'vitest';
import { NEGLIGIBLE_SLIPS } from '../../src/identify/assumptions.ts';
import { candidateEvidence } from '../../src/identify/evidence/candidate-evidence.ts';
import { slipEvidence } from '../../src/identify/evidence/slip-search.ts';
import { tubeNamed } from '../../src/lines/table.ts';
import { logSum } from '../../src/numeric/log-sum.ts';
import { heliumNm, recordOf } from '../calibrate/glass-bench.ts';
import { evidenceOf } from './evidence-bench.ts';
import { reader } from './tube-bench.ts';

const helium = tubeNamed('helium')!;
/** Helium, some of its readings misread by so many arc-minutes; `behind`: by how much, in ln, another tube leads. */
const read = (slips: Readonly<Record<number, number>>, behind = 0) => {
  const lines = heliumNm.map((nm, i) => ({ readings: [reader.line(nm, slips[i] ?? 0)] }));
  const { evidence } = evidenceOf(recordOf(reader, { unknown: { lines } }));
  const plain = candidateEvidence(helium, evidence);
  return { evidence, plain, found: slipEvidence(helium, evidence, plain, plain.log + behind) };
};
type Found = ReturnType<typeof read>['found'];
const correctionsOf = ({ slips }: Found['hypotheses'][number]) =>
  Object.fromEntries([...slips].map(([index, { correction }]) => [index, Math.round(correction)]));

describe('slips in the readings', () => {
  test('of readings without any none is found', () => {
    const { plain, found } = read({});
    expect(found).toEqual({ log: plain.log, hypotheses: [] });
  });

  test.each([
    [{ 3: 30 }, { 3: -30 }],
    [
      { 1: 30, 3: 30 },
      { 1: -30, 3: -30 },
    ],
  ])('%j: undone, and likeliest', (made, undone) => {
    const { plain, found } = read(made);
    const likely = found.hypotheses.find((hypothesis) => hypothesis.slips.size === Object.keys(made).length)!;
    expect(correctionsOf(likely)).toEqual(undone);
    expect(likely.log).toBeGreaterThan(plain.log + 5);
  });

  test.each([
    [{ 3: 30 }],
    [{ 3: 30, 7: -30 }],
    [{ 1: 30, 3: 30, 7: -60 }],
    [{ 1: 30, 3: 30, 5: -30, 7: -60 }],
  ])(
    '%j: one slip a reading at the most, each further one likelier, every set once, all of them in the sum',
    (made) => {
      const { evidence, plain, found } = read(made);
      const { hypotheses } = found;
      expect(hypotheses.length).toBeGreaterThan(2);
      expect(new Set(hypotheses.map((each) => JSON.stringify(correctionsOf(each)))).size).toBe(
        hypotheses.length,
      );
      for (const { slips, logPrior, log, evidence: corrected, found: there } of hypotheses) {
        const odds = [...slips.values()].reduce((sum, { logOdds }) => sum + logOdds, 0);
        const further = [...slips.keys()].reduce((sum, _, made) => sum + Math.log(made + 1), 0);
        expect(logPrior).toBeCloseTo(odds + further, 9);
        // One view and one resolution: what is gained is all there is.
        expect(log).toBeCloseTo(there.log + logPrior, 9);
        expect(log).toBeGreaterThan(plain.log + NEGLIGIBLE_SLIPS);
        const moved = corrected.readings.filter(({ line, ordinate }) => {
          const before = evidence.readings.find((each) => each.line === line)!.ordinate;
          return Math.abs(ordinate - before) > 1e-9;
        });
        expect(moved.map(({ line }) => line.index).sort()).toEqual([...slips.keys()].sort());
      }
      const logs = hypotheses.map(({ log }) => log);
      expect(logs).toEqual([...logs].sort((a, b) => b - a));
      expect(found.log).toBeCloseTo(logSum([plain.log, ...logs]), 9);
    },
  );

  test('are not looked for in a tube that is beaten with them or without', () => {
    expect(read({ 3: 30 }, 12).found.hypotheses.length).toBeGreaterThan(0);
    const { plain, found } = read({ 3: 30 }, 13.1);
    expect(found).toEqual({ log: plain.log, hypotheses: [] });
  });
});
