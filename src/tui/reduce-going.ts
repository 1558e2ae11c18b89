/** Going from row to row, from stage to stage, and back and forth in the history. */
import { goTo, say, withinRows } from './commit.ts';
import { lineAtCursor, sayNoLine } from './line-at-cursor.ts';
import { choicesOf, isQuestion } from './questions.ts';
import { editOtherRepeat, moveInHand } from './reduce-lines.ts';
import { moveInPick, openPick } from './reduce-pick.ts';
import { writingRow } from './rows.ts';
import { EMPTY_ENTRY, type ScreenState, STAGES } from './state.ts';
import { isWriting } from './target.ts';
import { historyRedone, historyUndone } from './trail.ts';
import { isTyped } from './untaken.ts';

export function move(state: ScreenState, by: number): ScreenState {
  const { overlay } = state;
  if (overlay?.kind === 'pick') return moveInPick(state, overlay, by);
  if (overlay?.kind === 'help')
    return { ...state, overlay: { ...overlay, first: Math.max(0, overlay.first + by) } };
  if (isQuestion(overlay)) {
    const last = choicesOf(overlay, state).length - 1;
    return { ...state, overlay: { ...overlay, cursor: Math.max(0, Math.min(last, overlay.cursor + by)) } };
  }
  if (overlay !== null) return state;
  if (state.moving) return moveInHand(state, Math.sign(by));
  if (state.entry.purpose.kind === 'edit') return editOtherRepeat(state, Math.sign(by));
  if (isWriting(state)) return sayWriting(state);
  // In the list of possible tubes the cursor says which one is compared.
  const compareWith = state.history.place.stage === 'answer' ? null : state.compareWith;
  return goTo({ ...state, compareWith, notice: null }, { row: Math.max(0, state.history.place.row + by) });
}

/** What is being written belongs to the row at the cursor, so one stays there. */
export function sayWriting(state: ScreenState): ScreenState {
  const { entry } = state;
  if (entry.query !== null || entry.refusal !== null) return state;
  const text =
    entry.parts.length > 0
      ? 'The reading is not whole yet: type the rest, or Esc leaves it.'
      : 'Enter takes what is typed first, or Esc leaves it.';
  return say(state, text);
}

/** To another stage, on the row where one goes on writing there. */
export function toStage(state: ScreenState, by: number): ScreenState {
  if (isTyped(state.entry)) return sayWriting(state);
  const at = STAGES.indexOf(state.history.place.stage);
  const stage = STAGES[(at + by + STAGES.length) % STAGES.length]!;
  const row = writingRow(state.history.record, { ...state.history.place, stage }, state.passedOver);
  const next = goTo(
    { ...state, notice: null, moving: false, looking: false, entry: EMPTY_ENTRY },
    { stage, row },
  );
  const lamp = next.history.record.known[next.history.place.lamp];
  return stage === 'lamp' && lamp?.lamp === undefined && lamp?.lines.length === 0
    ? openPick(next, 'lamp')
    : next;
}

export function takeInHand(state: ScreenState): ScreenState {
  if (state.history.place.stage === 'lamp') return openPick(state, 'known-line');
  if (lineAtCursor(state) === null) return sayNoLine(state);
  return { ...state, moving: true, notice: null };
}

/** Lists and the help close over it; a question and the preview of a paste are about the record as it stands. */
export function travel(state: ScreenState, kind: 'undo' | 'redo'): ScreenState {
  if (state.overlay?.kind === 'paste' || isQuestion(state.overlay))
    return say(state, 'Enter or Esc comes first: something is open here.');
  const history = kind === 'undo' ? historyUndone(state.history) : historyRedone(state.history);
  if (history === state.history) return say(state, kind === 'undo' ? 'Nothing to undo.' : 'Nothing to redo.');
  const what = kind === 'undo' ? history.future.at(-1)?.what : history.past.at(-1)?.what;
  const place = withinRows(history.record, history.place, state);
  const next: ScreenState = {
    ...state,
    history: { ...history, place },
    changeCount: state.changeCount + 1,
    lastChange: { kind },
    isEdited: true,
    entry: EMPTY_ENTRY,
    moving: false,
    lastLine: null,
    overlay: null,
  };
  return say(next, `${kind === 'undo' ? 'Undone' : 'Done again'}: ${what}.`);
}
