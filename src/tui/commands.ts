/** Keys into actions. Letters are commands only while nothing is being typed; a reading begins with a digit. */
import type { Action } from './actions.ts';
import { commandsHere } from './command-list.ts';
import type { KeyEvent, NamedKey } from './keys.ts';
import { rowAtCursor, takesLetters } from './rows.ts';
import type { ScreenState } from './state.ts';
import { isWriting } from './target.ts';

/** The actions of one key where the person is; usually one, none where the key means nothing. */
export function actionFor(state: ScreenState, key: KeyEvent): Action | null {
  switch (key.kind) {
    case 'paste':
      return { type: 'paste', text: key.text, isCut: key.isCut };
    case 'ctrl':
      return ctrlAction(key.letter);
    case 'named':
      return namedAction(state, key.name);
    case 'text':
      return null;
  }
}

/** The actions of a run of characters: commands while nothing is typed, text from the first other character on. */
export function actionForText(state: ScreenState, character: string): Action | null {
  const { overlay } = state;
  if (overlay?.kind === 'quit') return overlayQuit(character);
  if (overlay?.kind === 'changed-outside') return overlayChanged(character);
  if (overlay?.kind === 'help' || overlay?.kind === 'paste') {
    return character === '?' || character === 'q' ? { type: 'escape' } : null;
  }
  if (overlay !== null || isWriting(state)) return { type: 'insert', text: character };
  const command = commandsHere(state).find(({ key }) => key === character);
  if (command !== undefined) return command.action;
  // On the answer's stage every letter begins the name of a gas, without opening the list first.
  if (state.history.place.stage === 'answer' && /\p{L}/u.test(character)) {
    return { type: 'pick', purpose: 'answer', query: character };
  }
  return startsLine(state, character) ? { type: 'insert', text: character } : null;
}

function startsLine(state: ScreenState, character: string): boolean {
  if (takesLetters(state) && /\p{L}/u.test(character)) return true;
  if (/[\d.]/.test(character)) return true;
  return takesSides(state) && /[lr]/.test(character);
}

/** `left 229 21 right 132 48`: a line read on both sides, or the apex angle as its two reflected images. */
function takesSides(state: ScreenState): boolean {
  const row = rowAtCursor(state);
  if (row?.kind === 'field') return row.field === 'apexAngle';
  const { place, record } = state.history;
  return record.instrument.method === 'both-sides' && (place.stage === 'lamp' || place.stage === 'tube');
}

function overlayQuit(character: string): Action | null {
  if (character === 'y' || character === 'q') return { type: 'quit', surely: true };
  return character === 'n' ? { type: 'escape' } : null;
}

function overlayChanged(character: string): Action | null {
  if (character === 'm') return { type: 'keep-mine' };
  return character === 't' ? { type: 'take-theirs' } : null;
}

function ctrlAction(letter: string): Action | null {
  const actions: Readonly<Record<string, Action>> = {
    c: { type: 'quit', surely: false },
    z: { type: 'undo' },
    y: { type: 'redo' },
    r: { type: 'redo' },
    a: { type: 'caret', to: 'start' },
    e: { type: 'caret', to: 'end' },
    u: { type: 'clear' },
    p: { type: 'recall' },
  };
  return actions[letter] ?? null;
}

function namedAction(state: ScreenState, name: NamedKey): Action | null {
  const typing = state.entry.text !== '';
  const page = 8;
  switch (name) {
    case 'enter':
      return { type: 'enter' };
    case 'escape':
      return { type: 'escape' };
    case 'backspace':
      return { type: 'erase' };
    case 'delete':
      return typing || state.overlay !== null ? { type: 'erase-forward' } : { type: 'remove' };
    case 'tab':
      if (state.overlay?.kind === 'paste') return { type: 'other-decimals' };
      if (state.entry.suggestion !== null) return { type: 'take-suggestion' };
      return state.overlay === null ? { type: 'stage', by: 1 } : null;
    case 'back-tab':
      return state.overlay === null ? { type: 'stage', by: -1 } : null;
    case 'up':
      return { type: 'move', by: -1 };
    case 'down':
      return { type: 'move', by: 1 };
    case 'page-up':
      return { type: 'move', by: -page };
    case 'page-down':
      return { type: 'move', by: page };
    case 'left':
    case 'right':
      if (typing) return { type: 'caret', to: name };
      return state.overlay === null ? { type: 'sibling', by: name === 'left' ? -1 : 1 } : null;
    case 'home':
      return typing ? { type: 'caret', to: 'start' } : { type: 'move', by: -Number.MAX_SAFE_INTEGER };
    case 'end':
      return typing ? { type: 'caret', to: 'end' } : { type: 'move', by: Number.MAX_SAFE_INTEGER };
  }
}
