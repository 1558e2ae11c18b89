/** Rows of a crib sheet: lines that a bench shows as one are one row. */
import { RESOLUTIONS } from '../identify/assumptions.ts';
import { unresolvedPairs } from '../lines/table.ts';
import { normalised } from '../numeric/log-sum.ts';
import { sumOf } from '../numeric/sum.ts';
import type { Bench } from '../record/bench.ts';
import { HARDLY_SEEN_BESIDE } from './assumptions.ts';
import type { WantedLine } from './predict.ts';

/** The finest that an ordinary slit and telescope part, arc-minutes; on a scale in least counts. */
const FINEST = Math.min(...RESOLUTIONS.map(({ size }) => size));

/** How near two lines may lie on an instrument and still be read as two, arc-minutes or scale units. */
export function partedBy({ method, leastCount }: Pick<Bench, 'method' | 'leastCount'>): number {
  return method === 'scale' ? FINEST * leastCount : Math.max(FINEST, leastCount / 2);
}

/**
 * Lines of one tube that lie nearer than `parted` as one: where an eye would set on it, graded as its brightest.
 * `ordinateAt`: place of a wavelength in the unit of `parted`; null where there is none. Lines in the order given,
 * which is that of the spectrum within a tube.
 */
export function cribLines(
  wanted: readonly WantedLine[],
  ordinateAt: (wavelengthNm: number) => number | null,
  parted: number,
): WantedLine[] {
  const groups: WantedLine[][] = [];
  for (const line of wanted) {
    const group = groups.at(-1);
    if (group !== undefined && isOneWith(group[0]!, line, ordinateAt, parted)) group.push(line);
    else groups.push([line]);
  }
  return groups.map(asOne);
}

function isOneWith(
  first: WantedLine,
  line: WantedLine,
  ordinateAt: (wavelengthNm: number) => number | null,
  parted: number,
): boolean {
  if (first.substance === null || first.substance !== line.substance) return false;
  const [one, other] = [ordinateAt(first.wavelengthNm), ordinateAt(line.wavelengthNm)];
  return one !== null && other !== null && Math.abs(one - other) < parted;
}

function asOne(group: readonly WantedLine[]): WantedLine {
  const only = group[0]!;
  if (group.length === 1) return only;
  const prominenceOf = ({ prominence = 0 }: WantedLine): number => prominence;
  const brightest = group.reduce((best, line) => (prominenceOf(line) > prominenceOf(best) ? line : best));
  const set = group.filter((line) => prominenceOf(line) >= prominenceOf(brightest) - HARDLY_SEEN_BESIDE);
  const setNm = set.map(({ wavelengthNm }) => wavelengthNm);
  const weights = normalised(set.map(prominenceOf));
  const meanNm = sumOf(setNm, (nm, at) => nm * weights[at]!);
  return {
    ...brightest,
    wavelengthNm: quotedNm(setNm) ?? meanNm,
    linesNm: group.map(({ wavelengthNm }) => wavelengthNm),
  };
}

/** The wavelength that tables quote for exactly these lines as one. */
function quotedNm(linesNm: readonly number[]): number | null {
  const isQuoted = ({ componentsNm }: { readonly componentsNm: readonly number[] }) =>
    componentsNm.length === linesNm.length &&
    componentsNm.every((nm) => linesNm.some((other) => Math.abs(other - nm) < 0.05));
  return unresolvedPairs.find(isQuoted)?.quotedNm ?? null;
}
