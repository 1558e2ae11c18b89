/** Which lines of a lamp a station's sheet asks for, and where the answers place them. */
import { describe, expect, it } from 'vitest';
import { type WantedLine, wantedOf } from '../../src/analysis/predict.ts';
import { lampLinesAt, partedLines, placesAt, type StationOptics } from '../../src/analysis/station-lines.ts';
import { glasses } from '../../src/calibrate/curve/glasses.ts';
import { lampSpectrum } from '../../src/lines/table.ts';
import { tubeFile } from '../../src/lines/tube-file.ts';

const flint = (leastCountArcmin: number): StationOptics => ({
  kind: 'glass',
  readable: true,
  glass: {
    glass: glasses.find(({ name }) => name === 'F2')!,
    apexAngleDeg: 60,
    centralDeg: 0,
    leastCountArcmin,
    decimal: false,
    side: 1,
  },
});
const nmOf = (rows: readonly WantedLine[]) => rows.map(({ wavelengthNm }) => wavelengthNm);

describe('the lines of a lamp on a sheet', () => {
  // Wavelengths in air: NIST Atomic Spectra Database; Cd 643.85, 508.58 and 479.99 are the lines of the cadmium lamp.
  it.each([
    ['neon', ['neon'], [703.24, 640.22, 585.25]],
    [
      'mercury-cadmium',
      ['mercury', 'cadmium'],
      [643.85, 579.07, 576.96, 546.07, 508.58, 479.99, 435.83, 404.66],
    ],
  ])(
    'of %s reach from red to violet as far as the lamp does, and hold the strong ones',
    (lamp, substances, strong) => {
      const sheet = lampLinesAt(flint(1), lamp);
      expect(sheet).toHaveLength(14);
      const all = nmOf(partedLines(flint(1), wantedOf(lampSpectrum(substances)))).filter(
        (nm) => nm >= 395 && nm <= 715,
      );
      expect(nmOf(sheet)[0]).toBe(Math.max(...all));
      expect(nmOf(sheet).at(-1)).toBe(Math.min(...all));
      for (const nm of strong)
        expect(
          nmOf(sheet).some((each) => Math.abs(each - nm) < 0.05),
          `${nm}`,
        ).toBe(true);
    },
  );

  it.each(tubeFile.tubes.map(({ substance }) => substance))(
    'of %s are placed as they stand there',
    (lamp) => {
      for (const leastCount of [0.5, 1, 5, 20]) {
        const optics = flint(leastCount);
        const sheet = lampLinesAt(optics, lamp);
        const linesOf = (rows: readonly Pick<WantedLine, 'wavelengthNm' | 'linesNm'>[]) =>
          rows.map(({ wavelengthNm, linesNm }) => ({ wavelengthNm, linesNm }));
        expect(linesOf(placesAt(optics, sheet))).toEqual(linesOf(sheet));
      }
    },
  );
});
