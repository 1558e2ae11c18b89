/** What Enter makes of the line being typed. */
import type { Meaning } from '../analysis/query-reading.ts';
import type { Circle } from '../angle/circle.ts';
import type { DecimalReading } from '../angle/decimal-meaning.ts';
import { parseSmallAngle } from '../angle/least-count.ts';
import { parseAngle } from '../angle/parse-angle.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import { statedNm } from '../record/limits.ts';
import { otherUnitMeant } from '../record/other-unit.ts';
import { wayTo } from './action-list.ts';
import { acceptField } from './circle-fields.ts';
import { commit, goTo, say } from './commit.ts';
import {
  decimalsAtHand,
  decimalsQuestion,
  lineInOtherMeaning,
  otherReading,
  type UnderstoodParts,
  understandParts,
} from './decimals.ts';
import { centralOf, editLine, editTube, linesOf, withProperty } from './edits.ts';
import { expectedReading } from './expected-reading.ts';
import { type InstrumentShape, instrumentShape, needsCentral, readingParts } from './instrument.ts';
import { type Judgement, judge, writtenReadings } from './judge.ts';
import { quickCheck } from './quick-check.ts';
import { judgedNow } from './result-now.ts';
import { type CircleField, listAt, rowAtCursor, rowsOf } from './rows.ts';
import { windowPairs } from './second-window.ts';
import { EMPTY_ENTRY, type ScreenState, unasked } from './state.ts';
import { takeReading } from './take-reading.ts';
import { isCentral, targetOf } from './target.ts';
import { readingOf, readTypedLine, type TypedLine } from './typed.ts';
import { unreadLine } from './unread-line.ts';

/** What Enter does with the line typed. */
export function enterLine(state: ScreenState): ScreenState {
  const { entry } = state;
  const text = entry.text.trim();
  switch (entry.purpose.kind) {
    case 'note':
      return acceptNote(state, entry.purpose.line, text);
    case 'label':
      return acceptLabel(state, text);
    case 'save-as':
      return text === ''
        ? cancelled(state)
        : { ...state, entry: EMPTY_ENTRY, request: { kind: 'save-to', path: text } };
    case 'report':
      return text === '' ? cancelled(state) : wantReport(state, text);
    case 'quick-check':
      return text === '' ? cancelled(state) : judgedNow(state, quickCheck);
    default:
      break;
  }
  const row = rowAtCursor(state);
  if (entry.purpose.kind === 'row' && row?.kind === 'field')
    return isForCentral(state, row.field, text)
      ? judgedNow(atNewCentral(state), (now) => enterReading(now, text))
      : acceptField(state, row.field, text);
  if (text === '' && entry.parts.length === 0) {
    return entry.purpose.kind === 'row'
      ? goTo(state, { row: state.history.place.row + 1 })
      : cancelled(state);
  }
  if (state.history.place.stage === 'answer') return enterWhereItBelongs(state, text);
  return judgedNow(state, (now) => enterReading(now, text));
}

/** The same Enter that answers the question about a file that is there writes over it. */
function wantReport(state: ScreenState, path: string): ScreenState {
  if (needsCentral(state.history.record))
    return refuse(state, 'A report needs the reading of the central image first (stage 1).');
  const mayReplace = state.entry.query !== null;
  const request = { kind: 'write-report', path, mayReplace } as const;
  return say({ ...state, entry: EMPTY_ENTRY, request }, 'The report is being written.');
}

/** A reading typed on the answer's stage is one of the tube at hand, or of the known lamp where it names its line. */
function enterWhereItBelongs(state: ScreenState, text: string): ScreenState {
  const stage = readTypedLine(text).wavelengthNm === null ? 'tube' : 'lamp';
  const there = goTo(state, { stage, row: Number.MAX_SAFE_INTEGER });
  const entered = judgedNow(there, (now) => enterReading(now, text));
  const { refusal, suggestion } = entered.entry;
  if (refusal !== null) return refuse(state, refusal, suggestion);
  if (entered.history.record === state.history.record) return entered;
  const where = stage === 'tube' ? 'the tube (stage 3)' : 'the known lamp (stage 2)';
  return say(entered, `${text} is written down for ${where}. ${wayTo('undo')} takes it back.`, 'good');
}

/** Settings that take no number: a reading typed there is one of the central image. */
const CHOSEN_FIELDS: readonly CircleField[] = ['method', 'windows', 'prism', 'exercise'];

function isForCentral({ history: { record } }: ScreenState, field: CircleField, text: string): boolean {
  const { circle } = instrumentShape(record);
  if (circle === null || !/^\d/.test(text)) return false;
  const { parts, ...said } = readTypedLine(text, circle);
  // What says a colour, a brightness or a wavelength is a line, which has stages of its own.
  const isLine =
    said.wavelengthNm !== null || said.colour !== null || said.brightness !== null || said.isCheck;
  const isAngle = parts.every((part) => parseAngle(part).ok);
  return (
    isAngle &&
    !isLine &&
    (CHOSEN_FIELDS.includes(field) || (field === 'leastCount' && !parseSmallAngle(text).ok))
  );
}

function atNewCentral(state: ScreenState): ScreenState {
  return goTo(state, { row: rowsOf(state).findIndex(({ kind }) => kind === 'new-central') });
}

export function cancelled(state: ScreenState): ScreenState {
  return { ...state, entry: EMPTY_ENTRY, notice: null };
}

function acceptNote(state: ScreenState, line: number, text: string): ScreenState {
  const { record, place } = state.history;
  const list = listAt(place, rowAtCursor(state));
  if (list === null) return cancelled(state);
  const form = editLine(record, list, line, (old) =>
    withProperty(old, 'note', text === '' ? undefined : text),
  );
  return commit(state, form, text === '' ? 'note taken off' : `note "${text}"`);
}

function acceptLabel(state: ScreenState, text: string): ScreenState {
  const { place, record } = state.history;
  const form = editTube(record, place.tube, (tube) =>
    withProperty(tube, 'label', text === '' ? undefined : text),
  );
  return commit(state, form, `label ${text}`);
}

function enterReading(state: ScreenState, text: string): ScreenState {
  const shape = instrumentShape(state.history.record);
  const typed = readTypedLine(text, shape.circle);
  const wrongStatement =
    wavelengthRefusal(state, typed.wavelengthNm) ??
    checkRefusal(state, typed) ??
    sideRefusal(state, text, typed);
  if (wrongStatement !== null) return refuse(state, wrongStatement);
  const wanted = readingParts(shape, isCentral(state));
  const refusal = partsRefusal(typed.parts, state.entry.parts.length + typed.parts.length, wanted, shape);
  const refuseUnread = (otherwise: string, circle: Circle | null) => {
    const unread = unreadLine(text, circle, state.history.place.stage);
    return refuse(state, unread?.problem ?? otherwise, unread?.suggestion ?? null);
  };
  if (refusal !== null) return refuseUnread(refusal, shape.circle);
  const { as, understood, judged } = likelierMeaning(state, typed, shape);
  const parts = [...state.entry.parts, ...understood.texts];
  const isOpen = understood.open.length > 0;
  if (isOpen && state.entry.query === null) {
    const query = [decimalsQuestion(understood), ...(judged?.ok === true ? judged.odd : [])];
    const suggestion = lineInOtherMeaning(text, understood);
    return { ...state, entry: { ...state.entry, query, suggestion, decimals: as } };
  }
  const decimals = isOpen ? as : (state.entry.chosenDecimals ?? state.history.decimals);
  const chosen = { ...state, history: { ...state.history, decimals } };
  if (parts.length < wanted.length)
    return { ...chosen, entry: { ...EMPTY_ENTRY, purpose: state.entry.purpose, parts } };
  const reading = readingOf(parts, shape, isCentral(state));
  if (reading === null || judged === null)
    return refuseUnread(`"${text}" is not a number of the scale; write for instance 12.3`, null);
  if (!judged.ok) {
    const whole = parts.join(' / ');
    const entry = { ...state.entry, text: whole, caret: whole.length, parts: [] };
    return refuse({ ...state, entry }, judged.problem);
  }
  if (judged.odd.length > 0 && state.entry.query === null) {
    const query = [...understood.said, ...judged.odd];
    return { ...state, entry: { ...state.entry, query, suggestion: judged.suggestion, decimals: null } };
  }
  const taken = takeReading(chosen, reading, typed);
  return understood.said.length === 0 ? taken : say(taken, `${understood.said.join(' / ')} taken.`, 'good');
}

interface MeantReading {
  readonly as: DecimalReading;
  readonly understood: UnderstoodParts;
  /** Null while parts of the reading are missing. */
  readonly judged: Judgement | null;
}

/**
 * What is typed in the meaning of its decimals that is offered first: the one asked about just now, the one chosen
 * before on this bench, else the one that is less odd among the other readings, or nearer to where the line should be.
 */
function likelierMeaning(state: ScreenState, typed: TypedLine, shape: InstrumentShape): MeantReading {
  const chosen = decimalsAtHand(state);
  const first = meantReading(state, typed, shape, chosen ?? 'degrees');
  if (chosen !== null || first.understood.open.length === 0) return first;
  const second = meantReading(state, typed, shape, otherReading(first.as));
  if (isOdd(first) !== isOdd(second)) return isOdd(first) ? second : first;
  const wavelengthNm = typed.wavelengthNm ?? targetOf(state)?.wavelengthNm ?? null;
  const expected = wavelengthNm === null ? null : expectedReading(state, wavelengthNm);
  if (expected === null) return first;
  return offArcmin(second, expected) < offArcmin(first, expected) ? second : first;
}

/** How far it is from the place that a text names, on one side; infinitely where that says nothing. */
function offArcmin({ judged }: MeantReading, expected: string): number {
  const place = parseAngle(expected.replace(/ ±.*/, ''));
  if (judged?.ok !== true || judged.setting.kind !== 'one-side' || !place.ok) return Number.POSITIVE_INFINITY;
  return 60 * Math.abs(wrapDegrees(judged.setting.windows[0]! - place.degrees));
}

function isOdd({ judged }: MeantReading): boolean {
  return judged !== null && (!judged.ok || judged.odd.length > 0);
}

function meantReading(
  state: ScreenState,
  typed: TypedLine,
  shape: InstrumentShape,
  as: DecimalReading,
): MeantReading {
  const understood = understandParts(typed.parts, shape.circle, as);
  const reading = readingOf([...state.entry.parts, ...understood.texts], shape, isCentral(state));
  const before = windowPairs(state.history.record, shape);
  const judged =
    reading === null ? null : judge(reading, meaningOf(state, typed, shape), shape, state.result, before);
  return { as, understood, judged };
}

/** Why the wavelength typed before the reading cannot be; null where it can. */
export function wavelengthRefusal(state: ScreenState, wavelengthNm: number | null): string | null {
  if (wavelengthNm === null) return null;
  if (state.history.place.stage !== 'lamp')
    return 'A wavelength is typed for a known lamp only; here just the reading.';
  if (wavelengthNm >= statedNm.shortest && wavelengthNm <= statedNm.longest) return null;
  const meant = otherUnitMeant(wavelengthNm);
  return `${wavelengthNm} nm cannot be${meant || `: wavelengths go from ${statedNm.shortest} to ${statedNm.longest} nm here`}.`;
}

/** Why the line cannot be a check line; null where it can, or is meant as none. */
function checkRefusal(state: ScreenState, { isCheck, wavelengthNm }: TypedLine): string | null {
  if (!isCheck) return null;
  if (state.history.place.stage !== 'lamp' || state.entry.purpose.kind !== 'row')
    return 'The word "check" follows a new reading of a known line only (stage 2).';
  return (wavelengthNm ?? targetOf(state)?.wavelengthNm ?? null) === null
    ? 'A check line needs its wavelength: 546.07 = reading check.'
    : null;
}

/** Sides come one after the other, the left one first, unless both stand in one line. */
function sideRefusal(state: ScreenState, text: string, { parts }: TypedLine): string | null {
  const shape = instrumentShape(state.history.record);
  if (shape.method !== 'both-sides' || isCentral(state) || parts.length > shape.windows) return null;
  const isLeftIn = state.entry.parts.length >= shape.windows;
  const [, side = null] = /^\s*(?:[\d.,]+\s*(?:nm)?\s*=\s*)?(l|r)(?:eft|ight)?[\s\d]/i.exec(text) ?? [];
  if (side === null || (side.toLowerCase() === 'l') !== isLeftIn) return null;
  return isLeftIn
    ? 'Left is in; now the reading of the other side, the right one.'
    : 'The left reading comes first, then the right one; or both in one line: left 229 21 right 132 48.';
}

function partsRefusal(
  typed: readonly string[],
  count: number,
  wanted: readonly string[],
  shape: InstrumentShape,
): string | null {
  if (typed.length === 0)
    return `There is no reading in it; write for instance ${shape.circle === null ? '12.3' : "229°39' or 229 39"}.`;
  if (count > wanted.length) {
    return wanted.length === 1
      ? 'One reading at a time here; the circle has one window (stage 1 changes that).'
      : `A reading here is ${wanted.join(', ')}: ${wanted.length} parts, not ${count}.`;
  }
  for (const part of typed) {
    if (shape.circle === null) continue;
    const angle = parseAngle(part, shape.circle);
    if (!angle.ok) return angle.problem;
  }
  return null;
}

function refuse(state: ScreenState, refusal: string, suggestion: string | null = null): ScreenState {
  return { ...state, entry: { ...unasked(state.entry), refusal, suggestion } };
}

/** With what the reading is to be compared. */
function meaningOf(state: ScreenState, typed: TypedLine, shape: InstrumentShape): Meaning {
  const { record, place } = state.history;
  const { purpose } = state.entry;
  if (isCentral(state)) {
    const isOfBench = place.stage === 'circle';
    const edited = purpose.kind === 'edit-central' ? purpose.reading : -1;
    const own = centralOf(record, isOfBench ? 'bench' : place.tube).filter((_, at) => at !== edited);
    // A tube's own image is where the calibration's was, unless something was moved.
    const others = isOfBench ? own : [...own, ...centralOf(record, 'bench')];
    return { kind: 'central', others: writtenReadings(others, shape, true) };
  }
  const target = targetOf(state);
  if (target === null || purpose.kind === 'not-seen') return { kind: 'place' };
  const isNew = target.line === null || typed.wavelengthNm !== null || typed.isCheck;
  const line = isNew ? undefined : linesOf(record, target.list)[target.line!];
  const edited = purpose.kind === 'edit' ? purpose.reading : -1;
  const repeats = (line?.readings ?? []).filter((_, at) => at !== edited);
  const repeatsOf = writtenReadings(repeats, shape, false);
  if (target.list.of !== 'tube') {
    const isInFit = target.list.of === 'lamp';
    return {
      kind: 'known',
      wavelengthNm: typed.wavelengthNm ?? target.wavelengthNm,
      repeatsOf,
      lamp: place.lamp,
      edits: purpose.kind === 'edit' && isInFit ? purpose.line : null,
    };
  }
  const others = linesOf(record, target.list).flatMap(({ readings }, at) =>
    at === target.line
      ? []
      : writtenReadings(readings.slice(0, 1), shape, false).map((read) => ({ ...read, line: at })),
  );
  return { kind: 'unknown', repeatsOf, others, tube: place.tube };
}
