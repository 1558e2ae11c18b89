/** Why the runner-up loses: the readings that tell two tubes apart, and the lines it lacks. */
import { describe, expect, test } from 'vitest';
import { reasonsAgainstRunnerUp } from '../../src/identify/findings/runner-up.ts';
import type { Candidate, MissingLine } from '../../src/identify/types.ts';
import { handCandidate, matchesOf } from './hand-made.ts';

const odds = (values: readonly number[]): Candidate['contributions'] =>
  values.map((logOdds, index) => ({ index, logOdds }));
const missing = (wavelengthNm: number): MissingLine => ({ wavelengthNm, chanceSeen: 0.9, brightest: false });
const first = (values: readonly number[]) =>
  handCandidate('neon', { matches: matchesOf([0.1, 0.2]), contributions: odds(values) });
const second = (values: readonly number[], missingNm: readonly number[] = []) =>
  handCandidate('argon', { contributions: odds(values), missing: missingNm.map(missing) });

describe('readings', () => {
  test('are told by what they gain, from 1.5 on, for the first or against it, the most telling first', () => {
    expect(reasonsAgainstRunnerUp([first([5, 5, 1, 5, 4]), second([3.49, 3.51, 4, -3, 4])])).toEqual([
      { what: 'reading', index: 3, logOdds: 8 },
      { what: 'reading', index: 0, logOdds: expect.closeTo(1.51, 12) },
      { what: 'reading', index: 2, logOdds: -3 },
    ]);
  });

  test('that the runner-up does not weigh tell nothing', () => {
    expect(reasonsAgainstRunnerUp([first([5, 9]), second([1])])).toEqual([
      { what: 'reading', index: 0, logOdds: 4 },
    ]);
  });
});

describe('lines that the runner-up lacks', () => {
  test('are told, three of them at most, but for those that the first has within a nanometre', () => {
    // The first is matched at 600 and 610 nm.
    const reasons = reasonsAgainstRunnerUp([first([]), second([], [600.99, 609.01, 598.9, 500, 450, 420])]);
    expect(reasons).toEqual([598.9, 500, 450].map((nm) => ({ what: 'missing', line: missing(nm) })));
  });

  test('are none where the first lacks them too', () => {
    const lead = { ...first([]), missing: [missing(500.4)] };
    expect(reasonsAgainstRunnerUp([lead, second([], [500, 450])])).toEqual([
      { what: 'missing', line: missing(450) },
    ]);
  });

  test('come after the readings, six reasons in all', () => {
    const reasons = reasonsAgainstRunnerUp([first([9, 8, 7, 6]), second([0, 0, 0, 0], [500, 450, 420])]);
    expect(reasons.map(({ what }) => what)).toEqual([
      'reading',
      'reading',
      'reading',
      'reading',
      'missing',
      'missing',
    ]);
  });
});

test('takes two tubes: one off the list is none, and a first that meets nothing has no reasons', () => {
  expect(reasonsAgainstRunnerUp([first([9]), handCandidate('unlisted')])).toEqual([]);
  expect(reasonsAgainstRunnerUp([handCandidate('unlisted'), first([9]), second([0])])).toHaveLength(1);
  expect(reasonsAgainstRunnerUp([first([9])])).toEqual([]);
  expect(reasonsAgainstRunnerUp([{ ...first([9]), matches: [] }, second([0])])).toEqual([]);
});
