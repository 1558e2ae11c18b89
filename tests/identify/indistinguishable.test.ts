/** Tubes whose visible lines coincide on a bench share a row; what one of them shows alone keeps them apart. */
import { expect, test } from 'vitest';
import { ALIKE_PLACE, ALIKE_PROMINENCE, FAINTEST_OF_A_LOOK } from '../../src/identify/assumptions.ts';
import { indistinguishableGroups } from '../../src/identify/rank/indistinguishable.ts';
import type { ModelLine } from '../../src/identify/spectrum/expected-lines.ts';
import type { TubeSpectrum } from '../../src/lines/spectrum.ts';

type Shown = readonly [ordinate: number, prominence: number, expected?: boolean];

/** Which of the tubes share a row, by their names, for readings of uncertainty 2 and lines resolved from 1 on. */
function groups(tubes: Readonly<Record<string, readonly Shown[]>>): string[][] {
  const candidates = Object.keys(tubes).map((substance) => ({ substance }) as TubeSpectrum);
  const linesOf = ({ substance }: TubeSpectrum): ModelLine[] =>
    tubes[substance]!.map(
      ([ordinate, prominence, expected = true]) => ({ ordinate, prominence, expected }) as ModelLine,
    );
  return indistinguishableGroups(candidates, linesOf, 2, 1).map((group) =>
    group.map(({ substance }) => substance),
  );
}

const reach = ALIKE_PLACE * 2;

test.each([
  ['lie just within reach', [[100 + 0.99 * reach, 0]], true],
  ['lie just out of reach', [[100 + 1.01 * reach, 0]], false],
  ['are nearly as bright', [[100, 0.99 * ALIKE_PROMINENCE]], true],
  ['are told apart by their brightness', [[100, 1.01 * ALIKE_PROMINENCE]], false],
  [
    'have another bright line beside them',
    [
      [100, 0],
      [150, 0],
    ],
    false,
  ],
  [
    'have a line beside them too faint to tell by',
    [
      [100, 0],
      [150, FAINTEST_OF_A_LOOK - 0.01],
    ],
    true,
  ],
  [
    'have a line beside them that an ordinary tube lacks',
    [
      [100, 0],
      [150, 0, false],
    ],
    true,
  ],
] as const)('two tubes whose lines %s', (_, lines, isOne) => {
  const expected = isOne ? [['a', 'b']] : [['a'], ['b']];
  expect(groups({ a: [[100, 0]], b: lines })).toEqual(expected);
  // Whichever of the two has more.
  expect(groups({ b: lines, a: [[100, 0]] }).flat().length).toBe(2);
  expect(groups({ b: lines, a: [[100, 0]] }).length).toBe(isOne ? 1 : 2);
});

test('tubes keep their order, and one that shows nothing is like no other', () => {
  expect(groups({ a: [[100, 0]], b: [[300, 0]], c: [[101, 0]], d: [], e: [] })).toEqual([
    ['a', 'c'],
    ['b'],
    ['d'],
    ['e'],
  ]);
});
