/** Tubes that a bench cannot tell apart, on lines placed by hand. */
import { describe, expect, test } from 'vitest';
import { ALIKE_PLACE, ALIKE_PROMINENCE, FAINTEST_OF_A_LOOK } from '../../src/identify/assumptions.ts';
import { indistinguishableGroups } from '../../src/identify/rank/indistinguishable.ts';
import type { LineOnCurve } from '../../src/identify/spectrum/expected-lines.ts';
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';

type Lines = readonly (readonly [ordinate: number, prominence?: number, expected?: boolean])[];
const u = 0.5;

/** The groups, by the tubes' names; lines closer than 1 are read as one. */
const groupsOf = (tubes: Readonly<Record<string, Lines>>): string[][] => {
  const candidates = Object.keys(tubes).map((substance) => ({ substance }) as TubeSpectrum);
  const linesOf = ({ substance }: TubeSpectrum): LineOnCurve[] =>
    tubes[substance]!.map(([ordinate, prominence = 0, expected = true]) => ({
      wavelengthNm: 500,
      members: [],
      readAtNm: 500,
      ordinate,
      ownVariance: 0,
      prominence,
      prominenceSd: 1,
      strengthSd: 0,
      component: 0,
      expected,
    }));
  return indistinguishableGroups(candidates, linesOf, u, 1).map((group) =>
    group.map(({ substance }) => substance),
  );
};

describe('tubes are alike', () => {
  const place = ALIKE_PLACE * u;

  test('where each line of one has one of the other at its place, as bright as it', () => {
    expect(groupsOf({ a: [[10], [20]], b: [[10 + 0.99 * place], [20]] })).toEqual([['a', 'b']]);
    expect(groupsOf({ a: [[10], [20]], b: [[10 + 1.01 * place], [20]] })).toEqual([['a'], ['b']]);
    expect(groupsOf({ a: [[10, 0.5]], b: [[10, 0.51 - ALIKE_PROMINENCE]] })).toEqual([['a', 'b']]);
    expect(groupsOf({ a: [[10, 0.5]], b: [[10, 0.49 - ALIKE_PROMINENCE]] })).toEqual([['a'], ['b']]);
  });

  test('and the other way round: a line more tells them apart', () => {
    expect(groupsOf({ a: [[10]], b: [[10], [20]] })).toEqual([['a'], ['b']]);
    expect(groupsOf({ a: [[10], [20]], b: [[10]] })).toEqual([['a'], ['b']]);
  });

  test('whatever faint or optional lines there are besides', () => {
    const faint = [30, FAINTEST_OF_A_LOOK - 0.01] as const;
    const seen = [30, FAINTEST_OF_A_LOOK + 0.01] as const;
    expect(groupsOf({ a: [[10]], b: [[10], faint] })).toEqual([['a', 'b']]);
    expect(groupsOf({ a: [[10]], b: [[10], seen] })).toEqual([['a'], ['b']]);
    expect(groupsOf({ a: [[10]], b: [[10], [30, 0, false]] })).toEqual([['a', 'b']]);
  });

  test('through any one of the group, in the order given; a tube without lines is like none', () => {
    const step = 0.8 * place;
    expect(
      groupsOf({ a: [[10]], x: [[50]], b: [[10 + step]], y: [[50]], c: [[10 + 2 * step]], none: [], no: [] }),
    ).toEqual([['a', 'b', 'c'], ['x', 'y'], ['none'], ['no']]);
  });

  test('as far as lines are parted: two read as one are one of both', () => {
    expect(groupsOf({ a: [[10], [10.9]], b: [[10.45, Math.log(2)]] })).toEqual([['a', 'b']]);
    expect(groupsOf({ a: [[10], [11.3]], b: [[10.65, Math.log(2)]] })).toEqual([['a'], ['b']]);
  });
});
