/** Lists to choose from by typing a few letters: lamps, lines, tubes, colours. */
import Fuse from 'fuse.js';
import { findLamp, findTube } from '../lines/names.ts';
import { plainWord } from '../lines/plain-word.ts';
import { tubes } from '../lines/table.ts';
import { tubeFile } from '../lines/tube-file.ts';
import { probabilityText } from '../present/quantity-text.ts';
import { isHere, searchActions } from './action-list.ts';
import { expectedReading } from './expected-reading.ts';
import { knownResult } from './known-result.ts';
import { type LineHere, lineAtCursor } from './line-at-cursor.ts';
import { shelfOf, shownCandidates } from './ranking.ts';
import { lampLines } from './rows.ts';
import { type PickPurpose, type ScreenState, STAGES } from './state.ts';

export interface PickItem {
  readonly label: string;
  readonly detail: string;
  /** What is put into the record. */
  readonly value: string;
}

/** Value of the item that leaves a known line to the program. */
export const LET_PROGRAM_SAY = 'let the program say';
export const NEW_TUBE = 'a new tube';

/** Lamps commonly found on a bench come first (common practice, no source). */
const USUAL_LAMPS = ['mercury', 'helium', 'sodium', 'cadmium', 'hydrogen', 'neon'];

const COLOURS = [
  'red',
  'orange',
  'yellow',
  'yellow-green',
  'green',
  'blue-green',
  'blue',
  'blue-violet',
  'violet',
  'deep red',
];

/** The items that fit what was typed, best first; all of them when nothing was. */
export function pickItems(state: ScreenState, purpose: PickPurpose, query: string): readonly PickItem[] {
  if (purpose === 'action') return actionItems(state, query);
  const all = allItems(state, purpose);
  const word = query.trim();
  if (word === '') return all;
  const starting = all.filter(({ label, detail }) =>
    [label, detail].some((text) => text.toLowerCase().startsWith(word.toLowerCase())),
  );
  // By the name first: `mercry` is mercury, not the mixed lamp that has it in its name and in its contents.
  const near = ['label', 'detail'].flatMap((key) =>
    new Fuse(all, { keys: [key], threshold: 0.4, ignoreDiacritics: true })
      .search(word)
      .map(({ item }) => item),
  );
  const found = [...new Set([...starting, ...named(all, purpose, word), ...near])];
  return purpose === 'answer' && !found.some(({ label }) => label === word)
    ? [...found, { label: word, detail: 'as typed', value: word }]
    : found;
}

/** Symbols and other names: `Hg`, `quicksilver`, `mercury cadmium`. */
function named(all: readonly PickItem[], purpose: PickPurpose, word: string): readonly PickItem[] {
  if (purpose === 'lamp' || purpose === 'another-lamp') {
    const found = findLamp(word);
    if (!('substances' in found)) return [];
    const value = found.substances.join('-');
    return [all.find((item) => item.value === value) ?? { label: value, detail: '', value }];
  }
  const found = findTube(word);
  return 'substance' in found ? all.filter((item) => item.value === found.substance) : [];
}

function allItems(state: ScreenState, purpose: PickPurpose): readonly PickItem[] {
  const { record, place } = state.history;
  switch (purpose) {
    case 'action':
      return actionItems(state, '');
    case 'lamp':
    case 'another-lamp':
      return lampItems();
    case 'known-line':
      return [
        ...knownLineItems(state),
        { label: LET_PROGRAM_SAY, detail: 'from its place among the others', value: LET_PROGRAM_SAY },
      ];
    case 'answer': {
      const shelf = shelfOf(record, place.tube);
      const onShelf = tubesAndLamps().filter(({ value }) =>
        shelf.some((name) => plainWord(name) === plainWord(value)),
      );
      return onShelf.length > 0 ? onShelf : tubesAndLamps();
    }
    case 'colour':
      return COLOURS.map((colour) => ({ label: colour, detail: '', value: colour }));
    case 'tube':
      return [
        ...record.unknown.map((tube, at) => ({
          label: tube.label ?? `tube ${at + 1}`,
          detail: `${tube.lines.length} lines`,
          value: String(at),
        })),
        { label: NEW_TUBE, detail: '', value: NEW_TUBE },
      ];
    case 'shelf': {
      const shelf = shelfOf(record, place.tube);
      return tubesAndLamps().map((item) =>
        shelf.includes(item.value) ? { ...item, detail: `${item.detail}  it can be this` } : item,
      );
    }
    case 'compare':
      return compareItems(state);
  }
}

const ACTION_KEY_WIDTH = 8;

function actionItems(state: ScreenState, query: string): readonly PickItem[] {
  return searchActions(state, query).map((action) => {
    const { id, label, help, key = '', at = [] } = action;
    const [first] = at;
    const where =
      first === undefined || isHere(action, state.history.place.stage)
        ? ''
        : ` (stage ${STAGES.indexOf(first) + 1})`;
    return { label, detail: key.padEnd(ACTION_KEY_WIDTH) + help + where, value: id };
  });
}

function tubesAndLamps(): readonly PickItem[] {
  const mixed = tubeFile.mixedLamps.map(({ name, substances }) => ({
    label: name,
    detail: substances.join(' + '),
    value: name,
  }));
  const single = tubes.map(({ substance, symbol }) => ({
    label: substance,
    detail: symbol,
    value: substance,
  }));
  return [...single, ...mixed];
}

function lampItems(): readonly PickItem[] {
  const items = tubesAndLamps();
  const usual = USUAL_LAMPS.flatMap((lamp) => items.filter(({ value }) => value === lamp));
  return [...new Set([...usual, ...items])];
}

function knownLineItems(state: ScreenState): readonly PickItem[] {
  const lamp = state.history.record.known[state.history.place.lamp]?.lamp;
  return [...lampLines(lamp)].reverse().map(({ wavelengthNm, colour }) => {
    const expected = expectedReading(state, wavelengthNm);
    return {
      label: wavelengthNm.toFixed(2),
      detail: expected === null ? colour : `${colour}, expected near ${expected}`,
      value: wavelengthNm.toFixed(2),
    };
  });
}

function compareItems(state: ScreenState): readonly PickItem[] {
  const ranked = shownCandidates(state);
  const items = tubesAndLamps();
  const first = ranked.flatMap(({ substance, probability }) =>
    items
      .filter(({ value }) => value === substance)
      .map((item) => ({ ...item, detail: probabilityText(probability) })),
  );
  return [...first, ...items.filter(({ value }) => !first.some((item) => item.value === value))];
}

/** The line that the reading is by its place; else the one it is stated to be. */
function likelyLine(here: LineHere | null, state: ScreenState): number | undefined {
  if (here === null) return undefined;
  const found = here.list.of === 'lamp' ? knownResult(here.at, state)?.wavelengthNm : null;
  return found ?? here.line.wavelengthNm;
}

/** Where the cursor of a list begins: on what stands in the record already, or is likeliest. */
export function startingCursor(state: ScreenState, purpose: PickPurpose): number {
  const { record, place } = state.history;
  const here = lineAtCursor(state);
  const begins: Partial<Record<PickPurpose, string | undefined>> = {
    tube: String(place.tube),
    lamp: record.known[place.lamp]?.lamp,
    'known-line': likelyLine(here, state)?.toFixed(2),
    colour: here?.line.color,
  };
  const at = allItems(state, purpose).findIndex(({ value }) => value === begins[purpose]);
  return Math.max(0, at);
}
