/**
 * Everything that can be done besides typing a reading, in one list: it is opened by `/` and searched by typing, and
 * the direct keys, the bottom line and the help are made from it, so that they cannot disagree. No key is a letter:
 * letters are always text.
 */
import Fuse from 'fuse.js';
import type { Action } from './actions.ts';
import type { ScreenState, Stage } from './state.ts';

interface ListedAction {
  /** Its name in the list. */
  readonly label: string;
  /** One line. */
  readonly help: string;
  /** Other words under which a person may look for it. */
  readonly words?: string;
  /** The direct key as it is printed; a character acts while nothing is typed. */
  readonly key?: string;
  /** In the bottom line, shortest words. */
  readonly footer?: string;
  /** Where it stands in the bottom line; missing: wherever it means something. */
  readonly footerAt?: readonly Stage[];
  /** Stages where it means something; missing: everywhere. */
  readonly at?: readonly Stage[];
  readonly action: Action;
}

const LINES: readonly Stage[] = ['lamp', 'tube'];

const ACTIONS = {
  repeat: {
    label: 'repeat',
    help: 'the next reading is a repeat of the line just read',
    words: 'again once more',
    key: '+',
    footer: 'repeat',
    at: LINES,
    action: { type: 'repeat' },
  },
  'not-seen': {
    label: 'nothing there',
    help: 'you looked and no line was there',
    words: 'not seen missing absent no line',
    key: '-',
    footer: 'nothing there',
    at: ['tube'],
    action: { type: 'write', what: 'not-seen' },
  },
  'pass-over': {
    label: 'not seen',
    help: 'this line of the lamp is not to be seen: on to the next',
    words: 'nothing there missing absent skip pass over',
    key: '-',
    footer: 'not seen',
    at: ['lamp'],
    action: { type: 'pass-over' },
  },
  look: {
    label: 'where to look next',
    help: 'the place where a look would tell most',
    words: 'next look find search',
    key: 'F3',
    footer: 'look next',
    at: ['tube'],
    action: { type: 'look' },
  },
  'quick-check': {
    label: 'quick check',
    help: 'reading to wavelength, wavelength or gas to readings',
    words: 'convert wavelength nm calculate',
    key: 'F4',
    footer: 'quick check',
    footerAt: ['lamp', 'tube'],
    action: { type: 'write', what: 'quick-check' },
  },
  edit: {
    label: 'edit',
    help: 'change the reading or setting here (up, down: repeats)',
    words: 'change correct',
    key: 'F2',
    footer: 'edit',
    at: ['circle', 'lamp', 'tube'],
    action: { type: 'edit' },
  },
  delete: {
    label: 'delete',
    help: 'take away a reading, a setting, an empty lamp or tube',
    words: 'remove clear',
    key: 'Delete',
    at: ['circle', 'lamp', 'tube'],
    action: { type: 'remove' },
  },
  'which-line': {
    label: 'which line',
    help: 'say which line of the lamp this reading is',
    words: 'wavelength assign name',
    at: ['lamp'],
    action: { type: 'take-in-hand' },
  },
  names: {
    label: 'names as they read',
    help: 'give every known line the name that its reading fits',
    words: 'shifted sequence neighbour rename wavelengths',
    at: ['lamp'],
    action: { type: 'take-names' },
  },
  confirm: {
    label: 'confirm',
    help: 'hold on to this wavelength whatever the curve says; or let go',
    words: 'hold insist keep sure',
    at: ['lamp'],
    action: { type: 'insist' },
  },
  'check-line': {
    label: 'check line',
    help: 'keep this line out of the curve, to test it; or put it back',
    words: 'test out of the fit moved',
    at: ['lamp'],
    action: { type: 'check' },
  },
  'set-aside': {
    label: 'set aside',
    help: 'leave the line out, but in the record; or take it back',
    words: 'ignore exclude not used',
    at: LINES,
    action: { type: 'set-aside' },
  },
  colour: {
    label: 'colour',
    help: 'the colour of the line as you see it',
    words: 'color red yellow green blue violet',
    at: LINES,
    action: { type: 'pick', purpose: 'colour' },
  },
  brightness: {
    label: 'brightness',
    help: 'strong, medium, weak',
    words: 'bright faint strong weak',
    at: LINES,
    action: { type: 'brightness' },
  },
  note: {
    label: 'note',
    help: 'a note on the line',
    words: 'remark comment',
    at: LINES,
    action: { type: 'write', what: 'note' },
  },
  lamp: {
    label: 'known lamp',
    help: 'choose which lamp it is',
    words: 'choose lamp calibration mercury helium sodium cadmium',
    at: ['lamp'],
    action: { type: 'pick', purpose: 'lamp' },
  },
  'another-lamp': {
    label: 'another lamp',
    help: 'a second one for the same curve (left and right: lamp to lamp)',
    words: 'second add',
    at: ['lamp'],
    action: { type: 'pick', purpose: 'another-lamp' },
  },
  answer: {
    label: 'your answer',
    help: 'write which gas you think it is',
    words: 'conclude result gas name',
    at: ['tube', 'answer'],
    action: { type: 'pick', purpose: 'answer' },
  },
  shelf: {
    label: 'tubes it can be',
    help: 'say which tubes the laboratory has: only these are weighed',
    words: 'shelf possible candidates list choice',
    at: ['tube', 'answer'],
    action: { type: 'pick', purpose: 'shelf' },
  },
  compare: {
    label: 'compare with a tube',
    help: 'show the lines of another tube beside the readings',
    words: 'other gas lines strip',
    at: ['tube', 'answer'],
    action: { type: 'pick', purpose: 'compare' },
  },
  tubes: {
    label: 'another tube',
    help: 'a new one, or one there is (left and right: tube to tube)',
    words: 'new next add second tube',
    at: ['tube', 'answer'],
    action: { type: 'pick', purpose: 'tube' },
  },
  label: {
    label: 'label of the tube',
    help: 'what is written on it',
    words: 'name rename',
    at: ['tube'],
    action: { type: 'write', what: 'label' },
  },
  'tube-central': {
    label: 'central image again',
    help: 'the central image read again for this tube',
    words: 'zero straight through',
    at: ['tube'],
    action: { type: 'write', what: 'tube-central' },
  },
  complete: {
    label: 'all lines written down',
    help: 'you see no other line: a missing one counts more; or take it back',
    words: 'complete finished done',
    at: ['tube'],
    action: { type: 'complete' },
  },
  move: {
    label: 'move the line',
    help: 'with up and down; left and right bring it to another tube',
    words: 'order to another tube',
    at: ['tube'],
    action: { type: 'take-in-hand' },
  },
  picture: {
    label: 'next picture',
    help: 'what else this stage can show of the same readings',
    words: 'curve plot graph residuals view',
    key: 'Space',
    footer: 'picture',
    at: ['lamp', 'tube', 'answer'],
    action: { type: 'picture' },
  },
  undo: {
    label: 'undo',
    help: 'take back the last thing done',
    words: 'back mistake',
    key: 'Ctrl+Z',
    footer: 'undo',
    action: { type: 'undo' },
  },
  redo: {
    label: 'redo',
    help: 'do again what was undone',
    words: 'again forward',
    key: 'Ctrl+Y',
    action: { type: 'redo' },
  },
  recall: {
    label: 'bring back',
    help: 'what was typed and not taken',
    words: 'not taken lost',
    key: 'Ctrl+P',
    action: { type: 'recall' },
  },
  palette: {
    label: 'colours of the screen',
    help: 'for a dark room, dim red for faint lines, or none',
    words: 'dim red night dark palette light theme',
    action: { type: 'palette' },
  },
  bell: {
    label: 'bell',
    help: 'a sound for every reading saved, or none',
    words: 'sound beep',
    action: { type: 'bell' },
  },
  report: {
    label: 'write the report',
    help: 'as a page (.html), a text (.md) or a table (.csv)',
    words: 'lab export print result html markdown csv',
    action: { type: 'write', what: 'report' },
  },
  'save-as': {
    label: 'keep in another place',
    help: 'the record goes into another file from now on',
    words: 'save as file elsewhere copy folder',
    action: { type: 'write', what: 'save-as' },
  },
  'take-over': {
    label: 'take the record over',
    help: 'from the other bench screen that has it open',
    words: 'lock open elsewhere',
    action: { type: 'take-over' },
  },
  help: {
    label: 'help',
    help: 'keys and signs of this place',
    words: 'keys ?',
    key: '?',
    action: { type: 'help' },
  },
  leave: {
    label: 'leave',
    help: 'everything is saved already',
    words: 'quit exit close end stop',
    key: 'Ctrl+C',
    action: { type: 'quit', surely: false },
  },
} as const satisfies Readonly<Record<string, ListedAction>>;

export type ActionId = keyof typeof ACTIONS;

export interface BenchAction extends ListedAction {
  readonly id: ActionId;
}

export const BENCH_ACTIONS = Object.entries<ListedAction>(ACTIONS).map(
  ([id, action]): BenchAction => ({ id: id as ActionId, ...action }),
);

/** Opens the list; like the other direct characters it acts while nothing is typed. */
export const OPENS_LIST = '/';

export function benchAction(id: string): BenchAction | undefined {
  return BENCH_ACTIONS.find((each) => each.id === id);
}

/** How one gets to an action, for sentences: its key, or its name in the list: `Ctrl+Z`, `/check line`. */
export function wayTo(id: ActionId): string {
  return wayOf(ACTIONS[id]);
}

/** The same for an action whose key is not on every bench. */
export function wayHere(id: ActionId, state: ScreenState): string {
  return wayOf(actionsOf(state).find((each) => each.id === id)!);
}

function wayOf({ key, label }: ListedAction): string {
  return key ?? `${OPENS_LIST}${label}`;
}

/** Readings of a scale may lie below its zero: there a minus is the sign of a number and no key. */
function actionsOf({ history: { record } }: ScreenState): readonly BenchAction[] {
  return record.instrument.method === 'scale' ? ON_A_SCALE : BENCH_ACTIONS;
}

const ON_A_SCALE = BENCH_ACTIONS.map((each): BenchAction => {
  if (each.key !== '-') return each;
  const { key: _key, footer: _footer, ...action } = each;
  return action;
});

export function isHere({ at }: BenchAction, stage: Stage): boolean {
  return at === undefined || at.includes(stage);
}

/** The actions of the place at hand. */
export function actionsHere(state: ScreenState): readonly BenchAction[] {
  return actionsOf(state).filter((each) => isHere(each, state.history.place.stage));
}

/**
 * What of the list fits the words typed, best first: names that begin with them, then the words anywhere, with
 * slips of the finger forgiven. Of two that fit equally the one that belongs here comes first.
 */
export function searchActions(state: ScreenState, query: string): readonly BenchAction[] {
  const { stage } = state.history.place;
  const recent = state.recentAction;
  const here = actionsHere(state);
  const ordered = [
    ...here.filter(({ id }) => id === recent),
    ...here.filter(({ id }) => id !== recent),
    ...actionsOf(state).filter((each) => !isHere(each, stage)),
  ];
  const typed = query.trim().toLowerCase();
  if (typed === '') return ordered;
  const begins = (text: string): boolean => text.toLowerCase().startsWith(typed);
  const found = new Fuse(ordered, {
    keys: [
      { name: 'label', weight: 3 },
      { name: 'words', weight: 2 },
      { name: 'help', weight: 1 },
    ],
    threshold: 0.3,
    useTokenSearch: true,
    tokenMatch: 'all',
    ignoreDiacritics: true,
  })
    .search(typed)
    .map(({ item }) => item);
  return [
    ...new Set([
      ...ordered.filter(({ label }) => begins(label)),
      ...ordered.filter(({ words = '' }) => words.split(' ').some(begins)),
      ...found,
    ]),
  ];
}
