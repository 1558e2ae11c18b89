/** Numbers as people read them: the same strings in every text output. */
import { formatDeviation } from '../angle/format-angle.ts';
import { percentText } from '../numeric/percent-text.ts';
import { roundWithUncertainty } from '../numeric/round-uncertainty.ts';
import { signedText as signedNumber } from '../numeric/signed-text.ts';
import type { Bench } from '../record/bench.ts';
import { safeShortText } from './safe-text.ts';

/** `640.4 ± 1.9`; a dash where there is no wavelength. */
export function wavelengthText(wavelengthNm: number | null, standardUncertaintyNm: number | null): string {
  if (wavelengthNm === null || standardUncertaintyNm === null) return '-';
  return roundWithUncertainty(wavelengthNm, standardUncertaintyNm).text;
}

/** A probability in a table: `99.7 %`, `>99.9 %`. */
export function probabilityText(probability: number): string {
  return percentText(probability, '>', '<');
}

/** `+0.3`, `-1.2`: a difference always shows its sign. */
export function signedText(value: number | null, decimals: number): string {
  return value === null ? '-' : signedNumber(value, decimals);
}

/**
 * A residual or another small amount in the ordinate's unit, with its sign: to a tenth of the least count, and two
 * decimals at the least, whatever the divisions of a scale are worth.
 */
export function residualText(value: number | null, { leastCount }: Pick<Bench, 'leastCount'>): string {
  return signedText(value, amountDecimals(leastCount));
}

/** Decimals of a small amount in the ordinate's unit. */
export function amountDecimals(leastCount: number): number {
  return Math.max(2, Math.ceil(-Math.log10(leastCount) - 1e-9) + 1);
}

/** A tabulated wavelength to the hundredth of a nanometre. */
export function listedText(wavelengthNm: number | null): string {
  return wavelengthNm === null ? '-' : wavelengthNm.toFixed(2);
}

/** A standard uncertainty alone, to the digits it would have beside its value. */
export function uncertaintyText(u: number | null): string {
  return u === null || !(u > 0) ? '-' : roundWithUncertainty(u, u).u;
}

/** Readings as the record has them; both sides are shortened to `210°35' | 94°02'`. */
export function readingsText(texts: readonly string[], limit: number): string {
  return safeShortText(
    texts.map((text) => text.replace(/^left (.*) right (.*)$/, '$1 | $2')).join(' '),
    limit,
  );
}

/**
 * A deviation in degrees, written as the bench's own circle is; a dash where there is none. From means it may fall
 * between whole minutes: then it has a tenth, or two readings a minute apart could show the same deviation.
 */
export function deviationText(
  deviationDeg: number | null,
  bench: Pick<Bench, 'leastCount' | 'decimalCircle'>,
): string {
  if (deviationDeg === null) return '-';
  const fineness = { leastCountArcmin: bench.leastCount, decimal: bench.decimalCircle ?? false };
  const tenths = Math.round(Math.abs(deviationDeg) * 600);
  const isWritten = fineness.decimal || bench.leastCount < 1 || tenths % 10 === 0;
  if (isWritten) return formatDeviation(deviationDeg, fineness);
  const minutes = ((tenths % 600) / 10).toFixed(1).padStart(4, '0');
  return `${deviationDeg < 0 ? '-' : ''}${Math.floor(tenths / 600)}°${minutes}'`;
}

/** The title of what the curve is drawn against: the deviation, or the place on a scale, as formulae name it. */
export const ordinateTitle = ({ method }: Pick<Bench, 'method'>): string =>
  method === 'scale' ? 's' : 'deviation';

/** What stands in it; a dash where the reading gives none. */
export function ordinateText(
  { ordinate, deviationDeg }: { readonly ordinate: number | null; readonly deviationDeg: number | null },
  bench: Pick<Bench, 'method' | 'leastCount' | 'decimalCircle'>,
): string {
  if (bench.method !== 'scale') return deviationText(deviationDeg, bench);
  return ordinate === null ? '-' : ordinate.toFixed(amountDecimals(bench.leastCount));
}

/** The bench's unit of the calibration's ordinate: `'` for arc-minutes, ` units` (of the scale). */
export function unitMark(unit: 'arcmin' | 'scale'): string {
  return unit === 'arcmin' ? "'" : ' units';
}
