/** What the calibration says of a line of the known lamp at hand. */
import type { ToldCalibrationLine } from '../analysis/types.ts';

import type { ScreenState } from './state.ts';

/** Known lines are numbered through all lamps, as the sentences of the calibration number them. */
export function knownLineNumber(
  at: number,
  lamp: number,
  known: readonly { readonly lines: readonly unknown[] }[],
): number {
  return known.slice(0, lamp).reduce((sum, { lines }) => sum + lines.length, 0) + at + 1;
}

/**
 * The result that belongs to a line. Results come a moment after the edit: one is shown only beside the very line
 * it was computed from.
 */
export function knownResult(at: number, state: ScreenState): ToldCalibrationLine | null {
  const { result, history } = state;
  const { lamp } = history.place;
  if (
    result?.analysis == null ||
    result.form.known[lamp]?.lines[at] !== history.record.known[lamp]?.lines[at]
  )
    return null;
  const wanted = knownLineNumber(at, lamp, result.form.known) - 1;
  return result.analysis.calibration.lines.find(({ index }) => index === wanted) ?? null;
}
