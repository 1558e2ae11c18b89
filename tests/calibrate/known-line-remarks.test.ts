/** What a person is told of the known lines as a whole, on both sides of each bound. */
import { describe, expect, test } from 'vitest';
import { knownLineRemarks, scatterRemark } from '../../src/calibrate/known-line-remarks.ts';
import { lampOrigin } from '../../src/observe/origin.ts';
import { usualScatter } from '../../src/observe/setting-scatter.ts';
import { benchOf, heliumNm, hydrogenNm, mercuryNm } from './glass-bench.ts';

function benchWith(
  lamps: readonly (readonly [lamp: string, nm: readonly number[]])[],
  central = ["100°00'"],
) {
  return benchOf({
    instrument: { method: 'central', leastCount: "1'" },
    central,
    known: lamps.map(([lamp, stated]) => ({
      lamp,
      lines: stated.map((wavelengthNm) => ({ wavelengthNm, readings: ["150°00'"] })),
    })),
    unknown: [],
  });
}

const mercury = benchWith([['mercury', mercuryNm]]);
const remarks = (
  bench = mercury,
  lines = 8,
  calibrated = true,
  rising: { linesPerMm: number | null } | null = null,
) => knownLineRemarks(bench, lampOrigin(bench), lines, calibrated, rising);

describe('what is missing', () => {
  test('nothing, of eight lines', () => expect(remarks()).toEqual([]));

  test('the central image, where lines are written down that need it', () => {
    const without = benchWith([['mercury', mercuryNm]], []);
    expect(remarks(without)).toEqual([{ what: 'central-missing' }]);
    expect(remarks({ ...without, method: 'both-sides' })).toEqual([]);
    expect(remarks(benchWith([['mercury', []]], []), 0)).toEqual([{ what: 'too-few-known-lines', lines: 0 }]);
    expect(
      remarks(
        benchWith(
          [
            ['mercury', []],
            ['helium', [587.56]],
          ],
          [],
        ),
        0,
      ),
    ).toEqual([{ what: 'central-missing' }]);
  });

  test.each([
    [1, [{ what: 'too-few-known-lines', lines: 1 }]],
    [2, [{ what: 'few-known-lines', lines: 2 }]],
    [3, [{ what: 'few-known-lines', lines: 3 }]],
    [4, []],
  ])('of %d lines', (lines, expected) => expect(remarks(mercury, lines)).toEqual(expected));

  test('a curve, or a prism', () => {
    expect(remarks(mercury, 8, false)).toEqual([{ what: 'no-curve' }]);
    expect(remarks(mercury, 3, false)).toEqual([{ what: 'no-curve' }]);
    expect(remarks(mercury, 8, false, { linesPerMm: 300 })).toEqual([
      { what: 'rises-with-wavelength', linesPerMm: 300 },
    ]);
  });
});

describe('a lamp whose lines are those of another', () => {
  const named = (lamp: string, stated: readonly number[]) => remarks(benchWith([[lamp, stated]]));

  test('is told with the tube that has them', () => {
    expect(named('mercury', heliumNm)).toEqual([{ what: 'lamp-name', lampIndex: 0, substance: 'helium' }]);
    expect(
      remarks(
        benchWith([
          ['mercury', mercuryNm],
          ['helium', mercuryNm],
        ]),
      ),
    ).toEqual([{ what: 'lamp-name', lampIndex: 1, substance: 'mercury' }]);
  });

  test('or with the lamp of several gases, where no single one has them', () => {
    // A compact fluorescent lamp: its phosphors (places of the line table) beside mercury.
    const phosphors = [611.5, 543, 487.7, 546.07, 435.83, 404.66];
    const cadmium = [643.85, 508.58, 479.99, 467.81];
    const told = (substance: string) => [{ what: 'lamp-name', lampIndex: 0, substance }];
    expect(named('mercury', phosphors)).toEqual(told('fluorescent lamp'));
    expect(named('mercury', cadmium)).toEqual(told('cadmium'));
    expect(named('helium', [...cadmium, 546.07, 435.83, 404.66])).toEqual(told('mercury-cadmium'));
    expect(named('fluorescent lamp', phosphors)).toEqual([]);
  });

  test('is told too where no curve was found, and where the deviations rise', () => {
    const bench = benchWith([['mercury', heliumNm]]);
    const name = { what: 'lamp-name', lampIndex: 0, substance: 'helium' };
    expect(remarks(bench, 8, false)).toEqual([name, { what: 'no-curve' }]);
    expect(remarks(bench, 3)).toEqual([name, { what: 'few-known-lines', lines: 3 }]);
    expect(remarks(bench, 8, true, { linesPerMm: null })).toEqual([
      name,
      { what: 'rises-with-wavelength', linesPerMm: null },
    ]);
  });

  test('from four lines on', () => {
    expect(named('mercury', hydrogenNm)).toHaveLength(1);
    expect(named('mercury', hydrogenNm.slice(1))).toEqual([]);
  });

  test('and not where half of them are its own and more', () => {
    expect(named('mercury', [...heliumNm.slice(0, 5), ...mercuryNm.slice(0, 1)])).toHaveLength(1);
    expect(named('mercury', [...heliumNm.slice(0, 4), ...mercuryNm.slice(2, 7)])).toEqual([]);
  });

  test('nor by lines that no table of a student has, faint as they are', () => {
    // Of xenon, fainter than e to the -6 of a strong one; no tube shows others there.
    expect(named('mercury', [420.848, 424.538, 498.877, 517.882])).toEqual([]);
  });

  test('nor where they are nobody else’s either, nor where the lamp has no name', () => {
    expect(named('mercury', [...heliumNm.slice(0, 3), 455, 463, 520])).toEqual([]);
    expect(named('', heliumNm)).toEqual([]);
  });
});

describe('a scatter larger than usual', () => {
  const usual = usualScatter(mercury);

  test.each([
    [5, 2.21, true],
    [5, 2.19, false],
    [4, 9, false],
  ])('of %d lines, %f times: told is %s', (lines, times, isTold) =>
    expect(scatterRemark(mercury, lines, (times * usual) ** 2)).toEqual(
      isTold ? [{ what: 'large-scatter', times: expect.closeTo(times, 9), tooManyForMoves: false }] : [],
    ),
  );

  test.each([
    [1, 81, false],
    [2, 80, false],
    [2, 81, true],
    [5, 80, false],
    [6, 24, true],
  ])('of %d lamps with %d lines: that no move was looked for is told: %s', (lamps, lines, isTold) => {
    const bench = { ...mercury, known: Array.from({ length: lamps }, () => mercury.known[0]!) };
    expect(scatterRemark(bench, lines, (4 * usual) ** 2)).toMatchObject([{ tooManyForMoves: isTold }]);
    const onBothSides = { ...bench, method: 'both-sides' as const };
    expect(scatterRemark(onBothSides, lines, (4 * usual) ** 2)).toMatchObject([{ tooManyForMoves: false }]);
  });
});
