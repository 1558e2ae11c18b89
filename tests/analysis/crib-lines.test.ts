import { describe, expect, test } from 'vitest';
import { cribLines, partedBy } from '../../src/analysis/crib-lines.ts';
import { glassDeviationDeg, wantedLines } from '../../src/analysis/predict.ts';
import { glasses } from '../../src/calibrate/curve/glasses.ts';

const station = { glass: glasses.find(({ name }) => name === 'F2')!, apexAngleDeg: 60 };
const parted = partedBy({ method: 'central', leastCount: 1 });
const throughFlint = (nm: number) => glassDeviationDeg(station, nm) * 60;

describe('lines that a bench shows as one', () => {
  test('are one row at the wavelength that tables quote for the pair', () => {
    const rows = cribLines(wantedLines('sodium', true), throughFlint, parted);
    // The D lines are 0.60 nm apart, 0.26' on a 60° prism of F2; tables quote 589.3 for the pair.
    const yellow = rows.filter(({ wavelengthNm }) => Math.abs(wavelengthNm - 589.3) < 1);
    expect(yellow).toMatchObject([{ wavelengthNm: 589.3, brightness: 'strong' }]);
    expect(yellow[0]!.linesNm!.map((nm) => nm.toFixed(2))).toEqual(['589.59', '589.00']);
  });

  test('hold every line asked for once, and rows lie further apart than the bench parts', () => {
    for (const tube of ['neon', 'argon', 'krypton', 'xenon']) {
      const wanted = wantedLines(tube);
      const rows = cribLines(wanted, throughFlint, parted);
      expect(rows.flatMap(({ linesNm, wavelengthNm }) => linesNm ?? [wavelengthNm])).toEqual(
        wanted.map(({ wavelengthNm }) => wavelengthNm),
      );
      expect(rows.length).toBeLessThan(wanted.length);
      for (const { linesNm } of rows) {
        if (linesNm === undefined) continue;
        const places = linesNm.map(throughFlint);
        expect(Math.max(...places) - Math.min(...places)).toBeLessThan(parted);
      }
      const first = rows.map(({ linesNm, wavelengthNm }) => throughFlint(linesNm?.[0] ?? wavelengthNm));
      for (const [at, place] of first.slice(1).entries())
        expect(place - first[at]!).toBeGreaterThanOrEqual(parted);
    }
  });

  test('are of one tube only; bare wavelengths stay apart', () => {
    const bare = { substance: null, colour: 'yellow', brightness: null } as const;
    const pair = [589, 589.59].map((wavelengthNm) => ({ ...bare, wavelengthNm }));
    expect(cribLines(pair, throughFlint, 1.6)).toEqual(pair);
    const two = pair.map((line, at) => ({ ...line, substance: at === 0 ? 'sodium' : 'argon' }));
    expect(cribLines(two, throughFlint, 1.6)).toEqual(two);
  });

  test('are placed by the bright ones: a faint neighbour does not move the hand', () => {
    const rows = cribLines(wantedLines('mercury'), throughFlint, 1.6);
    const blue = rows.find(({ linesNm }) => linesNm?.some((nm) => Math.abs(nm - 435.83) < 0.01));
    expect(blue!.linesNm!.length).toBeGreaterThan(1);
    expect(blue!.wavelengthNm).toBeCloseTo(435.8328, 3);
  });

  test('are parted by half a least count, and by no less than the slit lets through', () => {
    expect(partedBy({ method: 'central', leastCount: 1 })).toBe(0.7);
    expect(partedBy({ method: 'central', leastCount: 5 })).toBe(2.5);
    expect(partedBy({ method: 'scale', leastCount: 0.1 })).toBeCloseTo(0.07);
    // The yellow pair of mercury is 0.93' apart on this flint: two lines to 1', one to 5'.
    const yellow = (leastCount: number) =>
      cribLines(wantedLines('mercury', true), throughFlint, partedBy({ method: 'central', leastCount }))
        .map(({ wavelengthNm }) => wavelengthNm)
        .filter((nm) => nm > 570 && nm < 590);
    expect(yellow(1).map(Math.round)).toEqual([579, 577]);
    expect(yellow(5)).toEqual([578]);
  });
});
