/** A prism or not, on both sides of every bound: which pairs rise, how many, and whether sin δ/λ is one number. */
import { describe, expect, test } from 'vitest';
import type { KnownReading } from '../../src/calibrate/assign/known-reading.ts';
import { risingDeviations } from '../../src/calibrate/grating.ts';
import type { Bench } from '../../src/record/bench.ts';

const circle = { method: 'central', leastCount: 1 } as Bench;
const rising = (lines: readonly (readonly [nm: number | null, arcmin: number])[], bench = circle) =>
  risingDeviations(
    bench,
    lines.map(
      ([statedWavelengthNm, ordinate]) =>
        ({
          line: { statedWavelengthNm },
          observation: { ordinate, step: bench.leastCount },
        }) as unknown as KnownReading,
    ),
  );
const RISES = { linesPerMm: null };
/** Arc-minutes behind a grating on which light falls straight: sin δ = λN (Born & Wolf, section 8.6.1). */
const behind = (linesPerMm: number, nm: number): number =>
  (Math.asin(nm * 1e-6 * linesPerMm) * 180 * 60) / Math.PI;

describe('deviations rise', () => {
  test('of three wavelengths on, whatever stands beside them without one', () => {
    expect(
      rising([
        [450, 100],
        [550, 300],
        [650, 320],
      ]),
    ).toEqual(RISES);
    expect(
      rising([
        [450, 100],
        [550, 300],
        [null, 320],
      ]),
    ).toBeNull();
    expect(
      rising([
        [450, 100],
        [550, 300],
        [550, 320],
      ]),
    ).toBeNull();
    expect(
      rising([
        [450, 100],
        [550, 300],
        [650, 320],
        [null, 10],
      ]),
    ).toEqual(RISES);
  });

  test('on the other side of the central image too, where angles are below nothing', () => {
    expect(
      rising([
        [450, -100],
        [550, -300],
        [650, -320],
      ]),
    ).toEqual(RISES);
    expect(
      rising([
        [450, -320],
        [550, -300],
        [650, -100],
      ]),
    ).toBeNull();
  });

  test('by more than a count; lines less than 5 nm apart do not count', () => {
    expect(
      rising([
        [450, 100],
        [550, 101.01],
        [650, 102.02],
      ]),
    ).toEqual(RISES);
    expect(
      rising([
        [450, 100],
        [550, 101],
        [650, 110],
      ]),
    ).toBeNull();
    expect(
      rising([
        [450, 100],
        [454.9, 90],
        [650, 320],
      ]),
    ).toEqual(RISES);
    expect(
      rising([
        [450, 100],
        [455, 90],
        [650, 320],
      ]),
    ).toBeNull();
    expect(
      rising([
        [450, 100],
        [452, 110],
        [454, 120],
      ]),
    ).toBeNull();
  });

  test('in nine pairs of ten', () => {
    // Five lines make ten pairs; exchanging two neighbours turns one over, moving one past two of them two.
    const five = [450, 500, 550, 600, 650];
    const with5 = (arcmin: readonly number[]) => rising(five.map((nm, i) => [nm, arcmin[i]!]));
    expect(with5([100, 330, 310, 400, 420])).toEqual(RISES);
    expect(with5([100, 410, 310, 400, 420])).toBeNull();
  });

  test('on a scale they may', () => {
    expect(
      rising(
        [
          [450, 100],
          [550, 300],
          [650, 320],
        ],
        { ...circle, method: 'scale' },
      ),
    ).toBeNull();
    expect(
      rising(
        [
          [450, 100],
          [550, 300],
          [650, 320],
        ],
        { ...circle, method: 'both-sides' },
      ),
    ).toEqual(RISES);
  });
});

describe('a grating', () => {
  test.each([100, 300, 600])('of %i lines per mm is told', (linesPerMm) => {
    const found = rising([435.8, 546.1, 579, 690.7].map((nm) => [nm, behind(linesPerMm, nm)]));
    expect(found!.linesPerMm).toBeCloseTo(linesPerMm, 6);
  });

  test('is one where every line is within two per cent of their mean', () => {
    const withOff = (percent: number) =>
      rising([
        [450, behind(300, 450)],
        [550, behind(300, 550)],
        [650, behind(300 * (1 + percent / 100), 650)],
      ]);
    // Off the mean of three by two thirds of what one is off.
    expect(withOff(2.9)!.linesPerMm).toBeCloseTo(302.9, 1);
    expect(withOff(3.2)).toEqual(RISES);
    expect(withOff(-2.9)!.linesPerMm).toBeCloseTo(297.1, 1);
    expect(withOff(-3.2)).toEqual(RISES);
  });
});
