/** Readings that belong to no line of the tube: how dense they are, and what a tube that is not listed would show. */
import { roomLight, tubeNamed, usualImpurities } from '../../lines/table.ts';
import type { BenchLine } from '../../record/bench.ts';

/** Strays in one bench, of any wavelength, and at the lines of usual impurities (common practice, no source). */
const ANYWHERE = 0.1;
const AT_IMPURITIES = 0.06;
const VISIBLE_NM = { shortest: 395, longest: 705 } as const;
/** So far beyond the visible a strong line may still be seen. */
const BARELY_SEEN_NM = 15;

const impurityLinesNm: readonly number[] = [
  ...usualImpurities.flatMap((name) => {
    const bright = tubeNamed(name)?.lines.filter((line) => line.prominence > -0.6 && line.expected) ?? [];
    return bright.map((line) => line.wavelengthNm);
  }),
  ...roomLight.flatMap((light) => light.nm),
];

/** Mean number of strays per nm at a wavelength, for readings with this uncertainty in nm. */
export function strayDensityPerNm(wavelengthNm: number, uNm: number): number {
  const width = Math.max(uNm, 0.5);
  const near = impurityLinesNm.reduce((sum, nm) => {
    const z = (wavelengthNm - nm) / width;
    return Math.abs(z) > 5 ? sum : sum + Math.exp(-0.5 * z * z) / (width * 2.5066);
  }, 0);
  return ANYWHERE * visibleDensityPerNm(wavelengthNm) + (AT_IMPURITIES / impurityLinesNm.length) * near;
}

/** Where the lines of a tube one knows nothing of may lie: even over the visible, thinning out beyond. */
export function visibleDensityPerNm(wavelengthNm: number): number {
  const { shortest, longest } = VISIBLE_NM;
  const beyond = Math.max(shortest - wavelengthNm, wavelengthNm - longest, 0);
  return Math.exp(-beyond / 15) / (longest - shortest + 30);
}

/** Is a line of this wavelength ever seen by eye, if only by few? */
export function isVisible(wavelengthNm: number): boolean {
  return (
    wavelengthNm > VISIBLE_NM.shortest - BARELY_SEEN_NM && wavelengthNm < VISIBLE_NM.longest + BARELY_SEEN_NM
  );
}

/** ln of the chance that a tube that is not listed shows this many lines. */
export function logUnlistedCount(count: number): number {
  // Few tubes show a student more than a dozen lines; nearly even up to there.
  return Math.log(0.09) - (count > 12 ? (count - 12) * 0.3 : 0);
}

const GRADE = { strong: 0, medium: -1.3, weak: -2.6 } as const;
const GRADE_SCATTER = 1.3;

/** ln likelihood of the brightness noted, against that of any line; 0 without one. */
export function brightnessLog(line: BenchLine, prominence: number): number {
  if (line.brightness === null) return 0;
  const off = (Math.max(-3.5, Math.min(0.5, prominence)) - GRADE[line.brightness]) / GRADE_SCATTER;
  return Math.max(0.45 - 0.5 * off * off, -2.5);
}
