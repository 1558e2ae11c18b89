/** The list of the stage at hand, windowed around the cursor. */
import type { TubeLine } from '../../lines/spectrum.ts';
import { candidateName } from '../../present/identify-text.ts';
import { fieldLabel, fieldText } from '../circle-fields.ts';
import { linesOf } from '../edits.ts';
import { expectedReading } from '../expected-reading.ts';
import { lineAtCursor } from '../line-at-cursor.ts';
import { shownCandidates } from '../ranking.ts';
import { listAt, type Row, rowAtCursor, rowsOf } from '../rows.ts';
import type { ScreenState } from '../state.ts';
import { readingText } from '../typed.ts';
import { answerHead } from './answer-head.ts';
import {
  checkMessage,
  checkRow,
  knownHead,
  knownLine,
  knownLineMessage,
  LABEL_WIDTH,
  NUMBER_WIDTH,
  widestKnown,
} from './known-rows.ts';
import { type Area, fitting, type Line, line, type Span, toWidth, windowStart } from './spans.ts';
import { READING_WIDTH, tubeHead, tubeLine, tubeResult } from './tube-line.ts';
import { candidateLine } from './tubes.ts';

const CURSOR_WIDTH = 3;

/** The heading and as many rows as fit, the cursor among them. */
export function listLines(area: Area): readonly Line[] {
  const { state, width, height } = area;
  const head = headLines(state, width);
  const rows = rowsOf(state);
  const room = Math.max(1, height - head.length);
  const cursor = Math.min(state.history.place.row, rows.length - 1);
  const first = windowStart(cursor, room, rows.length);
  const shown = rows.slice(first, first + room);
  const goesOn = (at: number): boolean =>
    (at === 0 && first > 0) || (at === shown.length - 1 && first + room < rows.length);
  return [
    ...head,
    ...shown.map((row, at) => withMore(rowLine(row, first + at === cursor, area), goesOn(at), width)),
  ];
}

/** What the computation has to say about the line at the cursor; null when nothing. */
export function cursorMessage(state: ScreenState): string | null {
  const row = rowAtCursor(state);
  if (row?.kind === 'check') {
    const here = lineAtCursor(state);
    return here === null ? null : checkMessage(here, state);
  }
  if (row?.kind !== 'line') return null;
  const { stage } = state.history.place;
  return stage === 'lamp'
    ? knownLineMessage(row.line, state)
    : (tubeResult(row.line, state)?.message ?? null);
}

/** What speaks against the possible tube at the cursor, whole; null at the first, and where there is none. */
export function reasonAtCursor(state: ScreenState): string | null {
  const row = rowAtCursor(state);
  const candidate = row?.kind === 'candidate' ? shownCandidates(state)[row.at] : undefined;
  if (candidate === undefined || candidate.reasonAgainst === null) return null;
  return `${candidateName(candidate)}: ${candidate.reasonAgainst}.`;
}

/** Marks the first and last row of a window when the list goes on. */
function withMore(spans: Line, goesOn: boolean, width: number): Line {
  if (!goesOn) return spans;
  const used = spans.reduce((sum, { text }) => sum + text.length, 0);
  return used > width - 6 ? spans : [...spans, { text: 'more'.padStart(width - 1 - used), tone: 'faint' }];
}

function headLines(state: ScreenState, width: number): readonly Line[] {
  const { place, record } = state.history;
  const isScale = record.instrument.method === 'scale';
  switch (place.stage) {
    case 'circle':
      return [line(isScale ? '   The instrument' : '   The instrument and the central image', 'faint')];
    case 'lamp':
      return [knownHead(width, !isScale, widestKnown(record, place.lamp))];
    case 'tube':
      return [tubeHead(state, width)];
    case 'answer':
      return answerHead(state, width);
  }
}

function rowLine(row: Row, isAtCursor: boolean, area: Area): Line {
  const { state, width, look } = area;
  if (row.kind === 'candidate') {
    const candidate = shownCandidates(state)[row.at];
    return candidate === undefined ? [] : candidateLine(candidate, width, isAtCursor, look);
  }
  const cursor = state.moving ? '=' : look.glyphs.cursor;
  const mark: Span = { text: ` ${isAtCursor ? cursor : ' '} `, tone: 'accent' };
  return [mark, ...rowSpans(row, isAtCursor ? 'strong' : 'normal', area)];
}

function rowSpans(
  row: Exclude<Row, { kind: 'candidate' }>,
  tone: 'strong' | 'normal',
  area: Area,
): readonly Span[] {
  const { state, look } = area;
  const { record, place } = state.history;
  const tube = record.unknown[place.tube];
  switch (row.kind) {
    case 'field': {
      const text = fieldText(record, row.field);
      return settingSpans(fieldLabel(row.field), { text: text === '' ? '-' : text, tone });
    }
    case 'central': {
      const text = readingText(record.central?.[row.reading] ?? '');
      return settingSpans(`Central image ${row.reading + 1}`, { text, tone });
    }
    case 'tube-central':
      return [
        { text: '    ' },
        { text: toWidth(readingText(tube?.central?.[row.reading] ?? ''), READING_WIDTH), tone },
        { text: 'central image, read again for this tube', tone: 'faint' },
      ];
    case 'new-central':
      return settingSpans('Central image', { text: 'type its reading', tone: 'faint' });
    case 'line':
    case 'check':
      return lineSpans(row, area);
    case 'expected':
      return expectedSpans(row.expected, tone, area);
    case 'not-seen': {
      const seen = tube?.notSeen?.[row.at];
      const where =
        seen?.reading !== undefined ? readingText(seen.reading) : `${seen?.wavelengthNm?.toFixed(1)} nm`;
      return [
        { text: ` ${look.glyphs.nothing}  `, tone },
        { text: toWidth(where, READING_WIDTH), tone },
        { text: 'looked, nothing there', tone: 'faint' },
      ];
    }
    case 'new-line': {
      const next = (tube?.lines.length ?? 0) + 1;
      const text =
        place.stage === 'lamp'
          ? `${' '.repeat(NUMBER_WIDTH)}another line`
          : `${toWidth(String(next), 2, true)}  next line`;
      return [{ text, tone: tone === 'strong' ? 'normal' : 'faint' }];
    }
  }
}

function settingSpans(label: string, value: Span): readonly Span[] {
  return [{ text: toWidth(label, 22), tone: 'faint' }, value];
}

function lineSpans(row: Extract<Row, { kind: 'line' | 'check' }>, area: Area): readonly Span[] {
  const { record, place } = area.state.history;
  const list = listAt(place, row);
  const line = list === null ? undefined : linesOf(record, list)[row.line];
  if (list === null || line === undefined) return [];
  if (row.kind === 'check') return checkRow({ list, at: row.line, line }, area);
  return list.of === 'tube' ? tubeLine(row.line, line, area) : knownLine(row.line, line, area);
}

const COLOUR_NAME_WIDTH = 13;

function expectedSpans(
  expected: TubeLine,
  tone: 'strong' | 'normal',
  { state, width }: Area,
): readonly Span[] {
  const { wavelengthNm, colour } = expected;
  const near = expectedReading(state, wavelengthNm);
  const room = width - CURSOR_WIDTH - NUMBER_WIDTH - LABEL_WIDTH - COLOUR_NAME_WIDTH;
  return [
    { text: ' '.repeat(NUMBER_WIDTH) + toWidth(wavelengthNm.toFixed(2), LABEL_WIDTH), tone },
    { text: toWidth(colour, COLOUR_NAME_WIDTH), wavelengthNm },
    { text: near === null ? 'to be found' : expectedNear(near, room), tone: 'faint' },
  ];
}

/** Where there is little room only the first window is named; the whole reading stands below the list. */
function expectedNear(near: string, room: number): string {
  const firstWindow = near.replace(/ \/ [^ ]+/g, '');
  return fitting([`expected near ${near}`, `expected near ${firstWindow}`, `near ${firstWindow}`], room);
}
