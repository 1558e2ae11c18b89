/** The list of the stage at hand, windowed around the cursor. */
import type { TubeLineResult } from '../../identify/types.ts';
import { colourNamed, colourRangeNm } from '../../lines/colour.ts';
import { probabilityText, signedText, wavelengthText } from '../../present/quantity-text.ts';
import { FIELD_LABELS, fieldText } from '../circle-fields.ts';
import { linesOf } from '../edits.ts';
import { expectedReading } from '../expected-reading.ts';
import type { LineForm } from '../form.ts';
import { lineAtCursor } from '../line-at-cursor.ts';
import { comparedSubstance, rankingIsHeldBack, shownCandidates, tubeAnalysis } from '../ranking.ts';
import { listAt, type Row, rowAtCursor, rowsOf } from '../rows.ts';
import type { ScreenState } from '../state.ts';
import { readingText } from '../typed.ts';
import { checkMessage, checkRow } from './check-row.ts';
import { knownHead, LABEL_WIDTH, NUMBER_WIDTH } from './known-columns.ts';
import { knownLine, knownLineMessage } from './known-line.ts';
import { colourSpan, readingsText } from './line-spans.ts';
import { asciiText, type Line, line, type Span, toWidth, wrap } from './spans.ts';
import type { Look } from './theme.ts';
import { candidateLine, verdictLines } from './tubes.ts';

/** The heading and as many rows as toWidth, the cursor among them. */
export function listLines(state: ScreenState, width: number, height: number, look: Look): readonly Line[] {
  const head = headLines(state, width);
  const rows = rowsOf(state);
  const room = Math.max(1, height - head.length);
  const cursor = Math.min(state.history.place.row, rows.length - 1);
  const first = Math.max(0, Math.min(cursor - Math.floor(room / 2), rows.length - room));
  const shown = rows
    .slice(first, first + room)
    .map((row, at) => rowLine(row, state, first + at === cursor, width, look));
  const above = first > 0;
  const below = first + room < rows.length;
  return [
    ...head,
    ...shown.map((spans, at) =>
      withMore(spans, (at === 0 && above) || (at === shown.length - 1 && below), width),
    ),
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

/** Marks the first and last row of a window when the list goes on. */
function withMore(spans: Line, goesOn: boolean, width: number): Line {
  if (!goesOn) return spans;
  const used = spans.reduce((sum, { text }) => sum + text.length, 0);
  return used > width - 6 ? spans : [...spans, { text: 'more'.padStart(width - 1 - used), tone: 'faint' }];
}

function headLines(state: ScreenState, width: number): readonly Line[] {
  switch (state.history.place.stage) {
    case 'circle':
      return [line('   The instrument and the central image', 'faint')];
    case 'lamp':
      return [knownHead(width)];
    case 'tube': {
      const compared = comparedSubstance(state);
      const share = shownCandidates(state).find(({ substance }) => substance === compared)?.probability;
      const name =
        compared === null ? '' : `${compared}${share === undefined ? '' : `, ${probabilityText(share)}`}`;
      const seen = toWidth('seen as', seenWidth(width));
      return [line(`    #  ${toWidth('reading', 19)}${seen}wavelength nm      ${name}`, 'faint')];
    }
    case 'answer':
      return answerHead(state, width);
  }
}

function answerHead(state: ScreenState, width: number): readonly Line[] {
  const { record, place } = state.history;
  const tube = record.unknown[place.tube];
  const answer = tube?.answer ?? record.answer ?? '';
  const answered: Line = [
    { text: ' Your answer: ', tone: 'faint' },
    answer === '' ? { text: 'not written yet', tone: 'doubt' } : { text: answer, tone: 'strong' },
    {
      text:
        answer !== '' && tube?.answerBeforeRanking === true ? '  (written before the ranking was seen)' : '',
      tone: 'faint',
    },
  ];
  const analysis = tubeAnalysis(state);
  if (rankingIsHeldBack(state))
    return [
      answered,
      line(' The possible tubes are kept back until your answer is written.'),
      ...wavelengthLines(state, width),
    ];
  return analysis === null ? [answered] : [answered, ...verdictLines(analysis, width, 3)];
}

/** While the ranking is kept back: the wavelengths to decide by. */
function wavelengthLines(state: ScreenState, width: number): readonly Line[] {
  const lines = tubeAnalysis(state)?.lines ?? [];
  const texts = lines.map(({ wavelengthNm, standardUncertaintyNm }) =>
    wavelengthText(wavelengthNm, standardUncertaintyNm),
  );
  return wrap(texts.map((text) => text.replaceAll(' ', '\u00a0')).join(',  '), width - 3).map((text) =>
    line(`  ${text.replaceAll('\u00a0', ' ')}`, 'strong'),
  );
}

function rowLine(row: Row, state: ScreenState, isAtCursor: boolean, width: number, look: Look): Line {
  const mark: Span = {
    text: ` ${isAtCursor ? (state.moving ? '=' : look.glyphs.cursor) : ' '} `,
    tone: 'accent',
  };
  const tone = isAtCursor ? 'strong' : 'normal';
  switch (row.kind) {
    case 'field': {
      const text = fieldText(state.history.record, row.field);
      return [
        mark,
        { text: toWidth(FIELD_LABELS[row.field], 22), tone: 'faint' },
        { text: text === '' ? '-' : text, tone },
      ];
    }
    case 'central':
      return [
        mark,
        { text: toWidth(`Central image ${row.reading + 1}`, 22), tone: 'faint' },
        { text: readingText(state.history.record.central?.[row.reading] ?? ''), tone },
      ];
    case 'new-central':
      return [
        mark,
        { text: toWidth('Central image', 22), tone: 'faint' },
        { text: 'type its reading', tone: 'faint' },
      ];
    case 'line': {
      const form = linesHere(state)[row.line];
      if (form === undefined) return [mark];
      const spans =
        state.history.place.stage === 'lamp'
          ? knownLine(row.line, form, state, width, look)
          : tubeLine(row.line, form, state, width, look);
      return [mark, ...spans];
    }
    case 'check': {
      const { place, record } = state.history;
      const list = listAt(place, row);
      const form = list === null ? undefined : linesOf(record, list)[row.line];
      if (list === null || form === undefined) return [mark];
      return [mark, ...checkRow({ list, at: row.line, line: form }, state, width, look)];
    }
    case 'expected': {
      const { wavelengthNm, colour } = row.expected;
      const expected = expectedReading(state, row.expected);
      return [
        mark,
        { text: ' '.repeat(NUMBER_WIDTH) + toWidth(wavelengthNm.toFixed(2), LABEL_WIDTH), tone },
        { text: toWidth(colour, 13), wavelengthNm },
        { text: expected === null ? 'to be found' : `expected near ${expected}`, tone: 'faint' },
      ];
    }
    case 'not-seen': {
      const place = state.history.record.unknown[state.history.place.tube]?.notSeen?.[row.at];
      const where =
        place?.reading !== undefined ? readingText(place.reading) : `${place?.wavelengthNm?.toFixed(1)} nm`;
      return [
        mark,
        { text: ` ${look.glyphs.nothing}  `, tone },
        { text: toWidth(where, 19), tone },
        { text: 'looked, nothing there', tone: 'faint' },
      ];
    }
    case 'new-line':
      return [
        mark,
        {
          text:
            state.history.place.stage === 'lamp'
              ? `${' '.repeat(NUMBER_WIDTH)}another line`
              : `${toWidth(String(linesHere(state).length + 1), 2, true)}  next line`,
          tone: isAtCursor ? 'normal' : 'faint',
        },
      ];
    case 'candidate': {
      const candidate = shownCandidates(state)[row.at];
      return candidate === undefined ? [] : candidateLine(candidate, width, isAtCursor, look);
    }
  }
}

function linesHere({ history: { record, place } }: ScreenState): readonly LineForm[] {
  return linesOf(
    record,
    place.stage === 'lamp' ? { of: 'lamp', at: place.lamp } : { of: 'tube', at: place.tube },
  );
}

/** As for a known line: shown only beside the very line it was computed from. */
function tubeResult(at: number, state: ScreenState): TubeLineResult | null {
  const { result, history } = state;
  const { tube } = history.place;
  if (
    result?.analysis == null ||
    result.form.unknown[tube]?.lines[at] !== history.record.unknown[tube]?.lines[at]
  )
    return null;
  return tubeAnalysis(state)?.lines.find(({ index }) => index === at) ?? null;
}

/** What the line looked like gives way to its difference from the compared tube where there is little room. */
function seenWidth(width: number): number {
  return width >= 72 ? 15 : 0;
}

function tubeLine(
  at: number,
  form: LineForm,
  state: ScreenState,
  width: number,
  look: Look,
): readonly Span[] {
  const result = tubeResult(at, state);
  const seen = [form.color, form.brightness].filter(Boolean).join(' ');
  const nm = result?.wavelengthNm ?? null;
  const measured = `${wavelengthText(nm, result?.standardUncertaintyNm ?? null)}${result?.extrapolated === true ? ' beyond' : ''}`;
  return [
    { text: `${toWidth(String(at + 1), 2, true)}  `, tone: 'faint' },
    { text: readingsText(form, 19) },
    colourSpan(seen, nm ?? middleOf(form.color), seenWidth(width)),
    {
      text: toWidth(look.ascii ? asciiText(measured) : measured, 19),
      tone: 'strong',
    },
    ...matchSpans(at, form, state, result, look),
  ];
}

function matchSpans(
  at: number,
  form: LineForm,
  state: ScreenState,
  result: TubeLineResult | null,
  look: Look,
): readonly Span[] {
  if (form.use === false) return [{ text: 'set aside by you', tone: 'doubt' }];
  if (result?.status === 'slip') return [{ text: `${look.glyphs.doubt} a slip?`, tone: 'doubt' }];
  const compared = comparedSubstance(state);
  const candidate = shownCandidates(state).find(({ substance }) => substance === compared);
  if (compared === null || candidate === undefined || result === null) return [];
  const match = candidate.matches.find(({ index }) => index === at);
  if (match === undefined) return [{ text: `${look.glyphs.doubt} no ${compared} line`, tone: 'doubt' }];
  const off = match.asRead ? signedText(match.residualNm, 1) : '(mended)';
  return [{ text: `${match.wavelengthNm.toFixed(1)}  ${off}`, tone: 'faint' }];
}

/** A wavelength to draw a colour word in while the line has none of its own. */
function middleOf(word: string | undefined): number | null {
  const name = word === undefined ? null : colourNamed(word);
  if (name === null) return null;
  const { fromNm, toNm } = colourRangeNm(name);
  return (fromNm + toNm) / 2;
}
