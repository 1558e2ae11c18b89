/** One row of the unknown tube: reading, wavelength, and how it lies beside the tube compared with. */
import type { TubeLineResult } from '../../analysis/types.ts';
import { colourNamed, colourRangeNm } from '../../lines/colour.ts';
import { probabilityText, signedText, wavelengthText } from '../../present/quantity-text.ts';
import type { LineForm } from '../form.ts';
import { resultFor } from '../known-result.ts';
import { comparedSubstance, shownCandidates, tubeAnalysis } from '../ranking.ts';
import type { ScreenState } from '../state.ts';
import { colourSpan, readingsText, readingsWidth } from './line-spans.ts';
import { type Area, asciiText, type Line, line, type Span, toWidth } from './spans.ts';
import type { Look } from './theme.ts';

export const READING_WIDTH = 19;
const MEASURED_WIDTH = 20;
const SEEN_WIDTH = 15;

export function tubeHead(state: ScreenState, width: number): Line {
  const compared = comparedSubstance(state);
  const share = shownCandidates(state).find(({ substance }) => substance === compared)?.probability;
  const { reading, seen, measured } = tubeColumns(state, width);
  const head = `    #  ${toWidth('reading', reading)}${toWidth('seen as', seen)}${toWidth('wavelength nm', measured)}`;
  const name = compared ?? '';
  const named = share === undefined ? name : `${name}, ${probabilityText(share)}`;
  return line(head + (head.length + named.length <= width ? named : name), 'faint');
}

/** As for a known line: shown only beside the very line it was computed from. */
export function tubeResult(at: number, state: ScreenState): TubeLineResult | null {
  if (resultFor(state, { of: 'tube', at: state.history.place.tube }, at) === null) return null;
  return tubeAnalysis(state)?.lines.find(({ index }) => index === at) ?? null;
}

/** The number's columns, and those of the line of the tube compared with. */
const OTHERS_WIDTH = 7 + 12;

/**
 * What the line looked like gives way to its difference from the compared tube where there is little room, and what
 * seldom stands behind the wavelength to a reading of two sides.
 */
function tubeColumns({ history: { record, place } }: ScreenState, width: number) {
  const wanted = Math.max(READING_WIDTH, readingsWidth(record.unknown[place.tube]?.lines ?? []));
  const room = width - OTHERS_WIDTH - MEASURED_WIDTH;
  const seen = room >= wanted + SEEN_WIDTH ? SEEN_WIDTH : 0;
  const reading = Math.max(READING_WIDTH, Math.min(wanted, room - seen));
  return { reading, seen, measured: MEASURED_WIDTH };
}

export function tubeLine(at: number, form: LineForm, { state, width, look }: Area): readonly Span[] {
  const result = tubeResult(at, state);
  const columns = tubeColumns(state, width);
  const seen = [form.color, form.brightness].filter(Boolean).join(' ');
  const nm = result?.wavelengthNm ?? null;
  const measured = `${wavelengthText(nm, result?.standardUncertaintyNm ?? null)}${result?.extrapolated === true ? ' beyond' : ''}`;
  return [
    { text: `${toWidth(String(at + 1), 2, true)}  `, tone: 'faint' },
    { text: toWidth(readingsText(form, columns.reading - 1), columns.reading) },
    colourSpan(seen, nm ?? middleOf(form.color), columns.seen),
    { text: toWidth(look.ascii ? asciiText(measured) : measured, columns.measured), tone: 'strong' },
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
  const off = match.asRead ? signedText(match.residualNm, 1) : '(misread?)';
  return [{ text: `${match.wavelengthNm.toFixed(1)}  ${off}`, tone: 'faint' }];
}

/** A wavelength to draw a colour word in while the line has none of its own. */
function middleOf(word: string | undefined): number | null {
  const name = word === undefined ? null : colourNamed(word);
  if (name === null) return null;
  const { fromNm, toNm } = colourRangeNm(name);
  return (fromNm + toNm) / 2;
}
