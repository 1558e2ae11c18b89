/** Is this a prism at all? A prism deviates shorter wavelengths more, a grating longer ones. */
import { mean } from '../numeric/sum.ts';
import type { Bench } from '../record/bench.ts';
import type { KnownReading } from './assign/known-reading.ts';
import { RISING } from './assumptions.ts';

export interface RisingDeviations {
  /**
   * Lines per mm, in the first order, where the deviations follow sin δ = λ·N: light that falls straight on a grating
   * (Born & Wolf, Principles of Optics, section 8.6.1). Null where they only rise.
   */
  readonly linesPerMm: number | null;
}

/** Null on a scale, and where the deviations do not rise with the wavelengths that the record states. */
export function risingDeviations(bench: Bench, readings: readonly KnownReading[]): RisingDeviations | null {
  if (bench.method === 'scale') return null;
  const lines = readings.flatMap(({ line, observation }) =>
    line.statedWavelengthNm === null
      ? []
      : [{ nm: line.statedWavelengthNm, arcmin: Math.abs(observation.ordinate), step: observation.step }],
  );
  const apart = lines.flatMap((first) =>
    lines.filter(({ nm }) => nm - first.nm >= RISING.leastApartNm).map((second) => ({ first, second })),
  );
  const rising = apart.filter(({ first, second }) => second.arcmin - first.arcmin > second.step);
  const isRising =
    new Set(lines.map(({ nm }) => nm)).size >= RISING.fewestLines &&
    rising.length >= RISING.leastShare * apart.length &&
    apart.length > 0;
  return isRising ? { linesPerMm: gratingLinesPerMm(lines) } : null;
}

function gratingLinesPerMm(
  lines: readonly { readonly nm: number; readonly arcmin: number }[],
): number | null {
  // A mm has a million nm.
  const each = lines.map(({ nm, arcmin }) => (1e6 * Math.sin((arcmin / 60) * (Math.PI / 180))) / nm);
  const linesPerMm = mean(each);
  const isOne = each.every((value) => Math.abs(value - linesPerMm) <= RISING.gratingWithin * linesPerMm);
  return isOne ? linesPerMm : null;
}
