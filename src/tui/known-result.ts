/** What was computed of a line. */
import type { ToldCalibrationLine } from '../analysis/types.ts';
import { type LineList, linesOf } from './edits.ts';
import type { ScreenState } from './state.ts';

/** Known lines are numbered through all lamps, as the sentences of the calibration number them. */
export function knownLineNumber(
  at: number,
  lamp: number,
  known: readonly { readonly lines: readonly unknown[] }[],
): number {
  return known.slice(0, lamp).reduce((sum, { lines }) => sum + lines.length, 0) + at + 1;
}

/** What the calibration says of a line of a lamp, the one at hand if no other is named. */
export function knownResult(
  at: number,
  state: ScreenState,
  lamp = state.history.place.lamp,
): ToldCalibrationLine | null {
  const found = resultFor(state, { of: 'lamp', at: lamp }, at);
  const wanted = found === null ? -1 : knownLineNumber(at, lamp, found.form.known) - 1;
  return found?.analysis.calibration.lines.find(({ index }) => index === wanted) ?? null;
}

/**
 * The result that belongs to a line. Results come a moment after the edit: one is shown only beside the very line
 * it was computed from.
 */
export function resultFor({ result, history }: ScreenState, list: LineList, at: number) {
  if (result?.analysis == null) return null;
  const { form, analysis } = result;
  return linesOf(form, list)[at] === linesOf(history.record, list)[at] ? { form, analysis } : null;
}
