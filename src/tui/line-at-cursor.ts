/** The line that a key is about. */
import { say } from './commit.ts';
import { type LineList, linesOf } from './edits.ts';
import type { LineForm } from './form.ts';
import { listAt, rowAtCursor } from './rows.ts';
import type { ScreenState } from './state.ts';

export interface LineHere {
  readonly list: LineList;
  /** Its position in the list. */
  readonly at: number;
  readonly line: LineForm;
}

/** The line at the cursor with the list it stands in; null on a row that is no line. */
export function lineAtCursor(state: ScreenState): LineHere | null {
  const row = rowAtCursor(state);
  const list = listAt(state.history.place, row);
  if (list === null || (row?.kind !== 'line' && row?.kind !== 'check')) return null;
  const line = linesOf(state.history.record, list)[row.line];
  return line === undefined ? null : { list, at: row.line, line };
}

export function sayNoLine(state: ScreenState): ScreenState {
  return say(state, 'There is no line written down here; the arrow keys go to one.');
}
