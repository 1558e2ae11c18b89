/** Choosing from a list: moving in it, and what Enter does with the choice. */
import { most } from '../record/limits.ts';
import { wayTo } from './action-list.ts';
import { commit, goTo, say } from './commit.ts';
import { editLamp, editLine, editTube, isCheckList, withProperty } from './edits.ts';
import type { LineForm } from './form.ts';
import { addLamp } from './known-lamp.ts';
import { lineAtCursor, sayNoLine } from './line-at-cursor.ts';
import { insertText } from './line-typed.ts';
import { LET_PROGRAM_SAY, NEW_TUBE, type PickItem, pickItems, startingCursor } from './picker.ts';
import { shelfOf } from './ranking.ts';
import { writingRow } from './rows.ts';
import type { OverlayOf, PickPurpose, ScreenState } from './state.ts';
import { addTube, atOtherTube } from './tubes.ts';

type Pick = OverlayOf<'pick'>;

export function openPick(state: ScreenState, purpose: PickPurpose, query = ''): ScreenState {
  const needsLine = purpose === 'known-line' || purpose === 'colour';
  if (needsLine && lineAtCursor(state) === null) {
    return sayNoLine(state);
  }
  return {
    ...state,
    overlay: { kind: 'pick', purpose, query, cursor: query === '' ? startingCursor(state, purpose) : 0 },
    notice: null,
  };
}

export function typeInPick(state: ScreenState, pick: Pick, query: string): ScreenState {
  if (query.length > most.nameCharacters)
    return say(state, `No name is longer than ${most.nameCharacters} characters.`, 'doubt');
  return { ...state, overlay: { ...pick, query, cursor: 0 } };
}

export function moveInPick(state: ScreenState, pick: Pick, by: number): ScreenState {
  const count = pickItems(state, pick.purpose, pick.query).length;
  const cursor = Math.max(0, Math.min(pick.cursor + by, count - 1));
  return { ...state, overlay: { ...pick, cursor } };
}

export function choosePick(state: ScreenState, pick: Pick): ScreenState {
  const item = pickItems(state, pick.purpose, pick.query)[pick.cursor];
  if (item === undefined)
    return say(state, 'Nothing in the list fits; take letters away with Backspace.', 'doubt');
  if (pick.purpose === 'shelf')
    return { ...toggleOnShelf(state, item.value), overlay: { ...pick, query: '' } };
  return chosen({ ...state, overlay: null }, pick.purpose, item);
}

function chosen(state: ScreenState, purpose: PickPurpose, { value }: PickItem): ScreenState {
  const { record, place } = state.history;
  switch (purpose) {
    case 'action':
      return state;
    case 'lamp': {
      const form = editLamp(record, place.lamp, (lamp) => ({ ...lamp, lamp: value }));
      return commit(state, form, `lamp ${value}`, {
        ...place,
        row: writingRow(form, place, state.passedOver),
      });
    }
    case 'another-lamp':
      return addLamp(state, value);
    case 'known-line':
      return assign(state, value === LET_PROGRAM_SAY ? undefined : Number(value));
    case 'answer':
      return writeAnswer(state, value);
    case 'colour':
      return changeHere(state, `colour ${value}`, (line) => ({ ...line, color: value }));
    case 'tube':
      return value === NEW_TUBE
        ? addTube(state)
        : atOtherTube(goTo(state, { stage: 'tube', tube: Number(value), row: Number.MAX_SAFE_INTEGER }));
    case 'compare':
      return { ...state, compareWith: value };
    case 'shelf':
      return toggleOnShelf(state, value);
  }
}

function changeHere(state: ScreenState, what: string, change: (line: LineForm) => LineForm): ScreenState {
  const here = lineAtCursor(state);
  return here === null
    ? state
    : commit(state, editLine(state.history.record, here.list, here.at, change), what);
}

function assign(state: ScreenState, wavelengthNm: number | undefined): ScreenState {
  const here = lineAtCursor(state);
  if (wavelengthNm === undefined && here !== null && isCheckList(here.list))
    return say(
      state,
      `A check line needs its wavelength; ${wayTo('check-line')} puts it back into the curve first.`,
    );
  const what = wavelengthNm === undefined ? 'line left to the program' : `line is ${wavelengthNm} nm`;
  return changeHere(state, what, (line) =>
    withProperty(withProperty(line, 'confirmed', undefined), 'wavelengthNm', wavelengthNm),
  );
}

/** Writes the answer, and whether it came before the ranking was seen. */
function writeAnswer(state: ScreenState, answer: string): ScreenState {
  const { record, place, rankingSeen } = state.history;
  const answerBeforeRanking = !rankingSeen.includes(place.tube);
  const form = editTube(record, place.tube, (tube) => ({ ...tube, answer, answerBeforeRanking }));
  return commit(state, form, `answer ${answer}`);
}

function toggleOnShelf(state: ScreenState, substance: string): ScreenState {
  const { record, place } = state.history;
  const shelf = shelfOf(record, place.tube);
  const isOn = shelf.includes(substance);
  const next = isOn ? shelf.filter((name) => name !== substance) : [...shelf, substance];
  const form = editTube(record, place.tube, (tube) =>
    withProperty(tube, 'shelf', next.length === 0 ? undefined : next),
  );
  return commit(state, form, `${substance} ${isOn ? 'not ' : ''}among the tubes it can be`);
}

/** Letters typed in a list search it; anywhere else they go into the line. */
export function insertHere(state: ScreenState, text: string): ScreenState {
  const { overlay } = state;
  return overlay?.kind === 'pick'
    ? typeInPick(state, overlay, overlay.query + text)
    : insertText(state, text);
}
