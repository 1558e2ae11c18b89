/** One row of the known lamp: the line's number, its wavelength, its reading, and how it lies on the curve. */

import type { ToldCalibration, ToldCalibrationLine } from '../../analysis/types.ts';
import { wayTo } from '../action-list.ts';

import type { LineForm } from '../form.ts';
import { knownLineNumber, knownResult } from '../known-result.ts';
import type { ScreenState } from '../state.ts';
import { doubtAtLine } from './doubts.ts';
import { knownSpans } from './known-columns.ts';
import { offText } from './off-text.ts';
import type { Area, Span } from './spans.ts';
import type { Look } from './theme.ts';

/** The sentence at a line: the calibration's own, or what the sign of a large residual means; null without one. */
export function knownLineMessage(at: number, state: ScreenState): string | null {
  const { record, place } = state.history;
  if (record.known[place.lamp]?.lines[at]?.use === false)
    return `Set aside by you: kept in the record, out of all computation. ${wayTo('set-aside')} takes it back.`;
  const result = knownResult(at, state);
  const analysis = state.result?.analysis ?? null;
  if (result === null || analysis === null) return null;
  const { bench, calibration } = analysis;
  if (result.message !== null || result.status !== 'used' || !isFarOff(result))
    return doubtAtLine(result, calibration.doubts);
  const { index, residual, standardUncertainty } = result;
  const times = Math.abs(residual! / standardUncertainty!).toFixed(1);
  return `Known line ${index + 1} lies ${offText(residual, bench)} away from the curve, ${times} times its uncertainty: read it again.`;
}

export function knownLine(at: number, form: LineForm, { state, width, look }: Area): readonly Span[] {
  const { record, place } = state.history;
  const result = knownResult(at, state);
  const nm = result?.wavelengthNm ?? form.wavelengthNm ?? null;
  const stated = form.wavelengthNm ?? null;
  const analysis = state.result?.analysis ?? null;
  const isOut = form.use === false;
  const isFitting = result !== null && analysis !== null && isOnTheCurve(result, analysis.calibration);
  const tellsNothing = isFitting && analysis.calibration.lines.filter(isInCurve).length < TELLING_LINES;
  const row = {
    number: String(knownLineNumber(at, place.lamp, record.known)),
    label: stated !== null ? stated.toFixed(2) : nm === null ? '?' : `${nm.toFixed(1)}?`,
    wavelengthNm: nm,
    form,
    deviationDeg: result?.deviationDeg ?? null,
    residual: result?.residual ?? null,
    status: isOut
      ? 'set aside by you'
      : tellsNothing
        ? form.confirmed === true
          ? 'too few (held)'
          : 'too few to tell'
        : statusText(result, isFitting, form, look),
    isGood: isFitting && !isOut,
  };
  return knownSpans(row, state, width);
}

/** A curve goes through any two lines, right or wrong: from so many on, fitting says something. */
const TELLING_LINES = 3;

function isInCurve({ status }: ToldCalibrationLine): boolean {
  return status !== 'set-aside';
}

/** Standard uncertainties of the row beyond which a residual is worth a second look. */
const NOTICEABLE = 2;

function isFarOff({ residual, standardUncertainty }: ToldCalibrationLine): boolean {
  if (residual === null || standardUncertainty === null) return false;
  return Math.abs(residual) > NOTICEABLE * standardUncertainty;
}

/** True where the line may carry a plain tick: near the curve, and the lines scatter no more than is usual. */
function isOnTheCurve(line: ToldCalibrationLine, { warnings }: ToldCalibration): boolean {
  if (line.status !== 'used' || line.message !== null || line.residual === null) return false;
  return !isFarOff(line) && !warnings.some(({ code }) => code === 'large-scatter');
}

function statusText(result: ToldCalibrationLine | null, isGood: boolean, form: LineForm, look: Look): string {
  const { doubt, done } = look.glyphs;
  const held = form.confirmed === true ? ' (held)' : '';
  if (result === null) return '...';
  if (result.status === 'slip') return `${doubt} a slip?${held}`;
  if (result.status === 'reassigned') return `${doubt} rather ${result.wavelengthNm?.toFixed(1)}${held}`;
  if (result.status === 'set-aside') return `${doubt} set aside${held}`;
  if (result.message !== null) return `${doubt}${held}`;
  if (result.residual === null) return held;
  return `${isGood ? done : '?'}${held}`;
}
