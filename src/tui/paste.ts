/** Several readings pasted at once: read line by line, shown first, taken together. */
import type { Meaning } from '../analysis/query-reading.ts';
import type { DecimalReading } from '../angle/decimal-meaning.ts';
import type { Setting } from '../record/bench.ts';
import { weighDecimals } from '../record/decimal-habit.ts';
import { most, statedNm } from '../record/limits.ts';
import { wayTo } from './action-list.ts';
import { commit, say } from './commit.ts';
import { otherReading, understandParts } from './decimals.ts';
import { addLine, editCentral } from './edits.ts';
import { wavelengthRefusal } from './enter-line.ts';
import type { BenchForm, CentralForm, ReadingForm } from './form.ts';
import { type InstrumentShape, instrumentShape } from './instrument.ts';
import { judge, questionsOfKnownLines } from './judge.ts';
import { insertText } from './line-typed.ts';
import { typeInPick } from './reduce-pick.ts';
import { takesWords, writingList } from './rows.ts';
import { pairsOf, type WindowPair, windowPairs } from './second-window.ts';
import type { OverlayOf, ScreenState } from './state.ts';
import { newLine } from './take-reading.ts';
import { readingOf, readTypedLine, type TypedLine } from './typed.ts';

/** Most lines of one paste that are looked at: no lamp and no tube holds more. */
const MOST_LINES = most.unknownLines;

export type PastedLine =
  | {
      readonly ok: true;
      readonly text: string;
      readonly reading: ReadingForm;
      readonly setting: Setting;
      readonly typed: TypedLine;
      /** What its numbers with a decimal mark were taken for; empty without any. */
      readonly understood: string;
      /** They may be meant in the other way too. */
      readonly isOpen: boolean;
      readonly odd: readonly string[];
    }
  | { readonly ok: false; readonly text: string; readonly problem: string };

/** One pasted line goes into the line being typed, or the list being searched; several open the preview. */
export function pasteText(state: ScreenState, text: string, isCut: boolean): ScreenState {
  const lines = text
    .split(/\r\n|\r|\n/)
    .map((line) => line.replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, '').trim())
    .filter((line) => line !== '');
  const [only] = lines;
  if (only === undefined) return state;
  const { overlay, entry } = state;
  if (overlay?.kind === 'pick') return typeInPick(state, overlay, overlay.query + lines.join(' '));
  if (overlay !== null) return say(state, 'Nothing is pasted here; Esc leaves this first.');
  const isWords = takesWords(state) && state.history.place.stage !== 'answer';
  const isReading = entry.purpose.kind === 'row' && !isWords;
  if (!isReading) return insertText(state, lines.join(' ').replaceAll('\t', ' '));
  if (lines.length === 1) return insertText(state, asTyped(only, state));
  const refusal = stageRefusal(state);
  if (refusal !== null) return say(state, refusal);
  const leftOut = Math.max(0, lines.length - MOST_LINES);
  const paste = { lines: lines.slice(0, MOST_LINES), leftOut, isCut, decimals: readingOfPaste(state, lines) };
  return { ...state, overlay: { kind: 'paste', ...paste }, notice: null };
}

/** What one of its numbers says of the decimals holds for all; else what was chosen on this bench before. */
function readingOfPaste(state: ScreenState, lines: readonly string[]): DecimalReading {
  const { circle } = instrumentShape(state.history.record);
  const parts = lines.flatMap((line) => readTypedLine(asTyped(line, state), circle).parts);
  return weighDecimals(parts, circle).habit ?? state.history.decimals ?? 'degrees';
}

function stageRefusal({ history: { place, record } }: ScreenState): string | null {
  if (place.stage === 'answer') return 'Readings are pasted on stage 1, 2 or 3.';
  return place.stage === 'circle' && record.instrument.method === 'scale'
    ? 'A plain scale has no central image; readings are pasted on stage 2 or 3.'
    : null;
}

/** What of a paste is not in its preview; null where all of it is. */
export function leftOutText({ leftOut, isCut }: OverlayOf<'paste'>): string | null {
  if (isCut)
    return `The paste was too long: everything after line ${MOST_LINES}, or after 64 KiB, is left out.`;
  return leftOut === 0 ? null : `A paste takes ${MOST_LINES} lines; the ${leftOut} after them are left out.`;
}

/** A row of a spreadsheet as it would be typed: a first cell that is a wavelength gets its `=`. */
export function asTyped(line: string, state: ScreenState): string {
  const cells = line
    .split(/\t|;/)
    .map((cell) => cell.trim())
    .filter(Boolean);
  const isCircle = state.history.record.instrument.method !== 'scale';
  const first = Number(cells[0]?.replace(',', '.'));
  const isWavelength =
    state.history.place.stage === 'lamp' &&
    cells.length > 1 &&
    isCircle &&
    first > 360 &&
    first <= statedNm.longest;
  return isWavelength ? `${cells[0]} = ${cells.slice(1).join(' ')}` : cells.join(' ');
}

export function readPaste(state: ScreenState, paste: OverlayOf<'paste'>): readonly PastedLine[] {
  const { lines, decimals } = paste;
  const shape = instrumentShape(state.history.record);
  const before = [...windowPairs(state.history.record, shape)];
  const read = lines.map((line) => {
    const pasted = readPastedLine(asTyped(line, state), state, shape, before, decimals);
    if (pasted.ok && shape.windows === 2) before.push(...pairsOf(pasted.setting));
    return pasted;
  });
  return withQuestions(read, state);
}

/** Known lines are asked about together: one calibration with all of them in it. */
function withQuestions(lines: readonly PastedLine[], state: ScreenState): readonly PastedLine[] {
  const { stage, lamp } = state.history.place;
  if (stage !== 'lamp') return lines;
  const known = lines.flatMap((line) =>
    line.ok && line.typed.wavelengthNm !== null
      ? [{ line, wavelengthNm: line.typed.wavelengthNm, setting: line.setting, text: line.text }]
      : [],
  );
  const questions = questionsOfKnownLines(known, lamp, state.result);
  return lines.map((line) => {
    const question = questions[known.findIndex((each) => each.line === line)] ?? null;
    return line.ok && line.odd.length === 0 && question !== null ? { ...line, odd: [question] } : line;
  });
}

function readPastedLine(
  text: string,
  state: ScreenState,
  shape: InstrumentShape,
  before: readonly WindowPair[],
  decimals: DecimalReading,
): PastedLine {
  const { stage, lamp, tube } = state.history.place;
  const isCircleStage = stage === 'circle';
  const typed = readTypedLine(text, shape.circle);
  const wrong = wavelengthRefusal(state, typed.wavelengthNm) ?? pastedCheckRefusal(state, typed);
  if (wrong !== null) return { ok: false, text, problem: wrong };
  const { texts, said, open } = understandParts(typed.parts, shape.circle, decimals);
  const reading = readingOf(texts, shape, isCircleStage);
  if (reading === null) return { ok: false, text, problem: 'not a whole reading of this instrument' };
  const meaning: Meaning = isCircleStage
    ? { kind: 'central', others: [] }
    : stage !== 'lamp'
      ? { kind: 'unknown', repeatsOf: [], others: [], tube }
      : typed.wavelengthNm !== null
        ? { kind: 'place' }
        : { kind: 'known', wavelengthNm: null, repeatsOf: [], lamp, edits: null };
  const judged = judge(reading, meaning, shape, state.result, before);
  if (!judged.ok) return { ok: false, text, problem: judged.problem };
  const { setting, odd } = judged;
  return {
    ok: true,
    text,
    reading,
    setting,
    typed,
    understood: said.join(' / '),
    isOpen: open.length > 0,
    odd,
  };
}

/** A pasted line has no row that would say which line it is. */
function pastedCheckRefusal(state: ScreenState, { isCheck, wavelengthNm }: TypedLine): string | null {
  if (!isCheck || (state.history.place.stage === 'lamp' && wavelengthNm !== null)) return null;
  return 'a check line is one of the known lamp, with its wavelength';
}

/** Takes the readable lines of the preview as one edit. */
export function takePaste(state: ScreenState, overlay: OverlayOf<'paste'>): ScreenState {
  const taken = readPaste(state, overlay).filter((line) => line.ok);
  const closed: ScreenState = { ...state, overlay: null };
  if (taken.length === 0)
    return say(closed, 'None of the pasted lines is a reading; nothing was taken.', 'doubt');
  const form = taken.reduce((current, line) => withPasted(current, state, line), state.history.record);
  const isChosen = taken.some(({ isOpen }) => isOpen);
  const decimals = isChosen ? overlay.decimals : state.history.decimals;
  const place = { ...state.history.place, row: Number.MAX_SAFE_INTEGER };
  const what = `${taken.length} pasted ${taken.length === 1 ? 'reading' : 'readings'}`;
  const chosen = { ...closed, history: { ...closed.history, decimals } };
  return commit(chosen, form, what, place, {
    tone: 'good',
    text: `${what} taken. ${wayTo('undo')} takes them back.`,
  });
}

/** Tab in the preview: numbers with a decimal mark are taken for the other thing. */
export function otherDecimals(state: ScreenState): ScreenState {
  const { overlay } = state;
  if (overlay?.kind !== 'paste') return state;
  return { ...state, overlay: { ...overlay, decimals: otherReading(overlay.decimals) } };
}

function withPasted(form: BenchForm, state: ScreenState, line: Extract<PastedLine, { ok: true }>): BenchForm {
  const list = writingList(state.history.place);
  if (list === null)
    return editCentral(form, 'bench', (readings) => [...readings, line.reading as CentralForm]);
  const { wavelengthNm, isCheck } = line.typed;
  const written = newLine(list.of === 'tube' ? null : wavelengthNm, line.reading, line.typed);
  return addLine(form, isCheck ? { of: 'lamp-check', at: list.at } : list, written);
}
