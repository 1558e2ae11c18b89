import { describe, expect, test } from 'vitest';
import { cribLines, partedOn, usuallyPartedArcmin } from '../../src/analysis/crib-lines.ts';
import { glassDeviationDeg, wantedLines } from '../../src/analysis/predict.ts';
import { glasses } from '../../src/calibrate/curve/glasses.ts';
import { bench, straightCurve } from '../cli/analysis-fixture.ts';

const station = { glass: glasses.find(({ name }) => name === 'F2')!, apexAngleDeg: 60 };
const throughFlint = (nm: number) => glassDeviationDeg(station, nm) * 60;

describe('lines that a bench shows as one', () => {
  test('are one row at the wavelength that tables quote for the pair', () => {
    const rows = cribLines(wantedLines('sodium', true), throughFlint, usuallyPartedArcmin);
    // The D lines are 0.60 nm apart, 0.26' on a 60° prism of F2; tables quote 589.3 for the pair.
    const yellow = rows.filter(({ wavelengthNm }) => Math.abs(wavelengthNm - 589.3) < 1);
    expect(yellow).toMatchObject([{ wavelengthNm: 589.3, brightness: 'strong' }]);
    expect(yellow[0]!.linesNm!.map((nm) => nm.toFixed(2))).toEqual(['589.59', '589.00']);
  });

  test('hold every line asked for once, and rows lie further apart than the bench parts', () => {
    for (const tube of ['neon', 'argon', 'krypton', 'nitrogen', 'carbon dioxide']) {
      const wanted = wantedLines(tube);
      const rows = cribLines(wanted, throughFlint, usuallyPartedArcmin);
      expect(rows.flatMap(({ linesNm, wavelengthNm }) => linesNm ?? [wavelengthNm])).toEqual(
        wanted.map(({ wavelengthNm }) => wavelengthNm),
      );
      expect(rows.length).toBeLessThan(wanted.length);
      for (const { linesNm } of rows) {
        if (linesNm === undefined) continue;
        const places = linesNm.map(throughFlint);
        expect(Math.max(...places) - Math.min(...places)).toBeLessThan(usuallyPartedArcmin);
      }
      const first = rows.map(({ linesNm, wavelengthNm }) => throughFlint(linesNm?.[0] ?? wavelengthNm));
      for (const [at, place] of first.slice(1).entries())
        expect(place - first[at]!).toBeGreaterThanOrEqual(usuallyPartedArcmin);
    }
  });

  test('are of one tube only; bare wavelengths stay apart', () => {
    const bare = { substance: null, colour: 'yellow', brightness: null } as const;
    const pair = [589, 589.59].map((wavelengthNm) => ({ ...bare, wavelengthNm }));
    expect(cribLines(pair, throughFlint, 1.6)).toEqual(pair);
    const two = pair.map((line, at) => ({ ...line, substance: at === 0 ? 'sodium' : 'argon' }));
    expect(cribLines(two, throughFlint, 1.6)).toEqual(two);
  });

  test('part where this bench has read two known lines apart, not where it has read one place twice', () => {
    // The fixture's curve falls by 1' per nm.
    const curve = straightCurve();
    const known = (...read: (readonly [number, string])[]) =>
      bench({
        known: [
          {
            name: 'mercury',
            substances: ['mercury'],
            lines: read.map(([statedWavelengthNm, text], index) => ({
              index,
              settings: [],
              texts: [text],
              colour: null,
              brightness: null,
              note: null,
              use: true,
              lampIndex: 0,
              statedWavelengthNm,
              confirmed: false,
            })),
          },
        ],
      });
    expect(partedOn(bench(), curve)).toBe(1.6);
    expect(partedOn(known([577, "149°33'"], [578, "149°32'"], [600, "149°10'"]), curve)).toBeCloseTo(0.95);
    expect(partedOn(known([577, "149°33'"], [578, "149°33'"]), curve)).toBe(1.6);
    // Nobody reads lines of a tenth of a minute apart; the names are right and the slit is not that fine.
    expect(partedOn(known([577, "149°33'"], [577.1, "149°32'"]), curve)).toBe(0.7);
  });
});
