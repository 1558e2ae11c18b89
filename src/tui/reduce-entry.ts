/** The line being typed: editing it, and what Enter makes of it. */
import type { Analysis } from '../analysis/types.ts';
import { parseAngle } from '../angle/parse-angle.ts';
import { acceptField } from './circle-fields.ts';
import { commit, goTo, say } from './commit.ts';
import {
  addCentral,
  addLine,
  addNotSeen,
  addRepeat,
  editLine,
  editTube,
  type LineList,
  linesOf,
  withProperty,
} from './edits.ts';
import type { BenchForm, CentralForm, LineForm, ReadingForm } from './form.ts';
import { type InstrumentShape, instrumentShape, readingParts } from './instrument.ts';
import { judge, type Meaning } from './judge.ts';
import { quickCheck } from './quick-check.ts';
import { type Row, rowAtCursor, rowsAt, writingRow } from './rows.ts';
import { EMPTY_ENTRY, type Entry, type Place, type ScreenState } from './state.ts';
import { readingOf, readingText, readTypedLine, type TypedLine } from './typed.ts';

const LONGEST_LINE = 200;

export function insertText(state: ScreenState, text: string): ScreenState {
  const { entry } = state;
  const typed = (entry.text.slice(0, entry.caret) + text + entry.text.slice(entry.caret)).slice(
    0,
    LONGEST_LINE,
  );
  const caret = Math.min(entry.caret + text.length, typed.length);
  return { ...state, entry: retyped(entry, typed, caret), notice: null };
}

export function erase(state: ScreenState, forward: boolean): ScreenState {
  const { entry } = state;
  const from = forward ? entry.caret : entry.caret - 1;
  if (from < 0) {
    // Backspace at the start goes back to the part before: the other window, the other side.
    const part = entry.parts.at(-1);
    if (part === undefined || entry.text !== '') return state;
    return { ...state, entry: { ...retyped(entry, part, part.length), parts: entry.parts.slice(0, -1) } };
  }
  return { ...state, entry: retyped(entry, entry.text.slice(0, from) + entry.text.slice(from + 1), from) };
}

function retyped(entry: Entry, text: string, caret: number): Entry {
  return { ...entry, text, caret, query: null, suggestion: null, refusal: null };
}

export function moveCaret(state: ScreenState, to: 'left' | 'right' | 'start' | 'end'): ScreenState {
  const { entry } = state;
  const places = { left: entry.caret - 1, right: entry.caret + 1, start: 0, end: entry.text.length };
  return { ...state, entry: { ...entry, caret: Math.max(0, Math.min(places[to], entry.text.length)) } };
}

/** Where the line being typed will go: the list it belongs to, and the line for a repeat or an edit. */
export interface Target {
  readonly list: LineList;
  readonly line: number | null;
  readonly wavelengthNm: number | null;
}

export function targetOf(state: ScreenState): Target | null {
  const { place, record } = state.history;
  if (place.stage !== 'lamp' && place.stage !== 'tube') return null;
  const list: LineList =
    place.stage === 'lamp' ? { of: 'lamp', at: place.lamp } : { of: 'tube', at: place.tube };
  const { purpose } = state.entry;
  const row = rowAtCursor(state);
  const line = purpose.kind === 'edit' ? purpose.line : row?.kind === 'line' ? row.line : null;
  const stated = line === null ? undefined : linesOf(record, list)[line]?.wavelengthNm;
  const wavelengthNm =
    row?.kind === 'expected' && line === null ? roundedNm(row.expected.wavelengthNm) : (stated ?? null);
  return { list, line, wavelengthNm };
}

/** Two decimals, as tables for the bench have them. */
function roundedNm(wavelengthNm: number): number {
  return Number(wavelengthNm.toFixed(2));
}

export function analysisNow(state: ScreenState): Analysis | null {
  return state.result?.analysis ?? null;
}

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
    case 'quick-check':
      return text === '' ? cancelled(state) : quickCheck(state);
    default:
      break;
  }
  const row = rowAtCursor(state);
  if (entry.purpose.kind === 'row' && row?.kind === 'field') return acceptField(state, row.field, text);
  if (text === '' && entry.parts.length === 0) {
    return entry.purpose.kind === 'row'
      ? goTo(state, { row: state.history.place.row + 1 })
      : cancelled(state);
  }
  if (state.history.place.stage === 'answer')
    return say(
      { ...state, entry: EMPTY_ENTRY },
      'plain',
      'Readings go to stage 2 and 3 (Tab). Enter writes your answer here.',
    );
  return enterReading(state, text);
}

export function cancelled(state: ScreenState): ScreenState {
  return { ...state, entry: EMPTY_ENTRY, notice: null };
}

function acceptNote(state: ScreenState, line: number, text: string): ScreenState {
  const { place, record } = state.history;
  const list: LineList =
    place.stage === 'lamp' ? { of: 'lamp', at: place.lamp } : { of: 'tube', at: place.tube };
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

/** True where the line typed is a reading of the central image. */
export function isCentral(state: ScreenState): boolean {
  const kind = state.entry.purpose.kind;
  return state.history.place.stage === 'circle' || kind === 'tube-central' || kind === 'edit-central';
}

function enterReading(state: ScreenState, text: string): ScreenState {
  const shape = instrumentShape(state.history.record);
  const typed = readTypedLine(text);
  const wrongWavelength = wavelengthRefusal(state, typed.wavelengthNm);
  if (wrongWavelength !== null) return refuse(state, wrongWavelength);
  const parts = [...state.entry.parts, ...typed.parts];
  const wanted = readingParts(shape, isCentral(state));
  const refusal = partsRefusal(typed.parts, parts.length, wanted, shape);
  if (refusal !== null) return refuse(state, refusal);
  if (parts.length < wanted.length)
    return { ...state, entry: { ...EMPTY_ENTRY, purpose: state.entry.purpose, parts } };
  const reading = readingOf(parts, shape, isCentral(state));
  if (reading === null)
    return refuse(state, `"${text}" is not a number of the scale; write for instance 12.3`);
  const judged = judge(reading, meaningOf(state, typed), shape, analysisNow(state));
  if (!judged.ok)
    return refuse(
      {
        ...state,
        entry: { ...state.entry, text: parts.join(' / '), caret: parts.join(' / ').length, parts: [] },
      },
      judged.problem,
    );
  if (judged.odd.length > 0 && state.entry.query === null) {
    return { ...state, entry: { ...state.entry, query: judged.odd, suggestion: judged.suggestion } };
  }
  return takeReading(state, reading, typed);
}

/** The wavelengths that a record may state, nm. */
const STATED_NM: readonly [number, number] = [200, 1200];

/** Why the wavelength typed before the reading cannot be; null where it can. */
export function wavelengthRefusal(state: ScreenState, wavelengthNm: number | null): string | null {
  if (wavelengthNm === null) return null;
  if (state.history.place.stage !== 'lamp')
    return 'A wavelength is typed for a known lamp only; here just the reading.';
  if (wavelengthNm >= STATED_NM[0] && wavelengthNm <= STATED_NM[1]) return null;
  return `${wavelengthNm} nm cannot be: wavelengths go from ${STATED_NM[0]} to ${STATED_NM[1]} nm here.`;
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

function refuse(state: ScreenState, refusal: string): ScreenState {
  return { ...state, entry: { ...state.entry, refusal, query: null, suggestion: null } };
}

/** With what the reading is to be compared. */
export function meaningOf(state: ScreenState, typed: TypedLine): Meaning {
  const { record, place } = state.history;
  const { purpose } = state.entry;
  if (isCentral(state)) {
    const readings = purpose.kind === 'tube-central' ? record.unknown[place.tube]?.central : record.central;
    const edited = purpose.kind === 'edit-central' ? purpose.reading : -1;
    return { kind: 'central', others: (readings ?? []).filter((_, at) => at !== edited) };
  }
  const target = targetOf(state);
  if (target === null || purpose.kind === 'not-seen') return { kind: 'place' };
  const line =
    target.line === null || typed.wavelengthNm !== null
      ? undefined
      : linesOf(record, target.list)[target.line];
  const edited = purpose.kind === 'edit' ? purpose.reading : -1;
  const repeatsOf = (line?.readings ?? []).filter((_, at) => at !== edited);
  if (target.list.of === 'lamp') {
    return { kind: 'known', wavelengthNm: typed.wavelengthNm ?? target.wavelengthNm, repeatsOf };
  }
  const others = linesOf(record, target.list).flatMap(({ readings: [reading] }, at) =>
    reading === undefined || at === target.line ? [] : [{ line: at, reading }],
  );
  return { kind: 'unknown', repeatsOf, others };
}

function takeReading(state: ScreenState, reading: ReadingForm, typed: TypedLine): ScreenState {
  const { record, place } = state.history;
  const { purpose } = state.entry;
  const said = readingText(reading);
  if (purpose.kind === 'tube-central') {
    const form = editTube(record, place.tube, (tube) => ({
      ...tube,
      central: [...(tube.central ?? []), reading as CentralForm],
    }));
    return commit(state, form, `central image ${said} for this tube`);
  }
  if (purpose.kind === 'edit-central') {
    const central = (record.central ?? []).map((old, at) =>
      at === purpose.reading ? (reading as CentralForm) : old,
    );
    return commit(state, { ...record, central }, `central image ${said}`);
  }
  if (place.stage === 'circle') {
    const form = addCentral(record, reading as CentralForm);
    return commit(state, form, `central image ${said}`, { ...place, row: writingRow(form, place) });
  }
  if (purpose.kind === 'not-seen') {
    return commit(
      state,
      addNotSeen(record, place.tube, { reading }),
      `nothing seen at ${said}`,
      lastRow(place),
    );
  }
  const target = targetOf(state);
  if (target === null) return state;
  if (purpose.kind === 'edit')
    return commit(state, withReading(record, target.list, purpose, reading, typed), `changed to ${said}`);
  if (target.line !== null && typed.wavelengthNm === null) {
    const form = addRepeat(record, target.list, target.line, reading);
    return withLastLine(
      commit(state, form, `repeat ${said}`, nextFree(form, place)),
      target.list,
      target.line,
    );
  }
  return takeNewLine(state, target, reading, typed);
}

function takeNewLine(
  state: ScreenState,
  target: Target,
  reading: ReadingForm,
  typed: TypedLine,
): ScreenState {
  const { record, place } = state.history;
  const wavelengthNm = target.list.of === 'lamp' ? (typed.wavelengthNm ?? target.wavelengthNm) : null;
  const line: LineForm = {
    ...(wavelengthNm === null ? {} : { wavelengthNm }),
    readings: [reading] as LineForm['readings'],
    ...(typed.colour === null ? {} : { color: typed.colour }),
    ...(typed.brightness === null ? {} : { brightness: typed.brightness }),
  };
  const form = addLine(record, target.list, line);
  const what = `${readingText(reading)}${wavelengthNm === null ? '' : ` for ${wavelengthNm}`}`;
  const next = commit(state, form, what, nextFree(form, place));
  return withLastLine(next, target.list, linesOf(form, target.list).length - 1);
}

function withLastLine(state: ScreenState, list: LineList, line: number): ScreenState {
  return { ...state, lastLine: { ...list, line } };
}

function withReading(
  form: BenchForm,
  list: LineList,
  { line, reading }: { readonly line: number; readonly reading: number },
  value: ReadingForm,
  typed: TypedLine,
): BenchForm {
  return editLine(form, list, line, (old) => ({
    ...old,
    readings: old.readings.map((each, at) => (at === reading ? value : each)) as LineForm['readings'],
    ...(typed.colour === null ? {} : { color: typed.colour }),
    ...(typed.brightness === null ? {} : { brightness: typed.brightness }),
    ...(typed.wavelengthNm === null || list.of === 'tube' ? {} : { wavelengthNm: typed.wavelengthNm }),
  }));
}

/** The row for the next reading: the lamp's next line still to find, else the free row at the end. */
function nextFree(form: BenchForm, place: Place): Place {
  if (place.stage !== 'lamp') return lastRow(place);
  const rows = rowsAt(form, place, 0);
  const isFree = (row: Row, at: number): boolean => row.kind === 'expected' && at >= place.row;
  const next = rows.findIndex(isFree);
  return next < 0 ? lastRow(place) : { ...place, row: next };
}

function lastRow(place: Place): Place {
  return { ...place, row: Number.MAX_SAFE_INTEGER };
}
