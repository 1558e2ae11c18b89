/**
 * Wavelengths in standard air and in vacuum.
 *
 * Refractive index of standard air (dry, 15 °C, 101 325 Pa, 450 ppm CO2): P. E. Ciddor, Applied Optics 35 (1996) 1566,
 * equation 1; valid from 230 to 1690 nm, uncertainty of the index about 5e-8, that is 0.00003 nm at 600 nm.
 */

/** Refractive index of standard air at a vacuum wavelength in nm. */
export function standardAirIndex(vacuumNm: number): number {
  const waveNumberSquared = (1000 / vacuumNm) ** 2;
  return 1 + 1e-8 * (5792105 / (238.0185 - waveNumberSquared) + 167917 / (57.362 - waveNumberSquared));
}

/** Wavelength in standard air, nm, of a vacuum wavelength in nm. */
export function vacuumToAirNm(vacuumNm: number): number {
  return vacuumNm / standardAirIndex(vacuumNm);
}

/** Vacuum wavelength, nm, of a wavelength in standard air in nm. */
export function airToVacuumNm(airNm: number): number {
  // The index changes so slowly with wavelength that two passes reach 1e-9 nm.
  let vacuumNm = airNm * standardAirIndex(airNm);
  vacuumNm = airNm * standardAirIndex(vacuumNm);
  return airNm * standardAirIndex(vacuumNm);
}
