/** The rows of the known lamp: its lines, how each lies on the curve and what is said of it; the check lines in the same columns. */
import type { ToldCalibration, ToldCalibrationLine } from '../../analysis/types.ts';
import type { CheckedLine } from '../../calibrate/types.ts';
import { deviationText, unitMark } from '../../present/quantity-text.ts';
import type { Bench } from '../../record/bench.ts';
import { wayTo } from '../action-list.ts';
import { checkResult } from '../check-line.ts';
import type { BenchForm, LineForm } from '../form.ts';
import { knownLineNumber, knownResult } from '../known-result.ts';
import type { LineHere } from '../line-at-cursor.ts';
import type { ScreenState } from '../state.ts';
import { doubtAtLine } from './doubts.ts';
import { colourSpan, readingsText, readingsWidth } from './line-spans.ts';
import { offNumber, offText } from './off-text.ts';
import { type Area, type Line, line, type Span, toWidth } from './spans.ts';
import type { Look } from './theme.ts';

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

interface KnownColumns {
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

interface KnownRow {
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

function knownSpans(
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

/** The sentence at a line: the calibration's own, or what the sign of a large residual means; null without one. */
export function knownLineMessage(at: number, state: ScreenState): string | null {
  const { record, place } = state.history;
  if (record.known[place.lamp]?.lines[at]?.use === false)
    return `Set aside by you: kept in the record, out of all computation. ${wayTo('set-aside')} takes it back.`;
  const result = knownResult(at, state);
  const analysis = state.result?.analysis ?? null;
  if (result === null || analysis === null) return null;
  const { bench, calibration } = analysis;
  if (result.message !== null || result.status !== 'used' || !isFarOff(result))
    return doubtAtLine(result, calibration.doubts);
  return `${liesOff(`Known line ${result.index + 1}`, result, bench)}.`;
}

export function knownLine(at: number, form: LineForm, { state, width, look }: Area): readonly Span[] {
  const { record, place } = state.history;
  const result = knownResult(at, state);
  const nm = result?.wavelengthNm ?? form.wavelengthNm ?? null;
  const stated = form.wavelengthNm ?? null;
  const analysis = state.result?.analysis ?? null;
  const isOut = form.use === false;
  const isFitting = result !== null && analysis !== null && isOnTheCurve(result, analysis.calibration);
  const tellsNothing =
    isFitting &&
    analysis.calibration.lines.filter(({ status }) => status !== 'set-aside').length < TELLING_LINES;
  const row = {
    number: String(knownLineNumber(at, place.lamp, record.known)),
    label: stated !== null ? stated.toFixed(2) : nm === null ? '?' : `${nm.toFixed(1)}?`,
    wavelengthNm: nm,
    form,
    deviationDeg: result?.deviationDeg ?? null,
    residual: result?.residual ?? null,
    status: isOut
      ? 'set aside by you'
      : tellsNothing
        ? form.confirmed === true
          ? 'too few (held)'
          : 'too few to tell'
        : statusText(result, isFitting, form, look),
    isGood: isFitting && !isOut,
  };
  return knownSpans(row, state, width);
}

/** A curve goes through any two lines, right or wrong: from so many on, fitting says something. */
const TELLING_LINES = 3;

/** Standard uncertainties of the residual beyond which it is worth a second look. */
const NOTICEABLE = 2;

type OnCurve = Pick<CheckedLine, 'residual' | 'standardUncertainty'>;

function timesU({ residual, standardUncertainty }: OnCurve): number {
  return Math.abs(residual ?? 0) / (standardUncertainty ?? Number.POSITIVE_INFINITY);
}

const isFarOff = (of: OnCurve): boolean => timesU(of) > NOTICEABLE;

function liesOff(name: string, of: OnCurve, bench: Bench): string {
  return `${name} lies ${offText(of.residual, bench)} away from the curve, ${timesU(of).toFixed(1)} times its uncertainty: read it again`;
}

/** True where the line may carry a plain tick: near the curve, and the lines scatter no more than is usual. */
function isOnTheCurve(line: ToldCalibrationLine, { warnings }: ToldCalibration): boolean {
  if (line.status !== 'used' || line.message !== null || line.residual === null) return false;
  return !isFarOff(line) && !warnings.some(({ code }) => code === 'large-scatter');
}

function statusText(result: ToldCalibrationLine | null, isGood: boolean, form: LineForm, look: Look): string {
  const { doubt, done } = look.glyphs;
  const held = form.confirmed === true ? ' (held)' : '';
  if (result === null) return '...';
  if (result.status === 'slip') return `${doubt} a slip?${held}`;
  if (result.status === 'reassigned') return `${doubt} rather ${result.wavelengthNm?.toFixed(1)}${held}`;
  if (result.status === 'set-aside') return `${doubt} set aside${held}`;
  if (result.message !== null) return `${doubt}${held}`;
  if (result.residual === null) return held;
  return `${isGood ? done : '?'}${held}`;
}

/** One row for a known line kept out of the fit. */
export function checkRow({ list, at, line }: LineHere, { state, width, look }: Area): readonly Span[] {
  const result = checkResult(state, list, at);
  const analysis = state.result?.analysis ?? null;
  const isAngle = analysis?.calibration.unit === 'arcmin';
  const isGood = result !== null && result.residual !== null && !isFarOff(result);
  const sign = result?.residual == null ? '' : isGood ? ` ${look.glyphs.done}` : ' ?';
  const row = {
    number: '',
    label: line.wavelengthNm?.toFixed(2) ?? '',
    wavelengthNm: line.wavelengthNm ?? null,
    form: line,
    deviationDeg: isAngle && result?.ordinate != null ? result.ordinate / 60 : null,
    residual: result?.residual ?? null,
    status: `check line${sign}`,
    isGood,
  };
  return knownSpans(row, state, width);
}

/** What a large residual of a check line means; null where it is small or not known. */
export function checkMessage({ list, at, line }: LineHere, state: ScreenState): string | null {
  const result = checkResult(state, list, at);
  const bench = state.result?.analysis?.bench;
  if (bench === undefined || result === null || !isFarOff(result)) return null;
  return `${liesOff(`The check line ${line.wavelengthNm}`, result, bench)}; if it stays, the bench has moved or the curve is wrong there.`;
}
