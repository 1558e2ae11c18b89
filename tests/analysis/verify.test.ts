/** The instructor's check of one tube: which row is best, what the expected one has, what is counted. */
import { expect, test } from 'vitest';
import { expectedRow, missingCheck, verifyTube } from '../../src/analysis/verify.ts';
import { analysis, bench, calibration, candidate, tube, tubeAnalysis } from '../cli/analysis-fixture.ts';

const rows = [
  candidate('argon', 0.6),
  candidate('neon', 0.3, { indistinguishable: ['xenon'] }),
  candidate('neon', 0.1, { with: ['helium'] }),
];
const analysed = tubeAnalysis(rows);

test('the best tube is the first of the ranking, the row of the expected one the likeliest that stands for it', () => {
  const check = verifyTube(analysis([analysed]), analysed, 'xenon');
  expect(check).toMatchObject({ best: 'argon', probability: 0.3, tube: 'tube 1', expected: 'xenon' });
  expect(verifyTube(analysis([analysed]), analysed, 'neon').probability).toBeCloseTo(0.4, 12);
  expect(expectedRow(analysed, 'neon')).toBe(rows[1]);
  expect(expectedRow(analysed, 'krypton')).toBeNull();
});

test('the slips of known lines and of this tube are counted, and its lines', () => {
  const slips = (statuses: readonly string[]) => statuses.map((status, index) => ({ index, status }));
  const lines = analysed.lines.map((line, i) => (i < 2 ? { ...line, status: 'slip' as const } : line));
  const known = slips(['used', 'slip', 'set-aside']) as never;
  const misread = { ...analysed, lines };
  expect(
    verifyTube(analysis([misread], { calibration: calibration({ lines: known }) }), misread, 'neon'),
  ).toMatchObject({
    slips: 3,
    lines: 4,
  });
});

test('who was at work, where and when, as far as the record says', () => {
  const of = (about: Record<string, string | readonly string[]>) =>
    verifyTube(analysis([analysed], { bench: bench({ about }) }), analysed, 'neon');
  expect(of({ observers: ['Ada', ' ', 'Ben'], station: '4', date: '2026-03-02' })).toMatchObject({
    observers: ['Ada', 'Ben'],
    station: '4',
    date: '2026-03-02',
  });
  expect(of({ station: ['4', 'north'] })).toMatchObject({ observers: [], station: '4, north', date: null });
});

test.each([
  ['neon', 'neon', true],
  ['xenon', 'neon', true],
  ['argon', 'neon', false],
  ['krypton', 'krypton', true],
])('the answer %s where %s is expected agrees: %s', (substance, expected, isRight) => {
  const told = bench({
    tubes: [tube({ answer: { text: substance, substance }, answerBeforeRanking: true })],
  });
  expect(verifyTube(analysis([analysed], { bench: told }), analysed, expected)).toMatchObject({
    answer: substance,
    answerAgrees: isRight,
    answerBeforeRanking: true,
  });
});

test('an expected tube that is not on the shelf of the record is told, whatever the outcome', () => {
  const blamed = (shelf: readonly string[] | null) =>
    verifyTube(analysis([analysed]), analysed, 'neon', shelf).blame.filter(
      ({ kind }) => kind === 'expected-not-on-shelf',
    );
  expect(blamed(['argon', 'helium'])).toMatchObject([
    { step: 'answer', index: null, message: expect.stringContaining('expected neon is not on the shelf') },
  ]);
  expect(blamed(['argon', 'neon'])).toEqual([]);
  expect(blamed(null)).toEqual([]);
});

test('what was not handed in is missing: a record, or a tube of one', () => {
  expect(missingCheck('neon', 'tube C', true).reason).toContain('The key expects tube C in this record');
  for (const [label, handedIn] of [
    ['tube C', false],
    ['', true],
  ] as const)
    expect(missingCheck('neon', label, handedIn)).toMatchObject({
      outcome: 'missing',
      probability: null,
      lines: 0,
      slips: 0,
      reason: 'The key expects this record, and it is not among those that were checked.',
    });
});

test('known lines that scatter are blamed as a whole, besides whatever the outcome is', () => {
  const warnings = [{ code: 'large-scatter', message: 'They scatter.' }];
  const blameOf = (of: ReturnType<typeof calibration>) =>
    verifyTube(analysis([analysed], { calibration: of }), analysed, 'neon').blame;
  const told = { step: 'known', index: null, kind: 'large-scatter', message: 'They scatter.' };
  expect(blameOf(calibration({ warnings }))).toContainEqual(told);
  expect(blameOf(calibration({ warnings: [] }))).not.toContainEqual(told);
});
