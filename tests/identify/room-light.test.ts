/** Readings left over that are the light of lamps in the room: which, from where on, and beside which tubes. */
import { describe, expect, test } from 'vitest';
import { roomLightFindings } from '../../src/identify/findings/room-light.ts';
import type { Candidate, TubeLine } from '../../src/identify/types.ts';

const lead = (substance: string, unexplained: readonly number[], more: object = {}): Candidate =>
  ({
    substance,
    symbol: substance,
    with: [],
    indistinguishable: [],
    probability: 0.9,
    matches: [{}, {}, {}],
    unexplained,
    ...more,
  }) as unknown as Candidate;
const line = (index: number, wavelengthNm: number | null, standardUncertaintyNm = 0.6, correctedNm = null) =>
  ({ index, wavelengthNm, standardUncertaintyNm, correctedNm }) as unknown as TubeLine;

// Of the table: phosphors 487.7, 543.0, 611.5; mercury 435.83, 546.07, 578.0; sodium 589.3.
const lines = [line(0, 488), line(1, 543.9), line(2, 589.9), line(3, 520)];
const whose = (found: ReturnType<typeof roomLightFindings>) =>
  found.map(({ from, readings }) => [from, readings.map(({ index }) => index)]);

describe('light of the room', () => {
  test('is told once for each kind of lamp', () => {
    expect(whose(roomLightFindings([lead('helium', [0, 1, 2])], lines))).toEqual([
      ['compact fluorescent lamps', [0, 1]],
      ["a neighbour's sodium lamp", [2]],
    ]);
  });

  test('is none where the reading lies more than two uncertainties off, or is too coarse to say', () => {
    expect(roomLightFindings([lead('helium', [3])], lines)).toEqual([]);
    expect(roomLightFindings([lead('helium', [0])], [line(0, 489, 0.6)])).toEqual([]);
    expect(roomLightFindings([lead('helium', [0])], [line(0, 488, 3.1)])).toEqual([]);
    expect(roomLightFindings([lead('helium', [0])], [line(0, null)])).toEqual([]);
  });

  test('is none of the tube itself or its admixture, nor beside a row that does not lead or explains little', () => {
    expect(roomLightFindings([lead('sodium', [2])], lines)).toEqual([]);
    expect(roomLightFindings([lead('helium', [2], { with: ['sodium'] })], lines)).toEqual([]);
    expect(roomLightFindings([lead('helium', [0], { probability: 0.4 })], lines)).toEqual([]);
    expect(roomLightFindings([lead('unlisted', [0], { symbol: null })], lines)).toEqual([]);
    expect(roomLightFindings([lead('helium', [0, 1, 2, 3])], lines)).toEqual([]);
    expect(roomLightFindings([], lines)).toEqual([]);
  });

  test('is found where a shift of all readings is taken off', () => {
    const shifted = { ...line(0, 470), correctedNm: 487.5 };
    expect(whose(roomLightFindings([lead('helium', [0])], [shifted]))).toEqual([
      ['compact fluorescent lamps', [0]],
    ]);
  });
});
