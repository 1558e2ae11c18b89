/** What keys do to the line, the lamp or the tube at the cursor. */
import { wayTo } from './action-list.ts';
import { chooseField, clearField, editField } from './circle-fields.ts';
import { commit, goTo, say } from './commit.ts';
import {
  type CentralOf,
  centralOf,
  editCentral,
  editLine,
  editTube,
  isCheckList,
  type LineList,
  linesOf,
  moveLine,
  removeNotSeen,
  removeReading,
  swapLines,
  withProperty,
} from './edits.ts';
import type { LineForm } from './form.ts';
import { removeEmptyLamp, toLamp } from './known-lamp.ts';
import { lineAtCursor, sayNoLine } from './line-at-cursor.ts';
import { type Row, rowAtCursor, rowOfLine } from './rows.ts';
import { entryWith, type ScreenState } from './state.ts';
import { atOtherTube, removeEmptyTube } from './tubes.ts';
import { readingText } from './typed.ts';

/** `+`: the next reading is a repeat of the line just read. */
export function repeatLast(state: ScreenState): ScreenState {
  const { lastLine, history } = state;
  if (lineAtCursor(state) !== null) return state;
  const row = lastLine === null ? -1 : rowOfLine(history.record, history.place, lastLine.list, lastLine.line);
  return row < 0
    ? say(state, 'Nothing to repeat here yet; read a line first.')
    : goTo({ ...state, notice: null }, { row });
}

/** The reading's text comes back into the line; up and down: the other repeats. */
export function editHere(state: ScreenState): ScreenState {
  const row = rowAtCursor(state);
  if (row?.kind === 'field') return editField(state, row.field);
  if (row?.kind === 'central' || row?.kind === 'tube-central') {
    const { text } = centralAt(state, row);
    const purpose = { kind: 'edit-central', reading: row.reading } as const;
    return { ...state, entry: entryWith(purpose, text), notice: null };
  }
  const here = lineAtCursor(state);
  if (here === null) return sayNoLine(state);
  return editReading(state, here.at, here.line, here.line.readings.length - 1);
}

function centralAt(
  { history: { record, place } }: ScreenState,
  row: Extract<Row, { kind: 'central' | 'tube-central' }>,
): { readonly of: CentralOf; readonly text: string } {
  const of = row.kind === 'central' ? 'bench' : place.tube;
  return { of, text: readingText(centralOf(record, of)[row.reading] ?? '') };
}

function editReading(state: ScreenState, line: number, form: LineForm, reading: number): ScreenState {
  const value = form.readings[reading];
  if (value === undefined) return state;
  return { ...state, entry: entryWith({ kind: 'edit', line, reading }, readingText(value)), notice: null };
}

/** While a reading is being edited, the arrow keys go through the repeats of its line. */
export function editOtherRepeat(state: ScreenState, by: number): ScreenState {
  const { purpose } = state.entry;
  const here = lineAtCursor(state);
  if (purpose.kind !== 'edit' || here === null) return state;
  return editReading(state, here.at, here.line, purpose.reading + by);
}

/** Takes the last reading off the line, and the line with it when it was the only one. */
export function removeHere(state: ScreenState): ScreenState {
  const { record, place } = state.history;
  const row = rowAtCursor(state);
  if (row?.kind === 'field') return clearField(state, row.field);
  if (row?.kind === 'central' || row?.kind === 'tube-central') {
    const { of, text } = centralAt(state, row);
    const form = editCentral(record, of, (readings) => readings.filter((_, at) => at !== row.reading));
    return commit(state, form, `central image ${text} removed`, place, removed(text));
  }
  if (row?.kind === 'not-seen') {
    const form = removeNotSeen(record, place.tube, row.at);
    return commit(state, form, 'a "nothing there" removed', place, removed('The entry'));
  }
  const here = lineAtCursor(state);
  if (here === null) return removeWhereNoLine(state);
  const reading = here.line.readings.length - 1;
  const text = readingText(here.line.readings[reading] ?? '');
  const form = removeReading(record, here.list, here.at, reading);
  return { ...commit(state, form, `${text} removed`, place, removed(text)), lastLine: null, moving: false };
}

function removeWhereNoLine(state: ScreenState): ScreenState {
  switch (state.history.place.stage) {
    case 'lamp':
      return removeEmptyLamp(state);
    case 'tube':
      return removeEmptyTube(state);
    default:
      return sayNoLine(state);
  }
}

function removed(what: string): string {
  return `${what} removed. ${wayTo('undo')} brings it back.`;
}

function changeLine(state: ScreenState, what: string, change: (line: LineForm) => LineForm): ScreenState {
  const here = lineAtCursor(state);
  if (here === null) return sayNoLine(state);
  return commit(state, editLine(state.history.record, here.list, here.at, change), what);
}

export function setAside(state: ScreenState): ScreenState {
  const here = lineAtCursor(state);
  if (here !== null && isCheckList(here.list))
    return say(
      state,
      `A check line is out of the curve already; ${wayTo('check-line')} puts it back, ${wayTo('delete')} deletes it.`,
    );
  const isUsed = here?.line.use !== false;
  return changeLine(state, isUsed ? 'line set aside' : 'line taken back', (line) =>
    withProperty(line, 'use', isUsed ? false : undefined),
  );
}

/** Insists on a known line's wavelength, or no longer. */
export function insist(state: ScreenState): ScreenState {
  const here = lineAtCursor(state);
  if (here?.list.of !== 'lamp' || here.line.wavelengthNm === undefined) {
    return say(state, 'Only the wavelength of a known line in the fit can be held.');
  }
  const insisted = here.line.confirmed === true;
  const what = `${here.line.wavelengthNm} nm ${insisted ? 'no longer held' : 'held'}`;
  return changeLine(state, what, (line) => withProperty(line, 'confirmed', insisted ? undefined : true));
}

const GRADES = [undefined, 'strong', 'medium', 'weak'] as const;

export function cycleBrightness(state: ScreenState): ScreenState {
  const grade = lineAtCursor(state)?.line.brightness;
  const next = GRADES[(GRADES.indexOf(grade) + 1) % GRADES.length];
  const changed = changeLine(state, `brightness ${next ?? 'taken off'}`, (line) =>
    withProperty(line, 'brightness', next),
  );
  return next === undefined || lineAtCursor(state) === null
    ? changed
    : say(changed, `Brightness: ${next}. ${wayTo('brightness')} again changes it.`);
}

export function toggleComplete(state: ScreenState): ScreenState {
  const { record, place } = state.history;
  const isComplete = record.unknown[place.tube]?.complete === true;
  const form = editTube(record, place.tube, (tube) =>
    withProperty(tube, 'complete', isComplete ? undefined : true),
  );
  const what = isComplete ? 'not all lines written down' : 'all lines written down';
  const text = isComplete
    ? 'There may be lines that you have not written down.'
    : `All lines that can be seen are written down: a missing one counts more against a tube. ${wayTo('complete')} takes that back.`;
  return commit(state, form, what, place, text);
}

/** Arrow keys with a line in hand: up and down within the tube, left and right to another tube. */
export function moveInHand(state: ScreenState, by: number): ScreenState {
  const here = lineAtCursor(state);
  if (here === null) return state;
  const other = here.at + by;
  if (other < 0 || other >= linesOf(state.history.record, here.list).length) return state;
  const { place, record } = state.history;
  return commit(state, swapLines(record, here.list, here.at, other), 'line moved', {
    ...place,
    row: place.row + by,
  });
}

export function moveToSibling(state: ScreenState, by: number): ScreenState {
  const here = lineAtCursor(state);
  const { record, place } = state.history;
  const to = place.tube + by;
  if (here?.list.of !== 'tube' || record.unknown[to] === undefined) return state;
  const list: LineList = { of: 'tube', at: to };
  const form = moveLine(record, here.list, here.at, list);
  const row = rowOfLine(form, { ...place, tube: to }, list, linesOf(form, list).length - 1);
  return atOtherTube(commit(state, form, 'line moved to another tube', { ...place, tube: to, row }));
}

export function siblingOf(state: ScreenState, by: number): ScreenState {
  const { place, record } = state.history;
  const row = rowAtCursor(state);
  if (place.stage === 'circle') return row?.kind === 'field' ? chooseField(state, row.field, by) : state;
  if (place.stage === 'lamp') return toLamp(state, place.lamp + by);
  const tube = place.tube + by;
  if (record.unknown[tube] === undefined) return state;
  // The likeliest tube in the list of the answer's stage, the free row in that of the readings.
  const start = place.stage === 'answer' ? 0 : Number.MAX_SAFE_INTEGER;
  return atOtherTube(goTo(state, { tube, row: start }));
}
