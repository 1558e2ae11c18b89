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

  it('is on too few lines up to two of them, and on no line where none was read', () => {
    const rows = [candidate('neon', 0.5), candidate('argon', 0.5)];
    const messages = [0, 1, 2, 3].map((count) => {
      const few = tubeAnalysis(rows, { lines: tubeAnalysis(rows).lines.slice(0, count) });
      return verifyTube(analysis([few]), few, 'neon').blame.map(({ message }) => message);
    });
    expect(messages).toEqual([
      ['No line of tube 1 has been read.'],
      ['Only one line of tube 1 could be turned into a wavelength.'],
      ['Only 2 lines of tube 1 could be turned into a wavelength.'],
      [],
    ]);
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
    const kept = { ranking: 'after-answer' } as const;
    expect(check(neon, 'neon', { ...late, ...kept }).blame).toMatchObject([{ kind: 'answer-after-ranking' }]);
    expect(check(neon, 'neon', late).blame).toEqual([]);
    expect(check(neon, 'neon', late, kept).blame).toEqual([]);
    expect(check(neon, 'neon', { ...late, ...kept, answerBeforeRanking: true }).blame).toEqual([]);
  });
});

describe('the expected tube', () => {
  it('joins the shelf if it is not on it, and makes none', () => {
    const shelved = bench({ tubes: [tube({ shelf: ['helium'] }), tube({ index: 1 })] });
    const tubes = benchExpecting(shelved, () => 'neon').tubes;
    expect(tubes.map(({ shelf }) => shelf)).toEqual([['helium', 'neon'], null]);
  });
});

describe('the reason', () => {
  const look = { reading: "231°26'", wavelengthNm: 585.25, separates: ['neon', 'argon'] };
  const reasonOf = (
    candidates: readonly Candidate[],
    tubeParts: Parameters<typeof tubeAnalysis>[1] = {},
    rest: Parameters<typeof analysis>[1] = {},
  ) => {
    const analysed = tubeAnalysis(candidates, tubeParts);
    return verifyTube(analysis([analysed], rest), analysed, 'neon').reason;
  };
  const lookNext = { kind: 'undecided', substance: null, sentence: '', nextLook: look } as const;
  const fits = (count: number, parts: object = {}) =>
    Array.from({ length: count }, (_, index) => ({ ...neon[0]!.matches[0]!, index, ...parts }));
  const bad = doubt({ message: 'Known line 2 looks like 546.07. Read it again.' });
  const moved = doubt({ step: 'central', index: null, message: 'Was the bench moved? Read it again.' });
  const another = [candidate('argon', 0.995), candidate('neon', 0.005)];
  const rivals = [candidate('neon', 0.6), candidate('argon', 0.4)];
  const without = (code: string, message: string) => ({
    calibration: calibration({
      curve: null,
      warnings: [
        { code: 'lamp-name', message: 'X.' },
        { code, message },
      ],
    }),
  });

  it.each([
    ['support', reasonOf(neon), 'The readings support neon (95.0 %): 1 of 1 lie on its lines.'],
    [
      'support with slips',
      reasonOf([candidate('neon', 1, { matches: [...fits(3), ...fits(1, { index: 3, asRead: false })] })]),
      'The readings support neon (over 99.9 %): 4 of 4 lie on its lines, 1 of them only with a slip undone.',
    ],
    [
      'support beside another spectrum',
      reasonOf([
        candidate('neon', 1, {
          with: ['mercury'],
          matches: [...fits(3), ...fits(2, { index: 3, substance: 'mercury' })],
          unexplained: [5],
        }),
      ]),
      'The readings support neon (over 99.9 %): 3 of 6 lie on its lines and 2 on those of mercury.',
    ],
    [
      'support with a shift',
      reasonOf([candidate('neon', 1, { matches: fits(4, { asRead: false }) })]),
      'The readings support neon (over 99.9 %): 4 of 4 lie on its lines, once an error that all of them share is taken off.',
    ],
    [
      'another tube',
      reasonOf(another),
      'The readings are good and are those of argon (99.5 %), not of neon: check key and label.',
    ],
    [
      'another tube, from doubtful readings',
      reasonOf(another, {}, { calibration: calibration({ doubts: [bad] }) }),
      'The readings are those of argon (99.5 %), not of neon, but not all of them are sound: clear up known line 2 first.',
    ],
    [
      'no tube',
      reasonOf([candidate('unlisted', 0.995), candidate('neon', 0.005)]),
      'The readings do not fit neon (0.5 %), nor any other tube well: read the lines again, and the central image and the known lamp.',
    ],
    [
      'no tube, with a doubt',
      reasonOf([candidate('unlisted', 0.995), candidate('neon', 0.005)], { doubts: [moved] }),
      'The readings do not fit neon (0.5 %), nor any other tube well: clear up the central image first.',
    ],
    [
      'a poor fit with readings left over',
      reasonOf([candidate('neon', 0.99, { matches: fits(2), unexplained: [2, 3] })]),
      'Neon comes first (99.0 %), but 2 of 4 readings fit none of its lines: read again readings 3 and 4.',
    ],
    [
      'a poor fit with slips',
      reasonOf([candidate('neon', 0.99, { matches: [...fits(2), ...fits(2, { asRead: false })] })]),
      'Neon comes first (99.0 %), but 2 of 4 readings fit only with a slip undone: read again readings 1 and 2.',
    ],
    [
      'a poor fit all over',
      reasonOf([
        candidate('neon', 0.99, {
          matches: [...fits(2, { residualSigma: 4 }), { ...fits(1)[0]!, index: 2, residualSigma: -9 }],
        }),
      ]),
      'Neon comes first (99.0 %), but the readings lie further from its lines than their uncertainty allows: read again reading 3 first.',
    ],
    [
      'a rival, with a place to look at',
      reasonOf(rivals, { verdict: lookNext }),
      "Neon comes first (60.0 %), but argon is still possible (40.0 %): look at 231°26' (585.3 nm); a line there, or none, separates neon from argon.",
    ],
    [
      'a rival that leads, and nowhere to look',
      reasonOf([candidate('argon', 0.7), candidate('neon', 0.3)]),
      'Argon comes first (70.0 %), and neon is not excluded (30.0 %): read each line again, and those not yet read.',
    ],
    [
      'a bench that moved',
      reasonOf(rivals, { verdict: lookNext, doubts: [moved] }),
      'Neon comes first (60.0 %), but argon is still possible (40.0 %): clear up the central image first.',
    ],
    [
      'two readings',
      reasonOf(rivals, { lines: tubeAnalysis([]).lines.slice(0, 2), verdict: lookNext }),
      "Too few lines to name a tube: read more, the next at 231°26' (585.3 nm).",
    ],
    [
      'no reading',
      reasonOf([], { lines: [] }),
      'There is nothing to judge yet: read the brightest lines first.',
    ],
    [
      'no ranking',
      reasonOf([]),
      'The readings cannot be compared with neon: read each line again, and those not yet read.',
    ],
    [
      'no calibration',
      reasonOf([], {}, without('too-few-known-lines', 'There is one known line: two are needed. Read more.')),
      'No tube can be told without a calibration: clear up the known lamp first.',
    ],
    [
      'no calibration, and nobody says why',
      reasonOf([], {}, { calibration: calibration({ curve: null }) }),
      'No tube can be told without a calibration: clear up the known lamp first.',
    ],
  ])('is %s', (_what, reason, sentence) => {
    expect(reason).toBe(sentence);
  });
});
