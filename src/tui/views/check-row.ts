/** One row for a known line kept out of the fit, and the sentence at it. */
import type { CheckedLine } from '../../calibrate/types.ts';
import { checkResult } from '../check-line.ts';
import type { LineHere } from '../line-at-cursor.ts';
import type { ScreenState } from '../state.ts';
import { knownSpans } from './known-columns.ts';
import { offText } from './off-text.ts';
import type { Area, Span } from './spans.ts';

/** Standard uncertainties of the residual beyond which it is worth a second look, as for the lines in the fit. */
const NOTICEABLE = 2;

export function checkRow({ list, at, line }: LineHere, { state, width, look }: Area): readonly Span[] {
  const result = checkResult(state, list, at);
  const analysis = state.result?.analysis ?? null;
  const isAngle = analysis?.calibration.unit === 'arcmin';
  const isGood = result !== null && result.residual !== null && timesU(result) <= NOTICEABLE;
  const sign = result?.residual == null ? '' : isGood ? ` ${look.glyphs.done}` : ' ?';
  const row = {
    number: '',
    label: line.wavelengthNm?.toFixed(2) ?? '',
    wavelengthNm: line.wavelengthNm ?? null,
    form: line,
    deviationDeg: isAngle && result?.ordinate != null ? result.ordinate / 60 : null,
    residual: result?.residual ?? null,
    status: `check line${sign}`,
    isGood,
  };
  return knownSpans(row, state, width);
}

/** What a large residual of a check line means; null where it is small or not known. */
export function checkMessage({ list, at, line }: LineHere, state: ScreenState): string | null {
  const result = checkResult(state, list, at);
  const bench = state.result?.analysis?.bench;
  if (bench === undefined || result === null || result.residual === null || timesU(result) <= NOTICEABLE)
    return null;
  return `The check line ${line.wavelengthNm} lies ${offText(result.residual, bench)} away from the curve, ${timesU(result).toFixed(1)} times its uncertainty: read it again; if it stays, the bench has moved or the curve is wrong there.`;
}

function timesU({ residual, standardUncertainty }: CheckedLine): number {
  return Math.abs(residual ?? 0) / (standardUncertainty ?? Number.POSITIVE_INFINITY);
}
