/** The table against physics and against values published elsewhere. */
import { describe, expect, it } from 'vitest';
import { tubeNamed } from '../../src/lines/table.ts';
import { airToVacuumNm, standardAirIndex, vacuumToAirNm } from './air-vacuum.ts';

const nearest = (substance: string, nm: number): number =>
  tubeNamed(substance)!
    .lines.map((line) => line.wavelengthNm)
    .reduce((best, each) => (Math.abs(each - nm) < Math.abs(best - nm) ? each : best));

// CODATA 2022: Rydberg constant in 1/m; electron mass over proton and over deuteron mass.
const rydberg = 10973731.568157;
const electronOverNucleus = { hydrogen: 5.446170214889e-4, deuterium: 2.724437107629e-4 };

describe.each(Object.entries(electronOverNucleus))('the Balmer series of %s', (substance, massRatio) => {
  // Without fine structure, which moves the red line by some 0.009 nm.
  it.each([3, 4, 5, 6, 7])('n = %i to 2 agrees with the Rydberg formula to 0.01 nm', (n) => {
    const perMetre = (rydberg / (1 + massRatio)) * (1 / 4 - 1 / n ** 2);
    const airNm = vacuumToAirNm(1e9 / perMetre);
    expect(Math.abs(nearest(substance, airNm) - airNm)).toBeLessThan(0.01);
  });
});

describe('air and vacuum', () => {
  // Vacuum and air wavelengths, nm.
  // Sodium D: D. A. Steck, Sodium D Line Data (2019).
  // Cadmium red: 643.846 96 nm in air and 644.024 90 nm in vacuum, from memory of the length standard.
  it.each([
    ['sodium D2', 589.1583264, 588.995],
    ['sodium D1', 589.7558147, 589.5924],
    ['cadmium red', 644.0249, 643.84696],
  ])('%s: the published pair is met to 0.0001 nm', (_, vacuumNm, airNm) => {
    expect(Math.abs(vacuumToAirNm(vacuumNm) - airNm)).toBeLessThan(1e-4);
    expect(Math.abs(airToVacuumNm(airNm) - vacuumNm)).toBeLessThan(1e-4);
  });

  // Sodium and cadmium as above; helium and mercury: vacuum wavelengths of the NIST Atomic Spectra Database, from memory.
  it.each([
    ['sodium', 589.1583264],
    ['sodium', 589.7558147],
    ['cadmium', 644.0249],
    ['helium', 587.7243],
    ['mercury', 546.2268],
  ])('the table has the %s line of %d nm in vacuum, to 0.003 nm', (substance, vacuumNm) => {
    const airNm = vacuumToAirNm(vacuumNm);
    expect(Math.abs(nearest(substance, airNm) - airNm)).toBeLessThan(0.003);
  });

  it('agrees with the formula of Peck and Reeder (1972) to 2e-8 in the index', () => {
    for (let nm = 380; nm <= 760; nm += 20) {
      const s = (1000 / nm) ** 2;
      const peckReeder = 1 + 1e-8 * (8060.51 + 2480990 / (132.274 - s) + 17455.7 / (39.32957 - s));
      expect(Math.abs(standardAirIndex(nm) - peckReeder)).toBeLessThan(2e-8);
    }
  });

  it('there and back again is the same wavelength', () => {
    for (let nm = 380; nm <= 760; nm += 7) expect(vacuumToAirNm(airToVacuumNm(nm))).toBeCloseTo(nm, 8);
  });
});
