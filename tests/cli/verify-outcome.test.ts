import { describe, expect, it } from 'vitest';
import type { Candidate } from '../../src/analysis/types.ts';
import { benchExpecting, verifyTube } from '../../src/analysis/verify.ts';
import type { Bench, UnknownTube } from '../../src/record/bench.ts';
import { analysis, bench, calibration, candidate, doubt, tube, tubeAnalysis } from './analysis-fixture.ts';

const check = (
  candidates: readonly Candidate[],
  expected: string,
  unknown: Partial<UnknownTube> = {},
  rest: Partial<Bench> = {},
) => {
  const analysed = tubeAnalysis(candidates);
  return verifyTube(
    analysis([analysed], { bench: bench({ tubes: [tube(unknown)], ...rest }) }),
    analysed,
    expected,
  );
};

const neon = [candidate('neon', 0.95), candidate('argon', 0.045), candidate('unlisted', 0.005)];

describe('the outcome', () => {
  it.each([
    [0.95, 'supported'],
    [0.9, 'supported'],
    [0.89, 'insufficient'],
    [0.011, 'insufficient'],
    [0.01, 'contradicted'],
    [0, 'contradicted'],
  ])('with probability %s is %s', (probability, outcome) => {
    const others = [candidate('argon', 1 - probability)];
    expect(check([candidate('neon', probability), ...others], 'neon').outcome).toBe(outcome);
  });

  it('counts what this bench cannot tell from the expected tube, and its mixtures', () => {
    const rows = [
      candidate('hydrogen', 0.6, { indistinguishable: ['deuterium', 'water vapour'] }),
      candidate('hydrogen', 0.35, { indistinguishable: ['deuterium', 'water vapour'], with: ['mercury'] }),
      candidate('unlisted', 0.05),
    ];
    expect(check(rows, 'deuterium')).toMatchObject({ outcome: 'supported', best: 'hydrogen' });
    expect(check(rows, 'deuterium').probability).toBeCloseTo(0.95, 12);
  });

  it('is insufficient without a ranking', () => {
    expect(check([], 'neon')).toMatchObject({ outcome: 'insufficient', probability: null, best: null });
  });
});

describe('the blame', () => {
  it('is empty for a clean bench, whatever the outcome', () => {
    for (const expected of ['neon', 'argon', 'unlisted']) expect(check(neon, expected).blame).toEqual([]);
    expect(
      check([candidate('neon', 1)], 'neon', { answer: { text: 'Ne', substance: 'neon' } }).blame,
    ).toEqual([]);
  });

  it('has the doubts of calibration and tube in the order of the work', () => {
    const analysed = tubeAnalysis(neon, { doubts: [doubt({ step: 'unknown', index: 3, kind: 'slip' })] });
    const { blame } = verifyTube(
      analysis([analysed], {
        calibration: calibration({
          doubts: [doubt({ step: 'central', index: null, kind: 'moved-central' })],
        }),
      }),
      analysed,
      'neon',
    );
    expect(blame.map(({ step, index, kind }) => [step, index, kind])).toEqual([
      ['central', null, 'moved-central'],
      ['unknown', 3, 'slip'],
    ]);
    expect(Object.keys(blame[0]!)).toEqual(['step', 'index', 'kind', 'message']);
  });

  it('is on too few readings where they do not suffice', () => {
    const rows = [candidate('neon', 0.5), candidate('argon', 0.5)];
    const few = tubeAnalysis(rows, { lines: tubeAnalysis(rows).lines.slice(0, 1) });
    const { blame } = verifyTube(analysis([few]), few, 'neon');
    expect(blame).toMatchObject([{ step: 'unknown', index: null, kind: 'too-few-lines' }]);
  });

  it('is on the known lamp, not on the tube, where there is no calibration', () => {
    const warnings = [{ code: 'too-few-known-lines', message: 'There are no known lines.' }];
    const bare = tubeAnalysis([]);
    const { outcome, blame } = verifyTube(
      analysis([bare], { calibration: calibration({ curve: null, warnings }) }),
      bare,
      'neon',
    );
    expect(outcome).toBe('insufficient');
    expect(blame).toEqual([
      { step: 'known', index: null, kind: 'too-few-known-lines', message: 'There are no known lines.' },
    ]);
  });

  it.each([
    [
      'a wrong conclusion from good data',
      neon,
      { text: 'argon', substance: 'argon' },
      'wrong-conclusion',
      false,
    ],
    ['an answer that is no tube', neon, { text: 'kryptonite', substance: null }, 'answer-not-a-tube', false],
    [
      'the key where the answer follows the readings',
      [candidate('argon', 0.999), candidate('neon', 0.001)],
      { text: 'Ar', substance: 'argon' },
      'answer-follows-readings',
      false,
    ],
    [
      'an answer that nothing supports',
      [candidate('neon', 0.5), candidate('argon', 0.5)],
      { text: 'helium', substance: 'helium' },
      'wrong-answer',
      false,
    ],
  ])('names %s', (_what, rows, answer, kind, agrees) => {
    const result = check(rows, 'neon', { answer });
    expect(result).toMatchObject({ answer: answer.text, answerAgrees: agrees });
    expect(result.blame).toMatchObject([{ step: 'answer', index: null, kind }]);
  });

  it('is on an answer given after the ranking only where the exercise keeps the ranking back', () => {
    const late = { answer: { text: 'neon', substance: 'neon' }, answerBeforeRanking: false };
    expect(check(neon, 'neon', late, { ranking: 'after-answer' }).blame).toMatchObject([
      { kind: 'answer-after-ranking' },
    ]);
    expect(check(neon, 'neon', late).blame).toEqual([]);
    expect(
      check(neon, 'neon', { ...late, answerBeforeRanking: true }, { ranking: 'after-answer' }).blame,
    ).toEqual([]);
  });
});

describe('the expected tube', () => {
  it('joins the shelf if it is not on it, and makes none', () => {
    const shelved = bench({ tubes: [tube({ shelf: ['helium'] }), tube({ index: 1 })] });
    const tubes = benchExpecting(shelved, () => 'neon').tubes;
    expect(tubes.map(({ shelf }) => shelf)).toEqual([['helium', 'neon'], null]);
  });
});
