/** From a ranking to a verdict, on both sides of every bound. */
import { describe, expect, test } from 'vitest';
import { verdict } from '../../src/identify/findings/verdict.ts';
import type { NextLook } from '../../src/identify/types.ts';
import { handCandidate, matchesOf } from './hand-made.ts';

const look: NextLook = { reading: "231°26'", wavelengthNm: 603, separates: ['neon', 'argon'] };
const row = (probability: number, substance = 'neon', sigmas = [0.1, 0.2, 0.3, 0.4, 0.5]) =>
  handCandidate(substance, { probability, matches: matchesOf(sigmas) });

test('nothing is said without a row', () => {
  expect(verdict([], () => look)).toEqual({
    kind: 'undecided',
    substance: null,
    heldBackBy: null,
    nextLook: null,
  });
});

describe('a tube', () => {
  test.each([
    [0.99, { kind: 'identified', substance: 'neon', heldBackBy: null, nextLook: null }],
    [0.9899, { kind: 'undecided', substance: null, heldBackBy: null, nextLook: look }],
  ])('of probability %d', (probability, expected) => {
    expect(verdict([row(probability)], () => look)).toEqual(expected);
  });

  test('that is sure is held back by a fit that is none, and no look is asked for in vain', () => {
    const bad = row(0.999, 'neon', [3, -3, 3, -3, 3]);
    expect(verdict([bad], () => look)).toEqual({
      kind: 'undecided',
      substance: null,
      heldBackBy: 'fit',
      nextLook: look,
    });
    expect(verdict([row(0.999)], () => expect.unreachable())).toMatchObject({ kind: 'identified' });
  });

  test('with all readings shifted takes five readings where no central reading says so', () => {
    const four = row(0.999, 'neon', [0.1, 0.2, 0.3, 0.4]);
    expect(verdict([four], () => look, true)).toEqual({
      kind: 'undecided',
      substance: null,
      heldBackBy: 'shift',
      nextLook: look,
    });
    expect(verdict([row(0.999)], () => look, true).kind).toBe('identified');
    expect(verdict([four], () => look).kind).toBe('identified');
  });
});

test.each([
  [0.9, 'unlisted'],
  [0.8999, 'undecided'],
  [0.995, 'unlisted'],
])('a tube off the list of probability %d is %s, and what to look at is told', (probability, kind) => {
  expect(verdict([row(probability, 'unlisted')], () => look)).toEqual({
    kind,
    substance: null,
    heldBackBy: null,
    nextLook: look,
  });
});
