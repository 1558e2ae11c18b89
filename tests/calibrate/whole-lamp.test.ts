/** What is said when not a line but the whole known lamp looks wrong. */
import { expect, test } from 'vitest';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';
import { benchOf, GlassReader, mercuryNm } from './glass-bench.ts';

const reader = new GlassReader();

const calibrated = (
  lamp: string,
  reading: (nm: number) => string,
  central = reader.central(),
  wavelengthsNm: readonly number[] = mercuryNm,
) =>
  calibrate(
    benchOf({
      instrument: { method: 'central', leastCount: "1'" },
      central: [central],
      known: { lamp, lines: wavelengthsNm.map((nm) => ({ wavelengthNm: nm, readings: [reading(nm)] })) },
    }),
  ).calibration;

test.each([[mercuryNm], [[546.07, 435.83, 579.07]]])(
  'lines %o that all read alike give no curve, and a sentence',
  (wavelengthsNm) => {
    const { curve, warnings } = calibrated(
      'mercury',
      () => reader.line(546.07),
      reader.central(),
      wavelengthsNm,
    );
    expect(curve).toBeNull();
    expect(warnings.map(({ code }) => code)).toContain('no-curve');
  },
);

test('a central image read in the opposite window is the only thing to blame', () => {
  const opposite = reader.text(181 + 4 / 60 - 180);
  const { curve, doubts } = calibrated('mercury', (nm) => reader.line(nm), opposite);
  expect(curve).toBeNull();
  expect(doubts.map(({ step, kind }) => [step, kind])).toEqual([['central', 'opposite-window']]);
});

test('wavelengths of another lamp than the one named are pointed out, and used as stated', () => {
  const { curve, doubts, warnings } = calibrated('helium', (nm) => reader.line(nm));
  expect(curve).not.toBeNull();
  expect(doubts).toEqual([]);
  expect(warnings.find(({ code }) => code === 'lamp-name')?.message).toMatch(/mercury/);
});

test('a lamp named rightly gives no warning', () => {
  expect(calibrated('mercury', (nm) => reader.line(nm)).warnings).toEqual([]);
});

test('lines that scatter by several times the usual are said to do so', () => {
  const offs = [2, -2, 2, -2, 2, -2, 2, -2];
  const { warnings } = calibrated('mercury', (nm) =>
    reader.line(nm, offs[mercuryNm.indexOf(nm as (typeof mercuryNm)[number])]!),
  );
  expect(warnings.map(({ code }) => code)).toContain('large-scatter');
});
