/** What keys do to the line being typed and to what lies open over it. */
import type { Action } from './actions.ts';
import { say } from './commit.ts';
import { otherReading } from './decimals.ts';
import { cancelled, enterLine } from './enter-line.ts';
import { lineAtCursor, sayNoLine } from './line-at-cursor.ts';
import { clearLine, erase } from './line-typed.ts';
import { nothingThere } from './looking.ts';
import { takePaste } from './paste.ts';
import { choosePick, openPick, typeInPick } from './reduce-pick.ts';
import { entryWith, type ScreenState, unasked } from './state.ts';
import { withoutReminder } from './untaken.ts';

export function eraseHere(state: ScreenState, forward: boolean): ScreenState {
  const { overlay } = state;
  if (overlay === null) return erase(state, forward);
  // The caret of a list stands behind the last letter; what lies under anything open is not in sight.
  if (overlay.kind !== 'pick' || forward) return state;
  return typeInPick(state, overlay, [...overlay.query].slice(0, -1).join(''));
}

export function clearHere(state: ScreenState): ScreenState {
  const { overlay } = state;
  if (overlay?.kind === 'pick') return typeInPick(state, overlay, '');
  return overlay === null ? clearLine(state) : state;
}

export function enter(state: ScreenState): ScreenState {
  const { overlay } = state;
  if (overlay?.kind === 'pick') return choosePick(state, overlay);
  if (overlay?.kind === 'paste') return takePaste(state, overlay);
  if (overlay !== null) return { ...state, overlay: null };
  if (state.moving) return say({ ...state, moving: false }, 'Line put down.');
  const isIdle = state.entry.text === '' && state.entry.purpose.kind === 'row';
  return isIdle && state.history.place.stage === 'answer' ? openPick(state, 'answer') : enterLine(state);
}

/** Leaves one thing at a time: the list, the query, the line typed, the line in hand, the looking. */
export function leaveOne(state: ScreenState): ScreenState {
  if (state.overlay !== null) return { ...state, overlay: null };
  const { entry } = state;
  if (entry.query !== null) return { ...state, entry: unasked(entry) };
  if (entry.text !== '' || entry.parts.length > 0 || entry.purpose.kind !== 'row') return cancelled(state);
  if (state.moving) return { ...state, moving: false };
  if (state.looking) return { ...state, looking: false };
  return withoutReminder({ ...state, notice: null });
}

export function takeSuggestion(state: ScreenState): ScreenState {
  const { suggestion, decimals } = state.entry;
  if (suggestion === null) return state;
  const chosenDecimals = decimals === null ? null : otherReading(decimals);
  const taken = { text: suggestion, caret: suggestion.length, chosenDecimals };
  return { ...state, entry: { ...unasked(state.entry), ...taken } };
}

export function startWriting(
  state: ScreenState,
  what: Extract<Action, { type: 'write' }>['what'],
): ScreenState {
  const here = lineAtCursor(state);
  const tube = state.history.record.unknown[state.history.place.tube];
  switch (what) {
    case 'note':
      return here === null
        ? sayNoLine(state)
        : prompt(state, { kind: 'note', line: here.at }, here.line.note ?? '');
    case 'label':
      return prompt(state, { kind: 'label' }, tube?.label ?? '');
    case 'not-seen':
      return nothingThere(state);
    case 'tube-central':
      return state.history.record.instrument.method === 'scale'
        ? say(state, 'A plain scale has no central image.')
        : prompt(state, { kind: 'tube-central' }, '');
    case 'report':
      return prompt(state, { kind: 'report' }, reportPath(state.fileName));
    case 'save-as':
      return prompt(state, { kind: 'save-as' }, state.fileName);
    default:
      return prompt(state, { kind: what }, '');
  }
}

function prompt(state: ScreenState, purpose: ScreenState['entry']['purpose'], text: string): ScreenState {
  return { ...state, entry: entryWith(purpose, text), notice: null };
}

/** `bench.json` -> `bench-report.html`, beside the record. */
function reportPath(recordName: string): string {
  return `${recordName.replace(/\.json$/i, '')}-report.html`;
}
