/** The list of each stage, row by row: what is written down, and what could be. */
import { findLamp } from '../lines/names.ts';
import { isSameLine } from '../lines/same-line.ts';
import type { TubeLine } from '../lines/spectrum.ts';
import { lampSpectrum, unresolvedPairs } from '../lines/table.ts';
import { isWellSeen } from '../lines/visible.ts';
import { isSameList, type LineList } from './edits.ts';
import type { BenchForm, LineForm } from './form.ts';
import type { Place, ScreenState } from './state.ts';

/** What must be right before the first reading is typed, and what can wait. */
const NEEDED_FIELDS = ['method', 'leastCount', 'windows', 'prism'] as const;
const OPTIONAL_FIELDS = ['scaleDivision', 'apexAngle', 'title', 'station', 'observers', 'exercise'] as const;
export type CircleField = (typeof NEEDED_FIELDS)[number] | (typeof OPTIONAL_FIELDS)[number];
/** Settings that are words: what is pasted on their rows is no list of readings. */
const WORDED_FIELDS: readonly CircleField[] = ['title', 'station', 'observers'];
const ONLY_ON_CIRCLES: readonly CircleField[] = ['windows', 'prism', 'scaleDivision', 'apexAngle'];

export type Row =
  | { readonly kind: 'field'; readonly field: CircleField }
  | { readonly kind: 'central'; readonly reading: number }
  | { readonly kind: 'new-central' }
  /** The central image read again for the tube. */
  | { readonly kind: 'tube-central'; readonly reading: number }
  | { readonly kind: 'line'; readonly line: number }
  /** A known line kept out of the fit. */
  | { readonly kind: 'check'; readonly of: 'lamp-check' | 'bench-check'; readonly line: number }
  | { readonly kind: 'expected'; readonly expected: TubeLine }
  | { readonly kind: 'not-seen'; readonly at: number }
  | { readonly kind: 'new-line' }
  | { readonly kind: 'candidate'; readonly at: number };

/** Lines of the known lamp that any student sees, and those that a patient one can find (log of prominence). */
const EASILY_SEEN = -1.5;
const WITH_PATIENCE = -3.2;
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
      return lampRows(form, place.lamp);
    case 'tube': {
      const tube = form.unknown[place.tube];
      return [
        ...(tube?.central ?? []).map((_, reading): Row => ({ kind: 'tube-central', reading })),
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
  const { record, place } = state.history;
  return rowsAt(record, place, state.result?.analysis?.tubes[place.tube]?.candidates.length ?? 0);
}

export function rowAtCursor(state: ScreenState): Row | null {
  const rows = rowsOf(state);
  return rows[Math.min(state.history.place.row, rows.length - 1)] ?? null;
}

/** True where words are asked for, those of a setting or a name for the answer, and no reading. */
export function takesWords(state: ScreenState): boolean {
  if (state.history.place.stage === 'answer') return true;
  const row = rowAtCursor(state);
  return row?.kind === 'field' && WORDED_FIELDS.includes(row.field);
}

function fieldRows(form: BenchForm, fields: readonly CircleField[]): readonly Row[] {
  return fields.filter((field) => isOffered(form, field)).map((field): Row => ({ kind: 'field', field }));
}

/** A scale has no vernier and no prism to be set; read on both sides, a prism is set anew for every line. */
function isOffered({ instrument: { method, prism } }: BenchForm, field: CircleField): boolean {
  if (method === 'scale') return !ONLY_ON_CIRCLES.includes(field);
  return field !== 'prism' || method !== 'both-sides' || prism === 'fixed';
}

/** The row on which one goes on writing at a stage: the next line to be found, or the free one. */
export function writingRow(form: BenchForm, place: Place, passedOver: readonly number[] = []): number {
  const rows = rowsAt(form, place, 0);
  const expected = place.stage === 'lamp' ? firstToFind(form, place, passedOver) : null;
  if (expected !== null) return expected;
  const free = rows.findIndex(({ kind }) => kind === 'new-central' || kind === 'new-line');
  return Math.max(0, free);
}

/** With the brightest line of the lamp, which is surely seen, one begins; then it goes on from the red end. */
function firstToFind(form: BenchForm, place: Place, passedOver: readonly number[]): number | null {
  const rows = rowsAt(form, place, 0);
  const isBegun = rows.some(({ kind }) => kind === 'line' || kind === 'check');
  const prominences = rows.map((row) =>
    isToFind(row, passedOver) ? row.expected.prominence : Number.NEGATIVE_INFINITY,
  );
  const brightest = Math.max(...prominences);
  if (!Number.isFinite(brightest)) return null;
  return isBegun ? prominences.findIndex(Number.isFinite) : prominences.indexOf(brightest);
}

/**
 * The next line of the lamp still to be found, from the cursor's row on, then from the red end; null when none is left.
 * `passedOver`: wavelengths, nm, of lines that are not to be seen.
 */
export function nextToFind(form: BenchForm, place: Place, passedOver: readonly number[]): number | null {
  const rows = rowsAt(form, place, 0);
  const isFree = (row: Row): boolean => isToFind(row, passedOver);
  const ahead = rows.findIndex((row, at) => at >= place.row && isFree(row));
  const next = ahead >= 0 ? ahead : rows.findIndex(isFree);
  return next < 0 ? null : next;
}

function isToFind(
  row: Row,
  passedOver: readonly number[],
): row is Extract<Row, { readonly kind: 'expected' }> {
  return row.kind === 'expected' && !passedOver.includes(row.expected.wavelengthNm);
}

/** The list to which a reading typed on a new row of the stage goes; null where a stage has none. */
export function writingList({ stage, lamp, tube }: Place): LineList | null {
  if (stage === 'lamp') return { of: 'lamp', at: lamp };
  return stage === 'tube' ? { of: 'tube', at: tube } : null;
}

/** The list in which a row's line stands; for a new row the one that it would go to. */
export function listAt(place: Place, row: Row | null): LineList | null {
  if (row?.kind !== 'check') return writingList(place);
  return { of: row.of, at: row.of === 'bench-check' ? 0 : place.lamp };
}

/** The row of a line; -1 where it is not in sight. */
export function rowOfLine(form: BenchForm, place: Place, list: LineList, line: number): number {
  return rowsAt(form, place, 0).findIndex((row) => {
    const here = listAt(place, row);
    return (
      (row.kind === 'line' || row.kind === 'check') &&
      row.line === line &&
      here !== null &&
      isSameList(here, list)
    );
  });
}

/**
 * From red to violet, as they pass when the telescope is turned away from the central image. Check lines that
 * belong to no lamp stand with the first.
 */
function lampRows(form: BenchForm, at: number): readonly Row[] {
  const lamp = form.known[at];
  const lines = lamp?.lines ?? [];
  const inFit = statedRows(lines, (line) => ({ kind: 'line', line }));
  const checks = [
    ...statedRows(lamp?.check ?? [], (line) => ({ kind: 'check', of: 'lamp-check', line })),
    ...(at > 0 ? [] : statedRows(form.check ?? [], (line) => ({ kind: 'check', of: 'bench-check', line }))),
  ];
  const stated = [...inFit, ...checks];
  const expected = mergedPairs(lampLines(lamp?.lamp)).filter(
    ({ wavelengthNm, prominence }) =>
      prominence >= EASILY_SEEN && !stated.some(({ nm }) => standsFor(nm, wavelengthNm)),
  );
  const ordered = [
    ...stated,
    ...expected.map((line) => ({
      nm: line.wavelengthNm,
      row: { kind: 'expected', expected: line } satisfies Row,
    })),
  ].sort((a, b) => b.nm - a.nm);
  const unassigned = lines.flatMap((line, position): Row[] =>
    line.wavelengthNm === undefined ? [{ kind: 'line', line: position }] : [],
  );
  return [...ordered.map(({ row }) => row), ...unassigned, { kind: 'new-line' }];
}

interface PlacedRow {
  readonly nm: number;
  readonly row: Row;
}

function statedRows(lines: readonly LineForm[], rowOf: (line: number) => Row): readonly PlacedRow[] {
  return lines.flatMap(({ wavelengthNm }, at) =>
    wavelengthNm === undefined ? [] : [{ nm: wavelengthNm, row: rowOf(at) }],
  );
}

/** A known line written down stands in the place of the listed line it is, or of the pair that it belongs to. */
function standsFor(writtenNm: number, listedNm: number): boolean {
  const pair = unresolvedPairs.find(({ quotedNm }) => quotedNm === listedNm);
  return [listedNm, ...(pair?.componentsNm ?? [])].some((nm) => isSameLine(writtenNm, nm));
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
      isWellSeen(line.wavelengthNm),
  );
}
