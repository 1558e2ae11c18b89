/** The list of each stage, row by row: what is written down, and what could be. */
import { findLamp } from '../lines/names.ts';
import type { TubeLine } from '../lines/spectrum.ts';
import { lampSpectrum, unresolvedPairs } from '../lines/table.ts';
import type { BenchForm, LampForm } from './form.ts';
import type { Place, ScreenState } from './state.ts';

/** What must be right before the first reading is typed, and what can wait. */
const NEEDED_FIELDS = ['method', 'leastCount', 'windows', 'prism'] as const;
const OPTIONAL_FIELDS = ['scaleDivision', 'apexAngle', 'title', 'station', 'observers'] as const;
export type CircleField = (typeof NEEDED_FIELDS)[number] | (typeof OPTIONAL_FIELDS)[number];
const ONLY_ON_CIRCLES: readonly CircleField[] = ['windows', 'scaleDivision', 'apexAngle'];

export type Row =
  | { readonly kind: 'field'; readonly field: CircleField }
  | { readonly kind: 'central'; readonly reading: number }
  | { readonly kind: 'new-central' }
  | { readonly kind: 'line'; readonly line: number }
  | { readonly kind: 'expected'; readonly expected: TubeLine }
  | { readonly kind: 'not-seen'; readonly at: number }
  | { readonly kind: 'new-line' }
  | { readonly kind: 'candidate'; readonly at: number };

/** Lines of the known lamp that any student sees, and those that a patient one can find (log of prominence). */
const EASILY_SEEN = -1.5;
const WITH_PATIENCE = -3.2;
const VISIBLE_NM: readonly [number, number] = [395, 715];
/** A known line written down this close to a listed one stands in its place. */
const SAME_LINE_NM = 0.4;
/** Lines closer than this are one line in a prism spectrometer of a teaching laboratory (common practice, no source). */
const NEVER_PARTED_NM = 1;

export function rowsAt(form: BenchForm, place: Place, candidates: number): readonly Row[] {
  switch (place.stage) {
    case 'circle':
      return [
        ...fieldRows(form, NEEDED_FIELDS),
        ...(form.central ?? []).map((_, reading): Row => ({ kind: 'central', reading })),
        ...(form.instrument.method === 'scale' ? [] : [{ kind: 'new-central' } as const]),
        ...fieldRows(form, OPTIONAL_FIELDS),
      ];
    case 'lamp':
      return lampRows(form.known[place.lamp]);
    case 'tube': {
      const tube = form.unknown[place.tube];
      return [
        ...(tube?.lines ?? []).map((_, line): Row => ({ kind: 'line', line })),
        ...(tube?.notSeen ?? []).map((_, at): Row => ({ kind: 'not-seen', at })),
        { kind: 'new-line' },
      ];
    }
    case 'answer':
      return Array.from({ length: candidates }, (_, at): Row => ({ kind: 'candidate', at }));
  }
}

export function rowsOf(state: ScreenState): readonly Row[] {
  return rowsAt(state.history.record, state.history.place, candidateCount(state));
}

export function rowAtCursor(state: ScreenState): Row | null {
  const rows = rowsOf(state);
  return rows[Math.min(state.history.place.row, rows.length - 1)] ?? null;
}

function candidateCount(state: ScreenState): number {
  return state.result?.analysis?.tubes[state.history.place.tube]?.candidates.length ?? 0;
}

function fieldRows(form: BenchForm, fields: readonly CircleField[]): readonly Row[] {
  const isScale = form.instrument.method === 'scale';
  return fields
    .filter((field) => !isScale || !ONLY_ON_CIRCLES.includes(field))
    .map((field): Row => ({ kind: 'field', field }));
}

/** The row on which one goes on writing at a stage: the next line to be found, or the free one. */
export function writingRow(form: BenchForm, place: Place): number {
  const rows = rowsAt(form, place, 0);
  const expected = rows.findIndex(({ kind }) => kind === 'expected');
  if (expected >= 0) return expected;
  const free = rows.findIndex(({ kind }) => kind === 'new-central' || kind === 'new-line');
  return Math.max(0, free);
}

/** From red to violet, as they pass when the telescope is turned away from the central image. */
function lampRows(lamp: LampForm | undefined): readonly Row[] {
  const lines = lamp?.lines ?? [];
  const stated = lines.flatMap((line, at) =>
    line.wavelengthNm === undefined ? [] : [{ nm: line.wavelengthNm, at }],
  );
  const expected = mergedPairs(lampLines(lamp?.lamp)).filter(
    ({ wavelengthNm, prominence }) =>
      prominence >= EASILY_SEEN && !stated.some(({ nm }) => Math.abs(nm - wavelengthNm) <= SAME_LINE_NM),
  );
  const ordered = [
    ...stated.map(({ nm, at }) => ({ nm, row: { kind: 'line', line: at } as Row })),
    ...expected.map((line) => ({ nm: line.wavelengthNm, row: { kind: 'expected', expected: line } as Row })),
  ].sort((a, b) => b.nm - a.nm);
  const unassigned = lines.flatMap((line, at): Row[] =>
    line.wavelengthNm === undefined ? [{ kind: 'line', line: at }] : [],
  );
  return [...ordered.map(({ row }) => row), ...unassigned, { kind: 'new-line' }];
}

/** A pair that no student's prism parts is looked for as one line, at the wavelength that tables quote for it. */
function mergedPairs(lines: readonly TubeLine[]): readonly TubeLine[] {
  return unresolvedPairs.reduce<readonly TubeLine[]>((current, { quotedNm, componentsNm }) => {
    const isComponent = ({ wavelengthNm }: TubeLine): boolean =>
      componentsNm.some((nm) => Math.abs(nm - wavelengthNm) < 0.05);
    const components = current.filter(isComponent);
    const apartNm = Math.max(...componentsNm) - Math.min(...componentsNm);
    if (components.length < 2 || apartNm > NEVER_PARTED_NM) return current;
    return [...current.filter((line) => !isComponent(line)), { ...components[0]!, wavelengthNm: quotedNm }];
  }, lines);
}

/** The lines of a lamp that can be found; empty where the lamp's name says nothing to us. */
export function lampLines(lamp: string | undefined): readonly TubeLine[] {
  if (lamp === undefined) return [];
  const found = findLamp(lamp);
  if (!('substances' in found)) return [];
  return lampSpectrum(found.substances).lines.filter(
    (line) =>
      line.expected &&
      line.kind === 'line' &&
      line.prominence >= WITH_PATIENCE &&
      line.wavelengthNm >= VISIBLE_NM[0] &&
      line.wavelengthNm <= VISIBLE_NM[1],
  );
}
