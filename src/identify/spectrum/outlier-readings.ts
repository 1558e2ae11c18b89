/** Readings that belong to no line of the tube: how dense they are, and what a tube that is not listed would show. */
import { roomLight, tubeNamed, usualImpurities } from '../../lines/table.ts';
import {
  BRIGHT_IMPURITY,
  STRAY_WIDTH_NM,
  STRAYS_ANYWHERE,
  STRAYS_AT_IMPURITIES,
  STRAYS_NM,
  UNLISTED_COUNT,
} from '../assumptions.ts';

const impurityLinesNm: readonly number[] = [
  ...usualImpurities.flatMap((name) => {
    const bright =
      tubeNamed(name)?.lines.filter((line) => line.prominence > BRIGHT_IMPURITY && line.expected) ?? [];
    return bright.map((line) => line.wavelengthNm);
  }),
  ...roomLight.flatMap((light) => light.nm),
];

/** Mean number of strays per nm at a wavelength, for readings with this uncertainty in nm. */
export function strayDensityPerNm(wavelengthNm: number, uNm: number): number {
  const width = Math.max(uNm, STRAY_WIDTH_NM);
  const near = impurityLinesNm.reduce((sum, nm) => {
    const z = (wavelengthNm - nm) / width;
    return Math.abs(z) > 5 ? sum : sum + Math.exp(-0.5 * z * z) / (width * 2.5066);
  }, 0);
  return (
    STRAYS_ANYWHERE * visibleDensityPerNm(wavelengthNm) +
    (STRAYS_AT_IMPURITIES / impurityLinesNm.length) * near
  );
}

/** Where the lines of a tube one knows nothing of may lie: even over the visible, thinning out beyond. */
export function visibleDensityPerNm(wavelengthNm: number): number {
  const { shortest, longest, thinning } = STRAYS_NM;
  const beyond = Math.max(shortest - wavelengthNm, wavelengthNm - longest, 0);
  return Math.exp(-beyond / thinning) / (longest - shortest + 2 * thinning);
}

/** ln of the chance that a tube that is not listed shows this many lines. */
export function logUnlistedCount(count: number): number {
  const { chance, many, lnPerFurther } = UNLISTED_COUNT;
  return Math.log(chance) - lnPerFurther * Math.max(0, count - many);
}
