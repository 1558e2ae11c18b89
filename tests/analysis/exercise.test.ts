/** What an exercise keeps back, and until when. */
import { expect, test } from 'vitest';
import { anyHeldBack, isHeldBack, withRankingHeldBack } from '../../src/analysis/exercise.ts';
import { analysis, bench, candidate, doubt, tube, tubeAnalysis } from '../cli/analysis-fixture.ts';

const answer = { text: 'neon', substance: 'neon' };

test.each([
  ['always', null, false],
  ['always', answer, false],
  ['after-answer', null, true],
  ['after-answer', answer, false],
] as const)('the ranking %s, answer %j: kept back is %s', (ranking, given, kept) =>
  expect(isHeldBack({ ranking, answer: given })).toBe(kept),
);

const first = tubeAnalysis([candidate('neon', 0.9)], { tubeIndex: 0, label: 'A' });
const second = tubeAnalysis([candidate('argon', 0.9)], {
  tubeIndex: 1,
  label: 'B',
  reasons: ['It has 587 nm.'],
});
const held = analysis([first, second], {
  bench: bench({
    tubes: [tube({ index: 0, label: 'A' }), tube({ index: 1, label: 'B', ranking: 'after-answer' })],
  }),
});

test('of the tube that waits for an answer only: candidates, reasons, the next look; not its wavelengths', () => {
  expect(anyHeldBack(held)).toBe(true);
  const { tubes } = withRankingHeldBack(held);
  expect(tubes[0]).toBe(first);
  expect(tubes[1]).toMatchObject({
    candidates: [],
    reasons: [],
    lines: second.lines,
    verdict: { kind: 'held-back', substance: null, nextLook: null },
  });
  expect(tubes[1]!.verdict.sentence).toContain('The possible tubes of B are kept back');
});

test('of its doubts the one that is told by the lines of the likeliest tube', () => {
  const kinds = ['room-light', 'slip'] as const;
  const doubts = kinds.map((kind) => doubt({ step: 'unknown', kind, message: `${kind}.` }));
  const { tubes } = withRankingHeldBack({
    ...held,
    tubes: [
      { ...first, doubts },
      { ...second, doubts },
    ],
  });
  expect(tubes.map((each) => each.doubts.map(({ kind }) => kind))).toEqual([[...kinds], ['slip']]);
});

test('of the warnings, those of the tube and their copies among those of the whole', () => {
  const [rounded, twice] = [
    { code: 'rounded-readings', message: 'Rounded.' },
    { code: 'read-twice', message: 'Readings 4 and 6 read alike.' },
  ];
  const { tubes, warnings } = withRankingHeldBack({
    ...held,
    tubes: [first, { ...second, warnings: [rounded!, twice!], readTwice: [3] }],
    warnings: [rounded!, twice!],
  });
  expect(tubes[1]!.warnings).toEqual([rounded]);
  expect(tubes[1]!.readTwice).toEqual([]);
  expect(warnings).toEqual([rounded]);
});

test('nothing, where no tube waits', () => {
  const open = {
    ...held,
    bench: bench({ tubes: [tube(), tube({ index: 1, ranking: 'after-answer', answer })] }),
  };
  expect(anyHeldBack(open)).toBe(false);
  expect(withRankingHeldBack(open)).toBe(open);
});
