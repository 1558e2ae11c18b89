/** The bench screen's reducer: a state and an action give the next state. Pure. */
import { type BenchAction, benchAction, isHere, wayTo } from './action-list.ts';
import type { Action } from './actions.ts';
import { toggleCheck } from './check-line.ts';
import { commit, say } from './commit.ts';
import { hasReadings } from './edits.ts';
import { passOver, takeNames } from './known-lamp.ts';
import { moveCaret } from './line-typed.ts';
import { closedWhenNoLook, toggleLooking } from './looking.ts';
import { otherDecimals, pasteText } from './paste.ts';
import { pickItems } from './picker.ts';
import { choicesOf, isQuestion } from './questions.ts';
import { move, sayWriting, takeInHand, toStage, travel } from './reduce-going.ts';
import {
  cycleBrightness,
  editHere,
  insist,
  moveToSibling,
  removeHere,
  repeatLast,
  setAside,
  siblingOf,
  toggleComplete,
} from './reduce-lines.ts';
import { insertHere, openPick } from './reduce-pick.ts';
import { clearHere, enter, eraseHere, leaveOne, startWriting, takeSuggestion } from './reduce-typing.ts';
import { reportSentence } from './report-file.ts';
import { entryWith, type PaletteName, PICTURES, pictureHere, type ScreenState, STAGES } from './state.ts';
import { isWriting } from './target.ts';
import { isTyped, keepingUntaken, recall, untakenText } from './untaken.ts';

const PALETTES: readonly PaletteName[] = ['evening', 'dim-red', 'plain'];

export function reduce(state: ScreenState, action: Action): ScreenState {
  return keepingUntaken(state, afterAction(state, action), action);
}

/** What the actions do that are no more than their name. */
const PLAIN_ACTIONS = {
  erase: (state: ScreenState): ScreenState => eraseHere(state, false),
  'erase-forward': (state: ScreenState): ScreenState => eraseHere(state, true),
  clear: clearHere,
  recall,
  enter: enterHere,
  escape: leaveOne,
  'take-suggestion': takeSuggestion,
  'other-decimals': otherDecimals,
  repeat: repeatLast,
  edit: editHere,
  remove: removeHere,
  check: toggleCheck,
  'set-aside': setAside,
  insist,
  'pass-over': passOver,
  'take-names': takeNames,
  brightness: cycleBrightness,
  complete: toggleComplete,
  look: toggleLooking,
  'take-in-hand': takeInHand,
  undo: (state: ScreenState): ScreenState => travel(state, 'undo'),
  redo: (state: ScreenState): ScreenState => travel(state, 'redo'),
  help: (state: ScreenState): ScreenState => ({
    ...state,
    overlay: state.overlay?.kind === 'help' ? null : { kind: 'help', first: 0 },
  }),
  picture: nextPicture,
  palette: (state: ScreenState): ScreenState => ({
    ...state,
    palette: PALETTES[(PALETTES.indexOf(state.palette) + 1) % PALETTES.length]!,
  }),
  bell: (state: ScreenState): ScreenState =>
    say(
      { ...state, bell: !state.bell },
      state.bell ? 'Bell off.' : 'Bell on: one sound for every reading saved.',
    ),
  'keep-mine': (state: ScreenState): ScreenState => ({
    ...state,
    overlay: null,
    request: { kind: 'keep-mine' },
  }),
  'take-theirs': takeTheirs,
  'take-over': (state: ScreenState): ScreenState => ({ ...state, request: { kind: 'take-over' } }),
} satisfies Readonly<Record<string, (state: ScreenState) => ScreenState>>;

/** Actions that are no more than their name. */
export type PlainAction = keyof typeof PLAIN_ACTIONS;

function afterAction(state: ScreenState, action: Action): ScreenState {
  switch (action.type) {
    case 'insert':
      return insertHere(state, action.text);
    case 'caret':
      return state.overlay === null ? moveCaret(state, action.to) : state;
    case 'paste':
      return pasteText(state, action.text, action.isCut);
    case 'move':
      return move(state, action.by);
    case 'stage':
      return toStage(state, action.by);
    case 'sibling':
      if (isWriting(state)) return sayWriting(state);
      return state.moving ? moveToSibling(state, action.by) : siblingOf(state, action.by);
    case 'write':
      return startWriting(state, action.what);
    case 'pick':
      return openPick(state, action.purpose, action.query);
    case 'quit':
      return quit(state, action.surely);
    case 'analysed':
      return closedWhenNoLook({ ...state, result: action.result });
    case 'kept': {
      const { keeping, fileName, notice } = action;
      return { ...state, keeping, fileName, notice: notice ?? state.notice, request: null };
    }
    case 'report-done':
      return reportDone({ ...state, request: null }, action);
    case 'changed-outside': {
      const overlay = { kind: 'changed-outside', theirs: action.theirs, cursor: 0 } as const;
      return { ...state, overlay, request: null };
    }
    case 'ranking-seen':
      return rankingSeen(state, action.tube);
    default:
      return PLAIN_ACTIONS[action.type](state);
  }
}

function nextPicture(state: ScreenState): ScreenState {
  const { stage } = state.history.place;
  const views = PICTURES[stage];
  const next = views[(views.indexOf(pictureHere(state)) + 1) % views.length]!;
  return { ...state, pictures: { ...state.pictures, [stage]: next } };
}

/** Enter in a question or in the list of actions does what was chosen; anywhere else it takes the line. */
function enterHere(state: ScreenState): ScreenState {
  const { overlay } = state;
  if (isQuestion(overlay)) {
    const chosen = choicesOf(overlay, state)[overlay.cursor];
    if (chosen === undefined) return state;
    return afterAction(chosen.action.type === 'write' ? { ...state, overlay: null } : state, chosen.action);
  }
  if (overlay?.kind !== 'pick' || overlay.purpose !== 'action') return enter(state);
  const [chosen] = pickItems(state, 'action', overlay.query).slice(overlay.cursor);
  const action = chosen === undefined ? undefined : benchAction(chosen.value);
  if (action !== undefined && isOfAnotherList(action, state))
    return say(
      { ...state, overlay: null },
      'Nothing is written down in this list; stages 1 to 3 have what is.',
    );
  if (action === undefined) return enter(state);
  const closed: ScreenState = { ...state, overlay: null, recentAction: action.id };
  return afterAction(atStageOf(action, closed), action.action);
}

/** Editing and deleting are about the row at the cursor, not about the first one of another stage. */
function isOfAnotherList(action: BenchAction, { history }: ScreenState): boolean {
  return ['edit', 'delete'].includes(action.id) && !isHere(action, history.place.stage);
}

/** What belongs to another stage is done there. */
function atStageOf(action: BenchAction, state: ScreenState): ScreenState {
  const { stage } = state.history.place;
  const [first = stage] = action.at ?? [];
  if (isHere(action, stage)) return state;
  return { ...toStage(state, STAGES.indexOf(first) - STAGES.indexOf(stage)), overlay: null };
}

/** What is being typed by then stays; the question about a file that is there waits in its own prompt. */
function reportDone(
  state: ScreenState,
  { path, outcome }: Extract<Action, { type: 'report-done' }>,
): ScreenState {
  const sentence = reportSentence(path, outcome);
  if (outcome.kind === 'written') return say(state, sentence, 'good');
  if (isWriting(state) || state.overlay !== null) return say(state, sentence, 'doubt');
  const prompt = entryWith({ kind: 'report' }, path);
  return outcome.kind === 'refused'
    ? { ...state, entry: { ...prompt, refusal: outcome.problem }, notice: null }
    : { ...state, entry: { ...prompt, query: [`${path} is there already`] }, notice: null };
}

/** Asks only when something would be lost. */
function quit(state: ScreenState, surely: boolean): ScreenState {
  const unsaved = state.keeping.kind === 'memory-only' && state.isEdited && hasReadings(state.history.record);
  const typing = state.entry.purpose.kind !== 'quick-check' && isTyped(state.entry);
  const isLosing = unsaved || typing || untakenText(state) !== null;
  if (surely || state.overlay?.kind === 'quit' || !isLosing) {
    return { ...state, overlay: null, request: { kind: 'quit' } };
  }
  return { ...state, overlay: { kind: 'quit', cursor: 0 } };
}

function takeTheirs(state: ScreenState): ScreenState {
  if (state.overlay?.kind !== 'changed-outside' || state.overlay.theirs === null) return state;
  const { theirs } = state.overlay;
  const said = `The version on disk is taken; ${wayTo('undo')} goes back to yours.`;
  return commit({ ...state, overlay: null }, theirs, 'version on disk taken', state.history.place, said);
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
