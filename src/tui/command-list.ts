/** What each key does where: one list for the keyboard, the bottom line and the help, so that they cannot disagree. */
import type { Action } from './actions.ts';
import { takesLetters } from './rows.ts';
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

const COMMANDS: readonly Command[] = [
  {
    key: '+',
    does: 'the next reading is a repeat of the line just read',
    short: 'repeat',
    at: ['lamp', 'tube'],
    action: { type: 'repeat' },
  },
  {
    key: 'e',
    does: 'edit the central reading or the setting here',
    short: 'edit',
    at: ['circle'],
    action: { type: 'edit' },
  },
  {
    key: 'e',
    does: 'edit the reading here (up and down: its other repeats)',
    short: 'edit',
    at: ['lamp', 'tube'],
    action: { type: 'edit' },
  },
  {
    key: 'd',
    does: 'delete the central reading here, or clear the setting',
    short: 'delete',
    at: ['circle'],
    action: { type: 'remove' },
  },
  {
    key: 'd',
    does: 'delete the last reading here, or a tube without any',
    short: 'delete',
    at: ['tube'],
    action: { type: 'remove' },
  },
  {
    key: 'd',
    does: 'delete the last reading here, or a lamp without lines',
    short: 'delete',
    at: ['lamp'],
    action: { type: 'remove' },
  },
  {
    key: 'n',
    does: 'where to look next',
    short: 'look next',
    at: ['tube'],
    action: { type: 'look' },
  },
  {
    key: 'm',
    does: 'move the line with the arrows (left and right: to another tube)',
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
    key: 't',
    does: 'check line: kept out of the fit to test the curve; or back into it',
    short: 'check line',
    at: ['lamp'],
    action: { type: 'check' },
  },
  {
    key: 'l',
    does: 'choose the known lamp',
    short: 'lamp',
    at: ['lamp'],
    action: { type: 'pick', purpose: 'lamp' },
  },
  {
    key: 'a',
    does: 'another known lamp for the same curve (left and right arrow go from lamp to lamp)',
    short: 'another lamp',
    at: ['lamp'],
    action: { type: 'pick', purpose: 'another-lamp' },
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
    at: ['tube'],
    action: { type: 'pick', purpose: 'tube' },
  },
  { key: 'l', does: 'label of the tube', at: ['tube'], action: { type: 'write', what: 'label' } },
  {
    key: 's',
    does: 'the shelf: which tubes it can be',
    at: ['tube'],
    action: { type: 'pick', purpose: 'shelf' },
  },
  {
    key: 'a',
    does: 'write your answer',
    short: 'answer',
    at: ['tube'],
    action: { type: 'pick', purpose: 'answer' },
  },
  {
    key: 'p',
    does: 'compare with the lines of another tube',
    short: 'compare',
    at: ['tube'],
    action: { type: 'pick', purpose: 'compare' },
  },
  {
    key: 'c',
    does: 'quick check: a reading into a wavelength, nothing is written down',
    short: 'quick check',
    action: { type: 'write', what: 'quick-check' },
  },
  {
    key: ' ',
    does: 'next picture: list, strip, curve, residuals, possible tubes',
    short: 'picture',
    action: { type: 'picture', by: 1 },
  },
  { key: 'u', does: 'undo (Ctrl+Z everywhere)', short: 'undo', action: { type: 'undo' } },
  { key: 'y', does: 'do again what was undone (Ctrl+Y)', action: { type: 'redo' } },
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

/**
 * The commands of the place at hand. Where letters are typed only signs are commands: a name must never set off
 * what its first letter means elsewhere. Where both sides are read an l begins the reading: L is the command there.
 */
export function commandsHere(state: ScreenState): readonly Command[] {
  const { place, record } = state.history;
  const isTyped = takesLetters(state);
  const here = COMMANDS.filter(
    ({ at, key }) => (at === undefined || at.includes(place.stage)) && !(isTyped && /\p{L}/u.test(key)),
  );
  if (record.instrument.method !== 'both-sides') return here;
  return here.map((command) => (command.key === 'l' ? { ...command, key: 'L' } : command));
}
