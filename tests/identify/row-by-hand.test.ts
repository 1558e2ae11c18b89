/** What a row says of its readings where all are shifted and lines are read as one: by hand on the straight curve. */
import { expect, test } from 'vitest';
import { candidateReports, estimates } from '../../src/identify/rank/candidate-report.ts';
import { handCurve, handLine, handReading, handRow, handView } from './hand-made.ts';

const SHIFT = 20;
/** A line where the bench, moved by 20', shows it. */
const shifted = (nm: number) => handLine(nm, { ordinate: handCurve.ordinateAt(nm) + SHIFT });
const member = (wavelengthNm: number, prominence: number) => ({
  substance: wavelengthNm === 600 ? 'neon' : 'argon',
  wavelengthNm,
  ordinate: handCurve.ordinateAt(wavelengthNm),
  prominence,
  component: 0,
});
/** 600 and 601.5 nm, 3' apart, read as one. */
const both = (first: number, second: number) =>
  handLine(600, {
    ordinate: handCurve.ordinateAt(600.75) + SHIFT,
    variance: 3,
    members: [member(600, first), member(601.5, second)],
  });

function reportOf(pair: ReturnType<typeof both>, offPair: number) {
  const lines = [shifted(450), shifted(500), shifted(550), pair, shifted(650)];
  const readings = [450, 500, 550, 600.75].map((nm, i) =>
    handReading(9 - i, handCurve.ordinateAt(nm) + SHIFT + (i === 3 ? offPair : 0)),
  );
  const view = { ...handView, explanation: 'moved' as const, shift: SHIFT };
  return candidateReports([handRow(1, 'neon', lines, readings, view)], estimates(handCurve, 0))[0]!;
}
const pairOf = (pair: ReturnType<typeof both>, offPair: number) =>
  reportOf(pair, offPair).matches.find(({ index }) => index === 6)!;

test('readings are told by their place in the record, as wavelengths with the shift taken off', () => {
  const { matches, unexplained, contributions, missing } = reportOf(both(0, 0), 0);
  expect(matches.map(({ index }) => index)).toEqual([6, 7, 8, 9]);
  expect(contributions.map(({ index }) => index)).toEqual([6, 7, 8, 9]);
  expect(unexplained).toEqual([]);
  for (const { residualNm, index } of matches) if (index !== 6) expect(residualNm).toBeCloseTo(0, 6);
  // All are read but for the fifth, and all are bright.
  expect(missing.map(({ wavelengthNm }) => wavelengthNm)).toEqual([650]);
});

test('of lines read as one that is meant which the cross-hairs were on', () => {
  expect(pairOf(both(0, 0), 1.4)).toMatchObject({ wavelengthNm: 600, substance: 'neon' });
  expect(pairOf(both(0, 0), -1.4)).toMatchObject({ wavelengthNm: 601.5, substance: 'argon' });
});

test('or the brighter one: by as much as a reading in between is nearer to the other', () => {
  // The shift is the mean of four, 0.075' more: 1.275' and 1.725' off, u 0.5', so the nearer one is ahead by
  // (1.725² - 1.275²)/(2·0.25) = 2.7 in ln.
  expect(pairOf(both(0, 2.65), 0.3)).toMatchObject({ wavelengthNm: 600 });
  expect(pairOf(both(0, 2.75), 0.3)).toMatchObject({ wavelengthNm: 601.5 });
});
