/** Where the line being typed will go. */
import type { Analysis } from '../analysis/types.ts';
import { type LineList, linesOf } from './edits.ts';
import { listAt, rowAtCursor } from './rows.ts';
import type { ScreenState } from './state.ts';

/** Where the line being typed will go: the list it belongs to, and the line for a repeat or an edit. */
export interface Target {
  readonly list: LineList;
  readonly line: number | null;
  readonly wavelengthNm: number | null;
}

export function targetOf(state: ScreenState): Target | null {
  const { place, record } = state.history;
  const row = rowAtCursor(state);
  const list = listAt(place, row);
  if (list === null) return null;
  const { purpose } = state.entry;
  const isWritten = row?.kind === 'line' || row?.kind === 'check';
  const line = purpose.kind === 'edit' ? purpose.line : isWritten ? row.line : null;
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

/** True where the line typed is a reading of the central image. */
export function isCentral(state: ScreenState): boolean {
  const kind = state.entry.purpose.kind;
  return state.history.place.stage === 'circle' || kind === 'tube-central' || kind === 'edit-central';
}

/** Something is being written: letters are text, and the cursor stays on its row. */
export function isWriting({ entry }: ScreenState): boolean {
  return entry.text !== '' || entry.parts.length > 0 || entry.purpose.kind !== 'row';
}
