/** Colours noted that contradict the lines they stand beside: so many, and so large a part of those noted. */
import { describe, expect, test } from 'vitest';
import { colourFindings } from '../../src/identify/findings/colour-findings.ts';
import type { ColourName } from '../../src/record/bench.ts';
import { handCurve, handLine, handReading, handRow } from './hand-made.ts';

// Far apart, from violet to red.
const linesNm = [420, 450, 500, 540, 580, 610, 650];

/** Each line read at its place, with a colour beside it or none. */
function found(colours: readonly (ColourName | null)[], strayAt?: number) {
  const readings = colours.map((colour, i) =>
    handReading(i, handCurve.ordinateAt(linesNm[i]! + (i === strayAt ? 12 : 0)), {}, { colour }),
  );
  return colourFindings(
    handRow(
      1,
      'neon',
      linesNm.map((nm) => handLine(nm)),
      readings,
    ),
  );
}
const wrong = { index: expect.any(Number), colour: 'red', wavelengthNm: expect.any(Number) };

describe('colours', () => {
  test('that belong to their lines are no finding', () => {
    expect(found(['violet', 'blue', 'blue-green', 'green', 'yellow', 'orange', 'red'])).toEqual([]);
  });

  test('that contradict three lines are, each named with the line it was matched with, red first', () => {
    expect(found(['red', 'red', 'red', 'green'])).toEqual([
      {
        what: 'colours',
        noted: 4,
        contradicting: [
          { index: 2, colour: 'red', wavelengthNm: 500 },
          { index: 1, colour: 'red', wavelengthNm: 450 },
          { index: 0, colour: 'red', wavelengthNm: 420 },
        ],
      },
    ]);
    expect(found(['red', 'red', 'blue-green'])).toEqual([]);
  });

  test('are one where they are half of those noted', () => {
    expect(found(['red', 'red', 'red', 'green', 'yellow', 'orange'])).toEqual([
      { what: 'colours', noted: 6, contradicting: [wrong, wrong, wrong] },
    ]);
    expect(found(['red', 'red', 'red', 'green', 'yellow', 'orange', 'red'])).toEqual([]);
    expect(found(['red', 'red', 'red', null, null, null, null])).toHaveLength(1);
  });

  test('beside a reading that meets no line count neither way', () => {
    expect(found(['red', 'red', 'red'], 2)).toEqual([]);
    expect(found(['red', 'red', 'red', 'red', 'blue', 'blue', 'blue'], 0)).toMatchObject([{ noted: 6 }]);
  });
});

test('a row that reads nothing has no colours', () => {
  expect(colourFindings({ ...handRow(1, 'neon', [handLine(600)], []), reading: null })).toEqual([]);
});
