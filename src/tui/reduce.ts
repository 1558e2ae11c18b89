/** The bench screen's reducer: a state and an action give the next state. Pure. */
import type { Action } from './actions.ts';
import { toggleCheck } from './check-line.ts';
import { commit, goTo, say, withinRows } from './commit.ts';
import { hasReadings } from './edits.ts';
import { cancelled, enterLine } from './enter-line.ts';
import { lineAtCursor, sayNoLine } from './line-at-cursor.ts';
import { clearLine, erase, moveCaret } from './line-typed.ts';
import { pasteText, takePaste } from './paste.ts';
import {
  closedWhenNoLook,
  cycleBrightness,
  editHere,
  editOtherRepeat,
  insist,
  moveInHand,
  moveToSibling,
  nothingThere,
  removeHere,
  repeatLast,
  setAside,
  siblingOf,
  toggleComplete,
  toggleLooking,
} from './reduce-lines.ts';
import { choosePick, insertHere, moveInPick, openPick, typeInPick } from './reduce-pick.ts';
import { writingRow } from './rows.ts';
import { EMPTY_ENTRY, entryWith, type PaletteName, PICTURES, type ScreenState, STAGES } from './state.ts';
import { historyRedone, historyUndone } from './trail.ts';
import { keepingUntaken, recall, withoutReminder } from './untaken.ts';

const PALETTES: readonly PaletteName[] = ['evening', 'dim-red', 'plain'];

export function reduce(state: ScreenState, action: Action): ScreenState {
  return keepingUntaken(state, afterAction(state, action), action);
}

function afterAction(state: ScreenState, action: Action): ScreenState {
  switch (action.type) {
    case 'insert':
      return insertHere(state, action.text);
    case 'erase':
    case 'erase-forward':
      return eraseHere(state, action.type === 'erase-forward');
    case 'clear':
      return clearHere(state);
    case 'caret':
      return moveCaret(state, action.to);
    case 'recall':
      return recall(state);
    case 'enter':
      return enter(state);
    case 'escape':
      return leaveOne(state);
    case 'paste':
      return pasteText(state, action.text);
    case 'take-suggestion':
      return takeSuggestion(state);
    case 'move':
      return move(state, action.by);
    case 'stage':
      return toStage(state, action.by);
    case 'sibling':
      if (state.entry.purpose.kind !== 'row') return state;
      return state.moving ? moveToSibling(state, action.by) : siblingOf(state, action.by);
    case 'repeat':
      return repeatLast(state);
    case 'edit':
      return editHere(state);
    case 'remove':
      return removeHere(state);
    case 'check':
      return toggleCheck(state);
    case 'set-aside':
      return setAside(state);
    case 'insist':
      return insist(state);
    case 'brightness':
      return cycleBrightness(state);
    case 'complete':
      return toggleComplete(state);
    case 'write':
      return startWriting(state, action.what);
    case 'look':
      return toggleLooking(state);
    case 'take-in-hand':
      return takeInHand(state);
    case 'pick':
      return openPick(state, action.purpose, action.query);
    case 'undo':
    case 'redo':
      return travel(state, action.type);
    case 'help':
      return { ...state, overlay: state.overlay?.kind === 'help' ? null : { kind: 'help', first: 0 } };
    case 'picture': {
      const at = PICTURES.indexOf(state.picture) + action.by + PICTURES.length;
      return { ...state, picture: PICTURES[at % PICTURES.length]! };
    }
    case 'palette':
      return { ...state, palette: PALETTES[(PALETTES.indexOf(state.palette) + 1) % PALETTES.length]! };
    case 'bell':
      return say(
        { ...state, bell: !state.bell },
        'plain',
        state.bell ? 'Bell off.' : 'Bell on: one sound for every reading saved.',
      );
    case 'quit':
      return quit(state, action.surely);
    case 'keep-mine':
      return { ...state, overlay: null, request: { kind: 'keep-mine' } };
    case 'take-theirs':
      return takeTheirs(state);
    case 'take-over':
      return { ...state, request: { kind: 'take-over' } };
    case 'analysed':
      return closedWhenNoLook({
        ...state,
        result: { form: action.form, analysis: action.analysis, problem: action.problem },
      });
    case 'kept':
      return {
        ...state,
        keeping: action.keeping,
        fileName: action.fileName,
        notice: action.notice ?? state.notice,
        request: null,
      };
    case 'changed-outside':
      return { ...state, overlay: { kind: 'changed-outside', theirs: action.theirs }, request: null };
    case 'ranking-seen':
      return rankingSeen(state, action.tube);
  }
}

function eraseHere(state: ScreenState, forward: boolean): ScreenState {
  const { overlay } = state;
  if (overlay?.kind === 'pick') return typeInPick(state, overlay, [...overlay.query].slice(0, -1).join(''));
  return erase(state, forward);
}

function clearHere(state: ScreenState): ScreenState {
  const { overlay } = state;
  if (overlay?.kind === 'pick') return typeInPick(state, overlay, '');
  return overlay === null ? clearLine(state) : state;
}

function enter(state: ScreenState): ScreenState {
  const { overlay } = state;
  if (overlay?.kind === 'pick') return choosePick(state, overlay);
  if (overlay?.kind === 'paste') return takePaste(state, overlay);
  if (overlay !== null) return { ...state, overlay: null };
  if (state.moving) return say({ ...state, moving: false }, 'plain', 'Line put down.');
  const isIdle = state.entry.text === '' && state.entry.purpose.kind === 'row';
  return isIdle && state.history.place.stage === 'answer' ? openPick(state, 'answer') : enterLine(state);
}

/** Leaves one thing at a time: the list, the query, the line typed, the line in hand, the looking. */
function leaveOne(state: ScreenState): ScreenState {
  if (state.overlay !== null) return { ...state, overlay: null };
  const { entry } = state;
  if (entry.query !== null) return { ...state, entry: { ...entry, query: null, suggestion: null } };
  if (entry.text !== '' || entry.parts.length > 0 || entry.purpose.kind !== 'row') return cancelled(state);
  if (state.moving) return { ...state, moving: false };
  if (state.looking) return { ...state, looking: false };
  return withoutReminder({ ...state, notice: null });
}

function takeSuggestion(state: ScreenState): ScreenState {
  const { suggestion } = state.entry;
  if (suggestion === null) return state;
  return {
    ...state,
    entry: { ...state.entry, text: suggestion, caret: suggestion.length, query: null, suggestion: null },
  };
}

function move(state: ScreenState, by: number): ScreenState {
  const { overlay } = state;
  if (overlay?.kind === 'pick') return moveInPick(state, overlay, by);
  if (overlay?.kind === 'help')
    return { ...state, overlay: { ...overlay, first: Math.max(0, overlay.first + by) } };
  if (overlay !== null) return state;
  if (state.moving) return moveInHand(state, Math.sign(by));
  if (state.entry.purpose.kind === 'edit') return editOtherRepeat(state, Math.sign(by));
  // What is being written belongs to the row at the cursor.
  if (state.entry.text !== '' || state.entry.purpose.kind !== 'row') return state;
  // In the list of possible tubes the cursor says which one is compared.
  const compareWith = state.history.place.stage === 'answer' ? null : state.compareWith;
  return goTo({ ...state, compareWith, notice: null }, { row: Math.max(0, state.history.place.row + by) });
}

/** To another stage, on the row where one goes on writing there. */
function toStage(state: ScreenState, by: number): ScreenState {
  const at = STAGES.indexOf(state.history.place.stage);
  const stage = STAGES[(at + by + STAGES.length) % STAGES.length]!;
  const row = writingRow(state.history.record, { ...state.history.place, stage });
  // From the answer one goes to the tube to write down what was seen at the place to look at.
  const looking = state.looking && stage === 'tube';
  const next = goTo({ ...state, notice: null, moving: false, looking, entry: EMPTY_ENTRY }, { stage, row });
  const lamp = next.history.record.known[next.history.place.lamp];
  return stage === 'lamp' && lamp?.lamp === undefined && lamp?.lines.length === 0
    ? openPick(next, 'lamp')
    : next;
}

function startWriting(state: ScreenState, what: Extract<Action, { type: 'write' }>['what']): ScreenState {
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
        ? say(state, 'plain', 'A plain scale has no central image.')
        : prompt(state, { kind: 'tube-central' }, '');
    case 'save-as':
      return prompt(state, { kind: 'save-as' }, state.fileName);
    default:
      return prompt(state, { kind: what }, '');
  }
}

function prompt(state: ScreenState, purpose: ScreenState['entry']['purpose'], text: string): ScreenState {
  return { ...state, entry: entryWith(purpose, text), notice: null };
}

function takeInHand(state: ScreenState): ScreenState {
  if (state.history.place.stage === 'lamp') return openPick(state, 'known-line');
  if (lineAtCursor(state) === null) return sayNoLine(state);
  return { ...state, moving: true, notice: null };
}

function travel(state: ScreenState, kind: 'undo' | 'redo'): ScreenState {
  const history = kind === 'undo' ? historyUndone(state.history) : historyRedone(state.history);
  if (history === state.history)
    return say(state, 'plain', kind === 'undo' ? 'Nothing to undo.' : 'Nothing to redo.');
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
  };
  return say(next, 'plain', `${kind === 'undo' ? 'Undone' : 'Done again'}: ${what}.`);
}

/** Asks only when something would be lost. */
function quit(state: ScreenState, surely: boolean): ScreenState {
  const unsaved = state.keeping.kind === 'memory-only' && state.isEdited && hasReadings(state.history.record);
  const typing =
    state.entry.purpose.kind === 'row' && (state.entry.text !== '' || state.entry.parts.length > 0);
  if (surely || state.overlay?.kind === 'quit' || (!unsaved && !typing)) {
    return { ...state, overlay: null, request: { kind: 'quit' } };
  }
  return { ...state, overlay: { kind: 'quit' } };
}

function takeTheirs(state: ScreenState): ScreenState {
  if (state.overlay?.kind !== 'changed-outside' || state.overlay.theirs === null) return state;
  const notice = { tone: 'plain', text: 'The version on disk is taken; u goes back to yours.' } as const;
  return commit(
    { ...state, overlay: null },
    state.overlay.theirs,
    'version on disk taken',
    state.history.place,
    notice,
  );
}

function rankingSeen(state: ScreenState, tube: number): ScreenState {
  const { rankingSeen: seen } = state.history;
  if (seen.includes(tube)) return state;
  return {
    ...state,
    history: { ...state.history, rankingSeen: [...seen, tube] },
    changeCount: state.changeCount + 1,
    lastChange: { kind: 'go' },
  };
}
