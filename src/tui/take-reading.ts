/** Writes a reading into the record, at the place it was typed for. */
import { commit } from './commit.ts';
import { addLine, addNotSeen, addRepeat, editCentral, editLine, type LineList, linesOf } from './edits.ts';
import type { BenchForm, CentralForm, LineForm, ReadingForm } from './form.ts';
import { nextToFind, rowAtCursor, writingRow } from './rows.ts';
import type { Place, ScreenState } from './state.ts';
import { isCentral, type Target, targetOf } from './target.ts';
import { readingText, type TypedLine } from './typed.ts';

export function takeReading(state: ScreenState, reading: ReadingForm, typed: TypedLine): ScreenState {
  const { record, place } = state.history;
  const { purpose } = state.entry;
  const said = readingText(reading);
  if (isCentral(state)) return takeCentral(state, reading as CentralForm);
  if (purpose.kind === 'not-seen') {
    const form = addNotSeen(record, place.tube, { reading });
    return commit(state, form, `nothing seen at ${said}`, lastRow(place));
  }
  const target = targetOf(state);
  if (target === null) return state;
  if (purpose.kind === 'edit')
    return commit(state, withReading(record, target.list, purpose, reading, typed), `changed to ${said}`);
  if (target.line !== null && typed.wavelengthNm === null && !typed.isCheck) {
    const form = addRepeat(record, target.list, target.line, reading);
    const next = commit(state, form, `repeat ${said}`, nextFree(form, place, state));
    return withLastLine(next, target.list, target.line);
  }
  return takeNewLine(state, target, reading, typed);
}

function takeCentral(state: ScreenState, reading: CentralForm): ScreenState {
  const { record, place } = state.history;
  const { purpose } = state.entry;
  const of = place.stage === 'circle' ? 'bench' : place.tube;
  const isEdit = purpose.kind === 'edit-central';
  const form = editCentral(record, of, (readings) =>
    isEdit ? readings.map((old, at) => (at === purpose.reading ? reading : old)) : [...readings, reading],
  );
  const what = `central image ${readingText(reading)}${of === 'bench' ? '' : ' for this tube'}`;
  const row = isEdit ? place.row : of === 'bench' ? writingRow(form, place) : Number.MAX_SAFE_INTEGER;
  return commit(state, form, what, { ...place, row });
}

function takeNewLine(
  state: ScreenState,
  target: Target,
  reading: ReadingForm,
  typed: TypedLine,
): ScreenState {
  const { record, place } = state.history;
  const wavelengthNm = target.list.of === 'tube' ? null : (typed.wavelengthNm ?? target.wavelengthNm);
  const list = newLineList(place, target.list, typed.isCheck);
  const form = addLine(record, list, newLine(wavelengthNm, reading, typed));
  const what = `${readingText(reading)}${wavelengthNm === null ? '' : ` for ${wavelengthNm}`}${typed.isCheck ? ', a check line' : ''}`;
  const next = commit(state, form, what, nextFree(form, place, state));
  return withLastLine(next, list, linesOf(form, list).length - 1);
}

/** A line as the record has it; `wavelengthNm` null: of a tube, or left to the program. */
export function newLine(wavelengthNm: number | null, reading: ReadingForm, typed: TypedLine): LineForm {
  return {
    ...(wavelengthNm === null ? {} : { wavelengthNm }),
    readings: [reading] as LineForm['readings'],
    ...seenAs(typed),
  };
}

/** What was said of its look. */
function seenAs({ colour, brightness }: TypedLine): Pick<LineForm, 'color' | 'brightness'> {
  return { ...(colour === null ? {} : { color: colour }), ...(brightness === null ? {} : { brightness }) };
}

/** A new known line goes into the fit unless it is said to be a check, wherever the cursor stands. */
function newLineList(place: Place, { of, at }: LineList, isCheck: boolean): LineList {
  if (of === 'tube') return { of, at };
  return { of: isCheck ? 'lamp-check' : 'lamp', at: place.lamp };
}

function withLastLine(state: ScreenState, list: LineList, line: number): ScreenState {
  return { ...state, lastLine: { list, line } };
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
    ...seenAs(typed),
    ...(typed.wavelengthNm === null || list.of === 'tube' ? {} : { wavelengthNm: typed.wavelengthNm }),
  }));
}

/** The row for the next reading: the lamp's next line still to find, else the free row at the end. */
function nextFree(form: BenchForm, place: Place, state: ScreenState): Place {
  // On the free row one goes on with lines that are not in the list.
  const isInList = place.stage === 'lamp' && rowAtCursor(state)?.kind !== 'new-line';
  const next = isInList ? nextToFind(form, place, state.passedOver) : null;
  return next === null ? lastRow(place) : { ...place, row: next };
}

function lastRow(place: Place): Place {
  return { ...place, row: Number.MAX_SAFE_INTEGER };
}
