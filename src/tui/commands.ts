/**
 * What each key does where. One table serves the keyboard and the help, so that they cannot disagree.
 * Letters are commands only while nothing is being typed; a reading begins with a digit.
 */
import type { Action } from './actions.ts';
import type { KeyEvent, NamedKey } from './keys.ts';
import { rowAtCursor } from './rows.ts';
import type { ScreenState, Stage } from './state.ts';

export interface Command {
  readonly key: string;
  readonly does: string;
  /** Stages in which it means something; missing: everywhere. */
  readonly at?: readonly Stage[];
  readonly action: Action;
  /** Shown in the bottom line of the stage, shortest words. */
  readonly short?: string;
}

export const COMMANDS: readonly Command[] = [
  {
    key: '+',
    does: 'the next reading is a repeat of the line just read',
    short: 'repeat',
    at: ['lamp', 'tube'],
    action: { type: 'repeat' },
  },
  {
    key: 'e',
    does: 'edit the reading here (up and down: its other repeats)',
    short: 'edit',
    at: ['circle', 'lamp', 'tube'],
    action: { type: 'edit' },
  },
  {
    key: 'd',
    does: 'delete the last reading here',
    short: 'delete',
    at: ['circle', 'lamp', 'tube'],
    action: { type: 'remove' },
  },
  {
    key: 'm',
    does: 'move: take the line in hand, arrows move it (left and right: to another tube)',
    short: 'move',
    at: ['tube'],
    action: { type: 'take-in-hand' },
  },
  {
    key: 'm',
    does: 'say which line of the lamp this reading is',
    short: 'which line',
    at: ['lamp'],
    action: { type: 'take-in-hand' },
  },
  {
    key: 'i',
    does: 'set the line aside, or take it back',
    short: 'set aside',
    at: ['lamp', 'tube'],
    action: { type: 'set-aside' },
  },
  {
    key: 'k',
    does: 'colour of the line',
    short: 'colour',
    at: ['lamp', 'tube'],
    action: { type: 'pick', purpose: 'colour' },
  },
  {
    key: 'b',
    does: 'brightness: strong, medium, weak',
    short: 'brightness',
    at: ['lamp', 'tube'],
    action: { type: 'brightness' },
  },
  { key: 'o', does: 'note on the line', at: ['lamp', 'tube'], action: { type: 'write', what: 'note' } },
  {
    key: 'h',
    does: 'hold on to this wavelength whatever the curve says, or let go',
    at: ['lamp'],
    action: { type: 'insist' },
  },
  {
    key: 'l',
    does: 'choose the known lamp',
    short: 'lamp',
    at: ['lamp'],
    action: { type: 'pick', purpose: 'lamp' },
  },
  {
    key: 'n',
    does: 'where to look next',
    short: 'look next',
    at: ['tube', 'answer'],
    action: { type: 'look' },
  },
  {
    key: 'x',
    does: 'looked, nothing there',
    short: 'nothing there',
    at: ['tube'],
    action: { type: 'write', what: 'not-seen' },
  },
  {
    key: 'f',
    does: 'all lines that can be seen are written down, or not',
    at: ['tube'],
    action: { type: 'complete' },
  },
  {
    key: 'z',
    does: 'the central image read again for this tube',
    at: ['tube'],
    action: { type: 'write', what: 'tube-central' },
  },
  {
    key: 't',
    does: 'another tube, or a new one',
    short: 'tubes',
    at: ['tube', 'answer'],
    action: { type: 'pick', purpose: 'tube' },
  },
  { key: 'l', does: 'label of the tube', at: ['tube'], action: { type: 'write', what: 'label' } },
  {
    key: 's',
    does: 'the shelf: which tubes it can be',
    at: ['tube', 'answer'],
    action: { type: 'pick', purpose: 'shelf' },
  },
  {
    key: 'a',
    does: 'write your answer',
    short: 'answer',
    at: ['tube', 'answer'],
    action: { type: 'pick', purpose: 'answer' },
  },
  {
    key: 'p',
    does: 'compare with the lines of another tube',
    short: 'compare',
    at: ['tube', 'answer'],
    action: { type: 'pick', purpose: 'compare' },
  },
  {
    key: 'c',
    does: 'quick check: a reading into a wavelength, nothing is written down',
    short: 'check',
    action: { type: 'write', what: 'quick-check' },
  },
  {
    key: ' ',
    does: 'next picture: list, strip, curve, residuals, possible tubes',
    short: 'picture',
    action: { type: 'picture', by: 1 },
  },
  { key: 'u', does: 'undo', short: 'undo', action: { type: 'undo' } },
  { key: 'y', does: 'do again what was undone', action: { type: 'redo' } },
  { key: 'v', does: 'colours: evening, dim red, none', short: 'dim red', action: { type: 'palette' } },
  { key: 'j', does: 'bell on or off', action: { type: 'bell' } },
  { key: 'w', does: 'keep the record in another place', action: { type: 'write', what: 'save-as' } },
  { key: '!', does: 'take the record over from the other bench screen', action: { type: 'take-over' } },
  { key: '?', does: 'the keys of this place', action: { type: 'help' } },
  {
    key: 'q',
    does: 'leave (everything is saved already)',
    short: 'leave',
    action: { type: 'quit', surely: false },
  },
];

export function commandsAt(stage: Stage): readonly Command[] {
  return COMMANDS.filter((command) => command.at === undefined || command.at.includes(stage));
}

/** The actions of one key where the person is; usually one, none where the key means nothing. */
export function actionFor(state: ScreenState, key: KeyEvent): Action | null {
  switch (key.kind) {
    case 'paste':
      return { type: 'paste', text: key.text };
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
  if (overlay !== null || isTyping(state)) return { type: 'insert', text: character };
  const command = commandsAt(state.history.place.stage).find(({ key }) => key === character);
  if (command !== undefined && !isTextField(state, character)) return command.action;
  return startsLine(state, character) ? { type: 'insert', text: character } : null;
}

function isTyping({ entry }: ScreenState): boolean {
  return entry.text !== '' || entry.purpose.kind !== 'row';
}

/** A title or a name begins with a letter; on such a row letters are text, and only signs are commands. */
function isTextField(state: ScreenState, character: string): boolean {
  const row = rowAtCursor(state);
  return (
    row?.kind === 'field' &&
    ['title', 'station', 'observers'].includes(row.field) &&
    /[\p{L}\d]/u.test(character)
  );
}

function startsLine(state: ScreenState, character: string): boolean {
  if (isTextField(state, character)) return true;
  if (/[\d.]/.test(character)) return true;
  return state.entry.parts.length > 0 && /[\d./]/.test(character);
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
      if (state.entry.suggestion !== null) return { type: 'take-suggestion' };
      return state.overlay === null && !typing ? { type: 'stage', by: 1 } : null;
    case 'back-tab':
      return state.overlay === null && !typing ? { type: 'stage', by: -1 } : null;
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
