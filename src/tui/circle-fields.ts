/** The settings of the instrument and of the record on the first stage: what they say and how they change. */
import { circleOf } from '../angle/circle.ts';
import { formatCount } from '../angle/format-angle.ts';
import { parseSmallAngle } from '../angle/least-count.ts';
import { isExercise } from '../record/ranking.ts';
import { wayTo } from './action-list.ts';
import { apexShown, apexText, readApex, understandApex } from './apex-angle.ts';
import { commit, goTo, say } from './commit.ts';
import { decimalsAtHand, decimalsQuestion, lineInOtherMeaning } from './decimals.ts';
import { hasReadings, withProperty } from './edits.ts';
import type { BenchForm, InstrumentForm } from './form.ts';
import { answerOf } from './ranking.ts';
import type { CircleField } from './rows.ts';
import { EMPTY_ENTRY, entryWith, type Place, type ScreenState, unasked } from './state.ts';

const METHODS: Readonly<Record<InstrumentForm['method'], string>> = {
  central: 'central image and one side',
  'both-sides': 'left and right of the central image',
  scale: 'a plain scale or drum, no angle',
};

/** Least counts offered by the arrow keys; any other can be typed. */
const USUAL_COUNTS = ["1'", "5'", '30"', "2'", '20"', '10"', '0.1°', '0.05°', '0.01°'];
const USUAL_STEPS = [0.1, 0.05, 0.01, 0.5, 1];

interface Field {
  readonly label: string;
  /** What one can type or choose. */
  readonly hint: string;
  text(form: BenchForm): string;
  /** Why it is not changed any more; null where it may be. */
  lock?(form: BenchForm): string | null;
  /** An arrow key: the next of its choices, or the one before. */
  choose?(form: BenchForm, by: number): BenchForm;
  /** Why a text cannot be taken; null where it can. */
  problem?(text: string, form: BenchForm): string | null;
  write?(form: BenchForm, text: string): BenchForm;
  /** Back to what is usual. */
  clear?(form: BenchForm): BenchForm;
}

const CHOSEN = 'Left and right arrow choose, Enter goes on';
const WORDED = 'Type it, or Enter to go on';

const FIELDS: Readonly<Record<CircleField, Field>> = {
  method: {
    label: 'What is read',
    hint: CHOSEN,
    text: ({ instrument }) => METHODS[instrument.method],
    lock: (form) => (hasReadings(form) ? HAS_READINGS : null),
    choose: (form, by) => {
      const methods = Object.keys(METHODS) as InstrumentForm['method'][];
      const method = stepped(methods, form.instrument.method, by);
      return { ...form, instrument: withMethod(form.instrument, method) };
    },
  },
  leastCount: {
    label: 'Least count',
    hint: `Left and right arrow choose, or type it: 1' or 30" or 0.01°`,
    text: ({ instrument }) => String(instrument.leastCount),
    choose: (form, by) => {
      const { method, leastCount } = form.instrument;
      return withInstrument(form, {
        leastCount:
          method === 'scale'
            ? stepped(USUAL_STEPS, Number(leastCount), by)
            : stepped(USUAL_COUNTS, String(leastCount), by),
      });
    },
    problem: (text, { instrument }) =>
      instrument.method !== 'scale'
        ? smallAngleProblem(text)
        : asNumber(text) > 0
          ? null
          : 'The least count of a scale is a number above 0, such as 0.1.',
    write: (form, text) =>
      withInstrument(form, { leastCount: form.instrument.method === 'scale' ? asNumber(text) : text }),
  },
  scaleDivision: {
    label: 'Main scale division',
    hint: `Type it if it is not the usual one: 30'`,
    text: (form) => String(form.instrument.scaleDivision ?? `${usualDivision(form)} (usual)`),
    problem: smallAngleProblem,
    write: (form, scaleDivision) => withInstrument(form, { scaleDivision }),
    clear: (form) => ({ ...form, instrument: withProperty(form.instrument, 'scaleDivision', undefined) }),
  },
  windows: {
    label: 'Verniers read',
    hint: CHOSEN,
    text: ({ instrument }) => (instrument.windows === 2 ? 'both windows, A and B' : 'one'),
    lock: (form) => {
      const { apexAngle } = form.instrument;
      const hasImages = typeof apexAngle === 'object' && 'readings' in apexAngle;
      return hasReadings(form) || hasImages ? HAS_READINGS : null;
    },
    choose: (form) => withInstrument(form, { windows: form.instrument.windows === 2 ? 1 : 2 }),
  },
  prism: {
    label: 'Prism',
    hint: CHOSEN,
    text: ({ instrument }) =>
      instrument.prism === 'fixed' ? 'set once and left' : 'least deviation for every line',
    choose: (form) =>
      withInstrument(form, { prism: form.instrument.prism === 'fixed' ? 'each-line' : 'fixed' }),
  },
  apexAngle: {
    label: 'Apex angle',
    hint: `Type it: 60°00' or 60°00' ± 2'; or, edge towards the collimator, the images reflected left and right: left 121 04 right 1 02`,
    text: apexShown,
    clear: (form) => ({ ...form, instrument: withProperty(form.instrument, 'apexAngle', undefined) }),
  },
  title: {
    label: 'Title',
    hint: WORDED,
    text: ({ title = '' }) => title,
    write: (form, title) => ({ ...form, title }),
    clear: (form) => withProperty(form, 'title', undefined),
  },
  station: {
    label: 'Station',
    hint: WORDED,
    text: ({ about }) => about?.station ?? '',
    write: (form, station) => ({ ...form, about: { ...form.about, station } }),
    clear: (form) => ({ ...form, about: withProperty(form.about ?? {}, 'station', undefined) }),
  },
  observers: {
    label: 'Observers',
    hint: WORDED,
    text: ({ about }) => [about?.observers ?? []].flat().join(', '),
    write: (form, text) => ({
      ...form,
      about: { ...form.about, observers: text.split(/\s*,\s*/).filter(Boolean) },
    }),
    clear: (form) => ({ ...form, about: withProperty(form.about ?? {}, 'observers', undefined) }),
  },
  exercise: {
    label: 'Exercise',
    hint: 'Left and right arrow: on keeps the possible tubes back until an answer is written',
    text: (form) => (isExercise(form) ? 'on: possible tubes only after your answer' : 'off'),
    lock: exerciseLock,
    choose: (form) => withExercise(form, !isExercise(form)),
  },
};

const HAS_READINGS =
  'There are readings already, and they have the shape of this instrument; start a new record for another.';

export const fieldLabel = (field: CircleField): string => FIELDS[field].label;

/** The text of a setting, with "usual" where the record leaves it open. */
export const fieldText = (form: BenchForm, field: CircleField): string => FIELDS[field].text(form);

/** What one can type or choose, for the line under the list. */
export const fieldHint = (field: CircleField): string => FIELDS[field].hint;

/** A setting as undo names it: `least count changed`. */
const named = (field: CircleField, what: string): string => `${fieldLabel(field).toLowerCase()} ${what}`;

function withInstrument(form: BenchForm, changed: Partial<InstrumentForm>): BenchForm {
  return { ...form, instrument: { ...form.instrument, ...changed } };
}

const asNumber = (text: string): number => Number(text.replace(',', '.'));

function usualDivision(form: BenchForm): string {
  const step = parseSmallAngle(String(form.instrument.leastCount));
  if (!step.ok) return '?';
  const { scaleDivisionArcmin, decimal } = circleOf(step.arcmin, { decimal: step.decimal });
  return formatCount({ leastCountArcmin: scaleDivisionArcmin, decimal });
}

/** An arrow key on a setting that has choices. */
export function chooseField(state: ScreenState, field: CircleField, by: number): ScreenState {
  const form = state.history.record;
  const { lock, choose } = FIELDS[field];
  const locked = lock?.(form) ?? null;
  if (locked !== null) return say(state, locked, 'doubt');
  if (choose === undefined) return state;
  const chosen = choose(form, by);
  const next = commit(state, chosen, named(field, 'changed'));
  return form.instrument.prism === 'fixed' && chosen.instrument.prism === undefined
    ? say(next, `The prism is set for every line now; ${wayTo('undo')} brings back "set once".`)
    : next;
}

/** Off, it says so for a station whose lamp would have it on. */
function withExercise(form: BenchForm, isOn: boolean): BenchForm {
  const without = {
    ...withProperty(form, 'ranking', undefined),
    unknown: form.unknown.map((tube) => withProperty(tube, 'ranking', undefined)),
  };
  if (isOn) return { ...without, ranking: 'after-answer' };
  return isExercise(without) ? { ...without, ranking: 'always' } : without;
}

function stepped<Value>(values: readonly Value[], value: Value, by: number): Value {
  const at = values.indexOf(value);
  return values[(at + by + values.length) % values.length]!;
}

/** A plain scale has numbers where a circle has angles. */
function withMethod(instrument: InstrumentForm, method: InstrumentForm['method']): InstrumentForm {
  if (method === instrument.method) return instrument;
  if (method === 'scale' || instrument.method === 'scale')
    return { method, leastCount: method === 'scale' ? 0.1 : "1'" };
  // A prism that was set once stands for one side only.
  const { prism, ...rest } = instrument;
  return method === 'both-sides' || prism === undefined ? { ...rest, method } : { ...instrument, method };
}

function exerciseLock(form: BenchForm): string | null {
  const isBegun = isExercise(form) && form.unknown.some(({ lines }) => lines.length > 0);
  if (!isBegun) return null;
  const isAnswered = form.unknown.every((_, tube) => answerOf(form, tube) !== '');
  return isAnswered
    ? 'The exercise has begun, and stays on in the record; your answer is written, so the possible tubes are shown.'
    : 'The exercise has begun: the possible tubes appear when your answer is written.';
}

const ONLY_CHOSEN = 'Left and right arrow choose here; readings of lines are typed on stages 2 and 3 (Tab).';

/** Enter on a setting: takes what was typed and goes on to the next row. */
export function acceptField(state: ScreenState, field: CircleField, text: string): ScreenState {
  const next = { ...state.history.place, row: state.history.place.row + 1 };
  if (text === '') return goTo({ ...state, notice: null }, next);
  const form = state.history.record;
  if (field === 'apexAngle') return acceptApex(state, text, next);
  const { write, problem } = FIELDS[field];
  const refusal = write === undefined ? ONLY_CHOSEN : (problem?.(text, form) ?? null);
  if (write === undefined || refusal !== null) return { ...state, entry: { ...state.entry, refusal } };
  return commit(state, write(form, text), named(field, text), next);
}

/** What is odd about it is asked once, as of any reading. */
function acceptApex(state: ScreenState, text: string, next: Place): ScreenState {
  const { entry, history } = state;
  const form = history.record;
  const as = decimalsAtHand(state) ?? 'degrees';
  const understood = understandApex(text, form, as);
  const typed = readApex(understood.text, form);
  if (!typed.ok) return { ...state, entry: { ...unasked(entry), refusal: typed.problem } };
  const isOpen = understood.open.length > 0;
  const query = [...(isOpen ? [decimalsQuestion(understood)] : understood.said), ...typed.odd];
  if ((isOpen || typed.odd.length > 0) && entry.query === null) {
    const suggestion = isOpen ? lineInOtherMeaning(text, understood) : null;
    return { ...state, entry: { ...entry, query, suggestion, decimals: isOpen ? as : null } };
  }
  const instrument = { ...form.instrument, apexAngle: typed.apex };
  const decimals = isOpen ? as : (entry.chosenDecimals ?? history.decimals);
  const chosen = { ...state, history: { ...history, decimals } };
  return commit(chosen, { ...form, instrument }, `apex angle ${apexText(typed.apex)}`, next);
}

function smallAngleProblem(text: string): string | null {
  const angle = parseSmallAngle(text);
  return angle.ok ? null : angle.problem;
}

/** Takes a setting back to what is usual. */
export function clearField(state: ScreenState, field: CircleField): ScreenState {
  const { clear, hint } = FIELDS[field];
  return clear === undefined
    ? say(state, `${hint}.`)
    : commit(state, clear(state.history.record), named(field, 'cleared'));
}

/** The field's text put in the line for editing. */
export function editField(state: ScreenState, field: CircleField): ScreenState {
  const { record } = state.history;
  const { apexAngle } = record.instrument;
  const isEditable = ['title', 'station', 'observers', 'leastCount'].includes(field);
  const asTyped = field === 'apexAngle' && apexAngle !== undefined ? apexText(apexAngle) : '';
  const text = isEditable ? fieldText(record, field) : asTyped;
  if (text === '') return say(state, `${fieldHint(field)}.`);
  return { ...state, entry: entryWith(EMPTY_ENTRY.purpose, text) };
}
