/** Small steps that every part of the reducer takes. */
import type { BenchForm } from './form.ts';
import { rowsAt } from './rows.ts';
import { EMPTY_ENTRY, type Notice, type Place, type ScreenState } from './state.ts';
import { historyEdited } from './trail.ts';

/** The state after an edit of the record; the line typed is done with. `said`: of it, a sentence alone is plain. */
export function commit(
  state: ScreenState,
  form: BenchForm,
  what: string,
  place: Place = state.history.place,
  said: Notice | string | null = null,
): ScreenState {
  const notice = typeof said === 'string' ? ({ tone: 'plain', text: said } as const) : said;
  return {
    ...state,
    history: historyEdited(state.history, form, withinRows(form, place, state), what),
    changeCount: state.changeCount + 1,
    lastChange: { kind: 'edit', what },
    isEdited: true,
    entry: EMPTY_ENTRY,
    notice,
  };
}

/** The state at another place; nothing is recorded. */
export function goTo(state: ScreenState, place: Partial<Place>): ScreenState {
  const wanted = { ...state.history.place, ...place };
  return {
    ...state,
    history: { ...state.history, place: withinRows(state.history.record, wanted, state) },
  };
}

export function say(state: ScreenState, text: string, tone: Notice['tone'] = 'plain'): ScreenState {
  return { ...state, notice: { tone, text } };
}

export function withinRows(form: BenchForm, place: Place, state: ScreenState): Place {
  const lamp = Math.min(place.lamp, form.known.length - 1);
  const tube = Math.min(place.tube, form.unknown.length - 1);
  const candidates = state.result?.analysis?.tubes[tube]?.candidates.length ?? 0;
  const rows = rowsAt(form, { ...place, lamp, tube }, candidates).length;
  return { ...place, lamp, tube, row: Math.max(0, Math.min(place.row, rows - 1)) };
}
