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

export const FIELD_LABELS: Readonly<Record<CircleField, string>> = {
  method: 'What is read',
  leastCount: 'Least count',
  scaleDivision: 'Main scale division',
  windows: 'Verniers read',
  prism: 'Prism',
  apexAngle: 'Apex angle',
  title: 'Title',
  station: 'Station',
  observers: 'Observers',
  exercise: 'Exercise',
};

const METHODS: Readonly<Record<InstrumentForm['method'], string>> = {
  central: 'central image and one side',
  'both-sides': 'left and right of the central image',
  scale: 'a plain scale or drum, no angle',
};

/** Least counts offered by the arrow keys; any other can be typed. */
const USUAL_COUNTS = ["1'", "5'", '30"', "2'", '20"', '10"', '0.1°', '0.05°', '0.01°'];
const USUAL_STEPS = [0.1, 0.05, 0.01, 0.5, 1];

/** The text of a setting, with "usual" where the record leaves it open. */
export function fieldText(form: BenchForm, field: CircleField): string {
  const { instrument } = form;
  switch (field) {
    case 'method':
      return METHODS[instrument.method];
    case 'leastCount':
      return String(instrument.leastCount);
    case 'scaleDivision':
      return instrument.scaleDivision === undefined
        ? `${usualDivision(form)} (usual)`
        : String(instrument.scaleDivision);
    case 'windows':
      return instrument.windows === 2 ? 'both windows, A and B' : 'one';
    case 'prism':
      return instrument.prism === 'fixed' ? 'set once and left' : 'least deviation for every line';
    case 'apexAngle':
      return apexShown(form);
    case 'title':
      return form.title ?? '';
    case 'station':
      return form.about?.station ?? '';
    case 'observers':
      return [form.about?.observers ?? []].flat().join(', ');
    case 'exercise':
      return isExercise(form) ? 'on: possible tubes only after your answer' : 'off';
  }
}

function usualDivision(form: BenchForm): string {
  const step = parseSmallAngle(String(form.instrument.leastCount));
  if (!step.ok) return '?';
  const { scaleDivisionArcmin, decimal } = circleOf(step.arcmin, { decimal: step.decimal });
  return formatCount({ leastCountArcmin: scaleDivisionArcmin, decimal });
}

/** What one can type or choose, for the line under the list. */
export function fieldHint(field: CircleField): string {
  switch (field) {
    case 'method':
    case 'windows':
    case 'prism':
      return 'Left and right arrow choose, Enter goes on';
    case 'exercise':
      return 'Left and right arrow: on keeps the possible tubes back until an answer is written';
    case 'leastCount':
      return `Left and right arrow choose, or type it: 1' or 30" or 0.01°`;
    case 'scaleDivision':
      return `Type it if it is not the usual one: 30'`;
    case 'apexAngle':
      return `Type it: 60°00' or 60°00' ± 2'; or, edge towards the collimator, the images reflected left and right: left 121 04 right 1 02`;
    default:
      return 'Type it, or Enter to go on';
  }
}

/** An arrow key on a setting that has choices. */
export function chooseField(state: ScreenState, field: CircleField, by: number): ScreenState {
  const form = state.history.record;
  const { instrument } = form;
  const locked = lockOf(form, field);
  if (locked !== null) return { ...state, notice: { tone: 'doubt', text: locked } };
  const set = (next: InstrumentForm): ScreenState =>
    commit(state, { ...form, instrument: next }, `${FIELD_LABELS[field].toLowerCase()} changed`);
  switch (field) {
    case 'method': {
      const methods = Object.keys(METHODS) as InstrumentForm['method'][];
      const next = set(withMethod(instrument, stepped(methods, instrument.method, by)));
      return instrument.prism === 'fixed' && next.history.record.instrument.prism === undefined
        ? say(next, 'plain', `The prism is set for every line now; ${wayTo('undo')} brings back "set once".`)
        : next;
    }
    case 'windows':
      return set({ ...instrument, windows: instrument.windows === 2 ? 1 : 2 });
    case 'prism':
      return set({ ...instrument, prism: instrument.prism === 'fixed' ? 'each-line' : 'fixed' });
    case 'leastCount':
      return set(
        instrument.method === 'scale'
          ? { ...instrument, leastCount: stepped(USUAL_STEPS, Number(instrument.leastCount), by) }
          : { ...instrument, leastCount: stepped(USUAL_COUNTS, String(instrument.leastCount), by) },
      );
    case 'exercise':
      return commit(state, withExercise(form, !isExercise(form)), 'exercise changed');
    default:
      return state;
  }
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

function lockOf(form: BenchForm, field: CircleField): string | null {
  if (field === 'exercise') {
    const isBegun = isExercise(form) && form.unknown.some(({ lines }) => lines.length > 0);
    if (!isBegun) return null;
    const isAnswered = form.unknown.every((_, tube) => answerOf(form, tube) !== '');
    return isAnswered
      ? 'The exercise has begun, and stays on in the record; your answer is written, so the possible tubes are shown.'
      : 'The exercise has begun: the possible tubes appear when your answer is written.';
  }
  if (field !== 'method' && field !== 'windows') return null;
  const { apexAngle } = form.instrument;
  const hasImages = typeof apexAngle === 'object' && 'readings' in apexAngle;
  return hasReadings(form) || (field === 'windows' && hasImages)
    ? 'There are readings already, and they have the shape of this instrument; start a new record for another.'
    : null;
}

/** Enter on a setting: takes what was typed and goes on to the next row. */
export function acceptField(state: ScreenState, field: CircleField, text: string): ScreenState {
  const next = { ...state.history.place, row: state.history.place.row + 1 };
  if (text === '') return goTo({ ...state, notice: null }, next);
  const form = state.history.record;
  if (field === 'apexAngle') return acceptApex(state, text, next);
  const refusal = refusalOf(form, field, text);
  if (refusal !== null) return { ...state, entry: { ...state.entry, refusal } };
  return commit(state, withField(form, field, text), `${FIELD_LABELS[field].toLowerCase()} ${text}`, next);
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

function refusalOf(form: BenchForm, field: CircleField, text: string): string | null {
  const scale = form.instrument.method === 'scale';
  switch (field) {
    case 'method':
    case 'windows':
    case 'prism':
    case 'exercise':
      return 'Left and right arrow choose here; readings of lines are typed on stages 2 and 3 (Tab).';
    case 'leastCount':
      if (!scale) return smallAngleProblem(text);
      return Number(text.replace(',', '.')) > 0
        ? null
        : 'The least count of a scale is a number above 0, such as 0.1.';
    case 'scaleDivision':
      return smallAngleProblem(text);
    default:
      return null;
  }
}

function smallAngleProblem(text: string): string | null {
  const angle = parseSmallAngle(text);
  return angle.ok ? null : angle.problem;
}

function withField(form: BenchForm, field: CircleField, text: string): BenchForm {
  const { instrument } = form;
  switch (field) {
    case 'leastCount':
      return {
        ...form,
        instrument: {
          ...instrument,
          leastCount: instrument.method === 'scale' ? Number(text.replace(',', '.')) : text,
        },
      };
    case 'scaleDivision':
      return { ...form, instrument: { ...instrument, scaleDivision: text } };
    case 'title':
      return { ...form, title: text };
    case 'station':
      return { ...form, about: { ...form.about, station: text } };
    case 'observers':
      return { ...form, about: { ...form.about, observers: text.split(/\s*,\s*/).filter(Boolean) } };
    default:
      return form;
  }
}

/** Takes a setting back to what is usual. */
export function clearField(state: ScreenState, field: CircleField): ScreenState {
  const form = state.history.record;
  const { instrument } = form;
  const cleared = (next: BenchForm): ScreenState =>
    commit(state, next, `${FIELD_LABELS[field].toLowerCase()} cleared`);
  switch (field) {
    case 'scaleDivision':
    case 'apexAngle':
      return cleared({ ...form, instrument: withProperty(instrument, field, undefined) });
    case 'title':
      return cleared(withProperty(form, 'title', undefined));
    case 'station':
    case 'observers':
      return cleared({ ...form, about: withProperty(form.about ?? {}, field, undefined) });
    default:
      return say(state, 'plain', `${fieldHint(field)}.`);
  }
}

/** The field's text put in the line for editing. */
export function editField(state: ScreenState, field: CircleField): ScreenState {
  const { record } = state.history;
  const { apexAngle } = record.instrument;
  const editable = ['title', 'station', 'observers', 'leastCount'].includes(field);
  const asTyped = field === 'apexAngle' && apexAngle !== undefined ? apexText(apexAngle) : '';
  const text = editable ? fieldText(record, field) : asTyped;
  if (text === '') return say(state, 'plain', `${fieldHint(field)}.`);
  return { ...state, entry: entryWith(EMPTY_ENTRY.purpose, text) };
}
