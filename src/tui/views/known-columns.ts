/** The columns of the known lamp's list: the same for lines in the fit, for check lines and for the heading. */
import { deviationText, unitMark } from '../../present/quantity-text.ts';
import type { BenchForm, LineForm } from '../form.ts';
import type { ScreenState } from '../state.ts';
import { colourSpan, readingsText, readingsWidth } from './line-spans.ts';
import { offNumber } from './off-text.ts';
import { type Line, line, type Span, toWidth } from './spans.ts';

/** The cursor's column. */
const MARK_WIDTH = 3;
/** Columns of the line's number, which the expected lines leave empty. */
export const NUMBER_WIDTH = 3;
export const LABEL_WIDTH = 7;
const OFF_WIDTH = 8;
const STATUS_WIDTH = 18;
const COLOUR_WIDTH = 7;
const DEVIATION_WIDTH = 10;
/** At least so many columns for the readings; the room that is left goes to them up to the other. */
const READING_WIDTH: readonly [number, number] = [18, 26];

export interface KnownColumns {
  readonly colour: number;
  readonly reading: number;
  readonly deviation: number;
}

/**
 * A scale has no deviations. Where there is little room the deviation goes first, then the colour; reading, residual and
 * sign stay. `wanted`: columns of the widest reading of the list.
 */
function knownColumns(width: number, isAngle: boolean, wanted: number): KnownColumns {
  const [narrow, wide] = READING_WIDTH.map((each) => Math.max(each, wanted)) as [number, number];
  const room = width - MARK_WIDTH - NUMBER_WIDTH - LABEL_WIDTH - OFF_WIDTH - STATUS_WIDTH;
  const colour = room >= narrow + COLOUR_WIDTH ? COLOUR_WIDTH : 0;
  const deviation = isAngle && room >= narrow + COLOUR_WIDTH + DEVIATION_WIDTH ? DEVIATION_WIDTH : 0;
  return { colour, deviation, reading: Math.min(wide, room - colour - deviation) };
}

export function knownHead(width: number, isAngle: boolean, wanted: number): Line {
  const { colour, reading, deviation } = knownColumns(width, isAngle, wanted);
  const number = toWidth('# ', MARK_WIDTH + NUMBER_WIDTH, true);
  return line(
    `${number}${toWidth('line', LABEL_WIDTH + colour)}${toWidth('reading', reading)}${toWidth('deviation', deviation)}off by`,
    'faint',
  );
}

export interface KnownRow {
  readonly number: string;
  readonly label: string;
  /** For the colour in which the line is drawn; null where it is not known which line it is. */
  readonly wavelengthNm: number | null;
  readonly form: LineForm;
  readonly deviationDeg: number | null;
  readonly residual: number | null;
  readonly status: string;
  readonly isGood: boolean;
}

export function knownSpans(
  row: KnownRow,
  { result, history: { record, place } }: ScreenState,
  width: number,
): readonly Span[] {
  const analysis = result?.analysis ?? null;
  const isAngle = record.instrument.method !== 'scale';
  const { colour, reading, deviation } = knownColumns(width, isAngle, widestKnown(record, place.lamp));
  const off =
    row.residual === null || analysis === null
      ? ''
      : `${toWidth(offNumber(row.residual, analysis.bench), 6, true)}${unitMark(analysis.calibration.unit)}`;
  const deviated = analysis === null ? '' : deviationText(row.deviationDeg, analysis.bench);
  return [
    { text: toWidth(`${row.number} `, NUMBER_WIDTH, true), tone: 'faint' },
    { text: toWidth(row.label, LABEL_WIDTH), tone: 'strong' },
    colourSpan(row.form.color ?? '', row.wavelengthNm, colour),
    // The residual keeps a space before it by itself, the deviation does not.
    { text: toWidth(readingsText(row.form, deviation > 0 ? reading - 1 : reading), reading) },
    { text: toWidth(deviated, deviation) },
    { text: off },
    { text: `  ${row.status}`, tone: row.isGood ? 'faint' : 'doubt' },
  ];
}

/** Columns that the readings of a lamp want, those of its check lines too. */
export function widestKnown({ known, check = [] }: BenchForm, lamp: number): number {
  const { lines = [], check: own = [] } = known[lamp] ?? {};
  return readingsWidth([...lines, ...own, ...check]);
}
