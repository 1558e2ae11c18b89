/** Rows of a crib sheet: lines that a bench shows as one are one row. */
import type { CalibrationCurve } from '../calibrate/types.ts';
import { unresolvedPairs } from '../lines/table.ts';
import { logSum } from '../numeric/log-sum.ts';
import type { Bench } from '../record/bench.ts';
import type { WantedLine } from './predict.ts';

/**
 * Lines nearer to each other than this are read as one through an ordinary slit, arc-minutes; on a scale in least
 * counts (common practice, no source). The finest slit still parts `FINEST`.
 */
const USUAL = 1.6;
const FINEST = 0.7;
/** A pair stated to a hundredth of a nm may be that much wider than in the line table. */
const ROUNDED = 0.95;

/** What a bench parts, where nothing has been read on it yet: arc-minutes of deviation. */
export const usuallyPartedArcmin = USUAL;

/**
 * How near two lines may lie, in the curve's unit, and still be read apart on this bench: as usual, or nearer where
 * two known lines nearer than that have been read at two places.
 */
export function partedOn(bench: Bench, curve: CalibrationCurve): number {
  const unit = curve.unit === 'scale' ? bench.leastCount : 1;
  const read = bench.known
    .flatMap(({ lines }) => lines)
    .flatMap(({ use, statedWavelengthNm, texts }) =>
      use && statedWavelengthNm !== null
        ? [{ ordinate: curve.ordinateAt(statedWavelengthNm), text: texts.join() }]
        : [],
    )
    .sort((a, b) => a.ordinate - b.ordinate);
  const apart = read
    .slice(1)
    .flatMap(({ ordinate, text }, at) =>
      text === read[at]!.text ? [] : [ROUNDED * (ordinate - read[at]!.ordinate)],
    );
  return Math.max(FINEST * unit, Math.min(USUAL * unit, ...apart));
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
  const prominences = group.map(({ prominence }) => prominence ?? 0);
  const total = logSum(prominences);
  const meanNm = group.reduce(
    (sum, { wavelengthNm }, at) => sum + wavelengthNm * Math.exp(prominences[at]! - total),
    0,
  );
  const brightest = group[prominences.indexOf(Math.max(...prominences))]!;
  const linesNm = group.map(({ wavelengthNm }) => wavelengthNm);
  return {
    ...brightest,
    wavelengthNm: quotedNm(linesNm) ?? meanNm,
    prominence: total,
    linesNm,
  };
}

/** The wavelength that tables quote for exactly these lines as one. */
function quotedNm(linesNm: readonly number[]): number | null {
  const isQuoted = ({ componentsNm }: { readonly componentsNm: readonly number[] }) =>
    componentsNm.length === linesNm.length &&
    componentsNm.every((nm) => linesNm.some((other) => Math.abs(other - nm) < 0.05));
  return unresolvedPairs.find(isQuoted)?.quotedNm ?? null;
}
