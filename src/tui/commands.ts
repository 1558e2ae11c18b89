/** Keys into actions. Letters are always text; the few direct keys are in the list of actions. */
import { actionsHere, BENCH_ACTIONS, type BenchAction, OPENS_LIST } from './action-list.ts';
import type { Action } from './actions.ts';
import type { KeyEvent, NamedKey } from './keys.ts';
import type { ScreenState } from './state.ts';
import { isWriting } from './target.ts';

/** The action of one key where the person is; null where the key means nothing. */
export function actionFor(state: ScreenState, key: KeyEvent): Action | null {
  switch (key.kind) {
    case 'paste':
      return { type: 'paste', text: key.text, isCut: key.isCut };
    case 'ctrl':
      return LINE_KEYS[key.letter] ?? keyed(BENCH_ACTIONS, `Ctrl+${key.letter.toUpperCase()}`);
    case 'named':
      return namedAction(state, key.name);
    case 'text':
      return null;
  }
}

/** The action of one character: a direct key while nothing is typed, text otherwise. */
export function actionForText(state: ScreenState, character: string): Action | null {
  const { overlay, history } = state;
  if (overlay?.kind === 'pick') return { type: 'insert', text: character };
  if (overlay !== null) return overlay.kind === 'help' && character === '?' ? { type: 'escape' } : null;
  if (isWriting(state)) return { type: 'insert', text: character };
  if (character === OPENS_LIST) return { type: 'pick', purpose: 'action' };
  const direct = keyed(actionsHere(state), character === ' ' ? 'Space' : character);
  if (direct !== null) return direct;
  // On the answer's stage every letter begins the name of a gas, without opening the list first.
  if (history.place.stage === 'answer' && /\p{L}/u.test(character)) {
    return { type: 'pick', purpose: 'answer', query: character };
  }
  return character.trim() === '' ? null : { type: 'insert', text: character };
}

/** Editing the line typed; all other keys with Ctrl are in the list. */
const LINE_KEYS: Readonly<Record<string, Action>> = {
  a: { type: 'caret', to: 'start' },
  e: { type: 'caret', to: 'end' },
  u: { type: 'clear' },
};

function keyed(actions: readonly BenchAction[], key: string): Action | null {
  return actions.find((each) => each.key === key)?.action ?? null;
}

function namedAction(state: ScreenState, name: NamedKey): Action | null {
  const isOpen = state.overlay !== null;
  const typing = state.entry.text !== '' && !isOpen;
  const page = 8;
  switch (name) {
    case 'enter':
      return { type: 'enter' };
    case 'escape':
      return { type: 'escape' };
    case 'backspace':
      return { type: 'erase' };
    case 'delete':
      return isOpen || isWriting(state) ? { type: 'erase-forward' } : keyed(BENCH_ACTIONS, 'Delete');
    case 'tab':
      if (state.overlay?.kind === 'paste') return { type: 'other-decimals' };
      if (isOpen) return null;
      return state.entry.suggestion === null ? { type: 'stage', by: 1 } : { type: 'take-suggestion' };
    case 'ctrl-right':
      return isOpen ? null : { type: 'stage', by: 1 };
    case 'back-tab':
    case 'ctrl-left':
      return isOpen ? null : { type: 'stage', by: -1 };
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
      return isOpen ? null : { type: 'sibling', by: name === 'left' ? -1 : 1 };
    case 'home':
      return typing ? { type: 'caret', to: 'start' } : { type: 'move', by: -Number.MAX_SAFE_INTEGER };
    case 'end':
      return typing ? { type: 'caret', to: 'end' } : { type: 'move', by: Number.MAX_SAFE_INTEGER };
    case 'F2':
    case 'F3':
    case 'F4':
      // A key of its own acts while nothing is typed, and where its action belongs.
      return isOpen || isWriting(state) ? null : keyed(actionsHere(state), name);
  }
}
