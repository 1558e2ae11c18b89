/** The lines of several spectra together. */
import type { TubeLine } from './spectrum.ts';

/** Two entries of one tube closer than this are one line listed twice. */
const sameLineNm = 0.005;

/** Sorted by wavelength; of lines listed twice the more prominent stays. */
export function mergedSpectra(lines: readonly TubeLine[]): TubeLine[] {
  const kept: TubeLine[] = [];
  for (const line of [...lines].sort((a, b) => a.wavelengthNm - b.wavelengthNm)) {
    const last = kept.at(-1);
    if (last === undefined || line.wavelengthNm - last.wavelengthNm > sameLineNm) kept.push(line);
    else if (line.prominence > last.prominence) kept[kept.length - 1] = line;
  }
  return kept;
}
