/** Everything the bench screen shows, as one value. Nothing here knows of files, clocks or terminals. */
import type { Advice } from '../analysis/advise-lamp.ts';
import type { Analysis } from '../analysis/types.ts';
import type { DecimalReading } from '../angle/decimal-meaning.ts';
import type { ActionId } from './action-list.ts';
import type { Computation } from './computation.ts';
import type { LineList } from './edits.ts';
import type { BenchForm } from './form.ts';
import type { Change, History } from './trail.ts';

export type Stage = 'circle' | 'lamp' | 'tube' | 'answer';
export const STAGES: readonly Stage[] = ['circle', 'lamp', 'tube', 'answer'];

/** Where the person is: the stage, which lamp, which tube, which row of the stage's list. */
export interface Place {
  readonly stage: Stage;
  readonly lamp: number;
  readonly tube: number;
  readonly row: number;
}

export const START_PLACE: Place = { stage: 'circle', lamp: 0, tube: 0, row: 0 };

/** What the line being typed is for; where it is not special the row at the cursor decides. */
export type EntryPurpose =
  | { readonly kind: 'row' }
  | { readonly kind: 'edit'; readonly line: number; readonly reading: number }
  /** A reading of the central image: the bench's own on the circle's stage, the tube's on its own. */
  | { readonly kind: 'edit-central'; readonly reading: number }
  /** The central image read again for this tube. */
  | { readonly kind: 'tube-central' }
  | { readonly kind: 'not-seen' }
  | { readonly kind: 'quick-check' }
  | { readonly kind: 'note'; readonly line: number }
  | { readonly kind: 'label' }
  | { readonly kind: 'save-as' }
  | { readonly kind: 'report' };

export interface Entry {
  readonly purpose: EntryPurpose;
  readonly text: string;
  /** Position in `text` where the next character goes. */
  readonly caret: number;
  /** What the text began with: what is being edited; empty for a new one. */
  readonly began: string;
  /** Parts of a reading already taken: the first window, the left side. */
  readonly parts: readonly string[];
  /** What is odd about the text; Enter again takes it. */
  readonly query: readonly string[] | null;
  /** What was probably meant instead, as text. */
  readonly suggestion: string | null;
  /** The meaning of its decimals that the query offers; Tab takes the other. Null where that is not asked. */
  readonly decimals: DecimalReading | null;
  /** The meaning of its decimals that Tab wrote; it is the bench's once the reading is taken. Null without. */
  readonly chosenDecimals: DecimalReading | null;
  /** Why it cannot be taken at all. */
  readonly refusal: string | null;
}

export const EMPTY_ENTRY: Entry = {
  purpose: { kind: 'row' },
  text: '',
  caret: 0,
  began: '',
  parts: [],
  query: null,
  suggestion: null,
  decimals: null,
  chosenDecimals: null,
  refusal: null,
};

/** The line with nothing asked about it any more. */
export function unasked(entry: Entry): Entry {
  return { ...entry, query: null, suggestion: null, decimals: null, refusal: null };
}

/** What was typed and left the line without being taken. */
export interface Untaken {
  readonly text: string;
  readonly purpose: EntryPurpose;
  /** Where it was typed, and the record as it was then. */
  readonly place: Place;
  readonly record: BenchForm;
  /** The screen reminds of it for so many edits more. */
  readonly remindFor: number;
}

/** The line with a text to edit in it. */
export function entryWith(purpose: EntryPurpose, text: string): Entry {
  return { ...EMPTY_ENTRY, purpose, text, caret: text.length, began: text };
}

/** Lists to choose from, by what they ask. */
export const PICK_TITLES = {
  action: 'What can be done: type a word of it',
  lamp: 'Which known lamp?',
  'another-lamp': 'Which other known lamp, for the same curve?',
  'known-line': 'Which line of the lamp is it?',
  answer: 'What is in the tube? Your answer',
  colour: 'Colour as you see it',
  tube: 'Which tube?',
  shelf: 'Tubes that it can be (Enter puts one on or takes it off)',
  compare: 'Compare the readings with the lines of',
} as const;

export type PickPurpose = keyof typeof PICK_TITLES;

export type Overlay =
  /** `first`: the line of the help at the top. */
  | { readonly kind: 'help'; readonly first: number }
  | { readonly kind: 'pick'; readonly purpose: PickPurpose; readonly query: string; readonly cursor: number }
  /** `leftOut`: how many lines there were besides; `isCut`: and more that was not kept. */
  | {
      readonly kind: 'paste';
      readonly lines: readonly string[];
      readonly leftOut: number;
      readonly isCut: boolean;
      /** What its numbers with a decimal mark are taken for where both meanings are possible. */
      readonly decimals: DecimalReading;
    }
  /** `cursor`: the answer at the cursor. */
  | { readonly kind: 'quit'; readonly cursor: number }
  | { readonly kind: 'changed-outside'; readonly theirs: BenchForm | null; readonly cursor: number };

export type OverlayOf<Kind extends Overlay['kind']> = Extract<Overlay, { kind: Kind }>;

/** What stands in the place of the list on a small screen, and beside it on a large one. */
export type Picture = 'table' | 'curve' | 'residuals' | 'tubes';
/** The views of each stage, the usual one first; a stage is left as it was when another one changes. */
export const PICTURES: Readonly<Record<Stage, readonly [Picture, ...Picture[]]>> = {
  circle: ['table'],
  lamp: ['table', 'curve', 'residuals'],
  tube: ['table', 'tubes', 'residuals'],
  answer: ['table', 'residuals'],
};

export type PaletteName = 'evening' | 'dim-red' | 'plain';

/** How safe the readings are. */
export type Keeping =
  | { readonly kind: 'nothing-yet' }
  | { readonly kind: 'demonstration' }
  | { readonly kind: 'saved' }
  | { readonly kind: 'memory-only'; readonly why: string };

export interface Notice {
  readonly tone: 'good' | 'plain' | 'doubt';
  readonly text: string;
}

export interface AnalysisOfForm {
  readonly form: BenchForm;
  readonly analysis: Analysis | null;
  /** Why there is none. */
  readonly problem: string | null;
  /** Which further line of a lamp would help, once there are enough: of the one at hand when it was computed. */
  readonly advice?: Advice;
  /** That lamp's place in the record. */
  readonly adviceLamp?: number;
  /** Computes what is asked further of it. */
  readonly computation: Computation;
}

/** Something only the outside can do: the store does it and answers with an action. */
export type Request =
  | { readonly kind: 'save-to'; readonly path: string }
  | { readonly kind: 'write-report'; readonly path: string; readonly mayReplace: boolean }
  | { readonly kind: 'keep-mine' }
  | { readonly kind: 'take-over' }
  | { readonly kind: 'quit' };

export interface ScreenState {
  readonly history: History;
  /** Counts changes of the history; the store saves when it grows. */
  readonly changeCount: number;
  readonly lastChange: Change | null;
  /** Something was written down since the start. */
  readonly isEdited: boolean;
  readonly entry: Entry;
  /** The latest last. */
  readonly untaken: readonly Untaken[];
  readonly overlay: Overlay | null;
  /** A line of the tube is in hand: the arrow keys move it. */
  readonly moving: boolean;
  /** "Where to look next" is open. */
  readonly looking: boolean;
  /** The line that took the last reading, for the repeat key. */
  readonly lastLine: { readonly list: LineList; readonly line: number } | null;
  /** Chosen on each stage; missing: the usual one. */
  readonly pictures: Readonly<Partial<Record<Stage, Picture>>>;
  readonly palette: PaletteName;
  readonly bell: boolean;
  /** Lines of known lamps, nm, that are not to be seen: they are not asked for again. */
  readonly passedOver: readonly number[];
  /** Name of the candidate whose lines the strip shows; null: the most probable one. */
  readonly compareWith: string | null;
  /** Chosen last from the list of actions: it stands first there. */
  readonly recentAction: ActionId | null;
  readonly notice: Notice | null;
  readonly keeping: Keeping;
  /** Where the record is kept. */
  readonly fileName: string;
  /** Null until it is loaded. */
  readonly computation: Computation | null;
  readonly result: AnalysisOfForm | null;
  readonly request: Request | null;
}

export function startState(history: History, fileName: string): ScreenState {
  return {
    history,
    changeCount: 0,
    lastChange: null,
    isEdited: false,
    entry: EMPTY_ENTRY,
    untaken: [],
    overlay: null,
    moving: false,
    looking: false,
    lastLine: null,
    pictures: {},
    palette: 'evening',
    bell: false,
    passedOver: [],
    compareWith: null,
    recentAction: null,
    notice: null,
    keeping: { kind: 'nothing-yet' },
    fileName,
    computation: null,
    result: null,
    request: null,
  };
}

export function pictureHere({ pictures, history }: ScreenState): Picture {
  const { stage } = history.place;
  return pictures[stage] ?? PICTURES[stage][0];
}
