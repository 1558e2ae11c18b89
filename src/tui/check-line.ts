/** Check lines: known lines kept out of the fit, which say whether the bench has moved since the calibration. */
import type { CheckedLine } from '../calibrate/types.ts';
import { wayTo } from './action-list.ts';
import { commit, say } from './commit.ts';
import { addLine, editLines, isCheckList, type LineList, linesOf } from './edits.ts';
import { resultFor } from './known-result.ts';
import { lineAtCursor, sayNoLine } from './line-at-cursor.ts';
import { rowOfLine } from './rows.ts';
import type { ScreenState } from './state.ts';

/** The known line at the cursor out of the fit as a check line, or a check line back into it. */
export function toggleCheck(state: ScreenState): ScreenState {
  const here = lineAtCursor(state);
  if (here === null) return sayNoLine(state);
  const { record, place } = state.history;
  const { wavelengthNm, confirmed: _held, use: _use, ...line } = here.line;
  if (wavelengthNm === undefined)
    return say(
      state,
      `A check line needs its wavelength: say first which line it is (${wayTo('which-line')}).`,
    );
  const isCheck = isCheckList(here.list);
  const to: LineList = { of: isCheck ? 'lamp' : 'lamp-check', at: place.lamp };
  const without = editLines(record, here.list, (lines) => lines.filter((_, at) => at !== here.at));
  const form = addLine(without, to, { wavelengthNm, ...line });
  const row = rowOfLine(form, place, to, linesOf(form, to).length - 1);
  const what = isCheck
    ? `${wavelengthNm} back in the curve`
    : `${wavelengthNm} a check line, out of the curve`;
  const text = isCheck
    ? `${wavelengthNm} is back in the curve. ${wayTo('undo')} undoes.`
    : `${wavelengthNm} is a check line now, out of the curve: it tests it. ${wayTo('check-line')} puts it back.`;
  return { ...commit(state, form, what, { ...place, row }, text), lastLine: null };
}

/** The check lines of the whole bench that have their place on the curve: those of the record, then each lamp's. */
export function checksOnCurve(state: ScreenState): readonly { wavelengthNm: number; residual: number }[] {
  const { record } = state.history;
  const lists: readonly LineList[] = [
    { of: 'bench-check', at: 0 },
    ...record.known.map((_, at) => ({ of: 'lamp-check', at }) as const),
  ];
  return lists.flatMap((list) =>
    linesOf(record, list).flatMap(({ wavelengthNm }, at) => {
      const residual = checkResult(state, list, at)?.residual ?? null;
      return wavelengthNm === undefined || residual === null ? [] : [{ wavelengthNm, residual }];
    }),
  );
}

/** Null while the record has not been computed as it stands. */
export function checkResult(state: ScreenState, list: LineList, at: number): CheckedLine | null {
  const found = resultFor(state, list, at);
  if (found === null) return null;
  const { check = [], known } = found.form;
  // The bench has the record's own check lines first, then those of each lamp.
  const ofLamps = known.slice(0, list.at).flatMap((lamp) => lamp.check ?? []);
  const before = list.of === 'bench-check' ? 0 : check.length + ofLamps.length;
  return found.analysis.calibration.checks[before + at] ?? null;
}
