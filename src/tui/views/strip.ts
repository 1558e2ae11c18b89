/**
 * The spectrum as one strip on this bench's own circle: readings as pointers, the lines of one tube as ticks,
 * and between them the difference of each reading from its line.
 */
import type { Analysis } from '../../analysis/types.ts';
import { formatAngle, formatDeviation } from '../../angle/format-angle.ts';
import type { Bench } from '../../record/bench.ts';
import { whyNoCurve } from '../no-curve.ts';
import { offNumber } from './off-text.ts';
import { fitting, type Line, line, type Span } from './spans.ts';
import {
  endColours,
  type Pointer,
  pointersOf,
  type StripScale,
  type StripSubject,
  scaleOf,
  type Tick,
  ticksOf,
} from './strip-marks.ts';
import type { Look, Tone } from './theme.ts';

interface StripProps {
  readonly analysis: Analysis;
  readonly subject: StripSubject;
  readonly width: number;
  readonly look: Look;
}

/** Room at both ends of the axis for the colour there. */
const END_WIDTH = 7;

/** Six lines: the circle, the pointers, the differences in two rows, the ticks, their wavelengths. */
export function stripLines({ analysis, subject, width, look }: StripProps): readonly Line[] {
  const { curve } = analysis.calibration;
  if (curve === null)
    return [
      line(
        whyNoCurve(analysis.calibration) === null
          ? ' The strip needs a curve: two or three lines of the known lamp.'
          : ' The strip needs a curve, and none can be drawn through the known lines as they stand.',
        'faint',
      ),
    ];
  const scale = scaleOf(analysis, subject);
  const placed = <Item extends { readonly ordinate: number }>(items: readonly Item[]) =>
    items.map((item) => ({ ...item, place: scale.direction * item.ordinate }));
  const [pointers, ticks] = [placed(pointersOf(analysis, subject)), placed(ticksOf(analysis, subject))];
  const ends = placed(curve.rangeNm.map((nm) => ({ ordinate: curve.ordinateAt(nm) })));
  const span = spanOf(pointers, ticks, ends);
  const column = (place: number): number =>
    Math.round(((place - span.from) / (span.to - span.from)) * (width - 2 * END_WIDTH)) + END_WIDTH;
  const inside = <Item extends { readonly place: number }>(items: readonly Item[]) =>
    items
      .filter(({ place }) => place >= span.from && place <= span.to)
      .map((item) => ({ ...item, at: column(item.place) }));
  const [shown, drawn] = [inside(pointers), inside(ticks)];
  const markLine = (marks: readonly Mark[]): Line => spread(marks, width).line;
  const isCompared = subject.kind === 'lamp' || subject.substance !== null;
  return [
    axisLine(analysis, subject, span, column, width, look),
    markLine(shown.map((pointer) => pointerMark(pointer, look))),
    // Without a tube to compare with there is nothing to be off from.
    ...differenceLines(isCompared ? shown : [], width, analysis.bench),
    markLine(drawn.map((tick) => tickMark(tick, look))),
    wavelengthLine(drawn, width),
  ];
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

interface Placed {
  readonly place: number;
}

/** All that is marked; of nearly nothing the `ends` of the curve. */
function spanOf(
  pointers: readonly Placed[],
  ticks: readonly (Tick & Placed)[],
  ends: readonly Placed[],
): Stretch {
  const bright = ticks.filter((tick) => tick.line.prominence >= -1.5);
  const marked = [...pointers, ...bright];
  const places = (marked.length >= 2 ? marked : ends).map(({ place }) => place);
  const from = Math.min(...places);
  const to = Math.max(...places);
  const margin = Math.max((to - from) * 0.02, 1e-6);
  return { from: from - margin, to: to + margin };
}

interface Mark {
  readonly at: number;
  readonly span: Span;
  /** Of two marks on one place the heavier stays. */
  readonly weight: number;
}

/** With its column. */
type AtColumn<Item> = Item & { readonly at: number };

function pointerMark({ at, ...pointer }: AtColumn<Pointer>, look: Look): Mark {
  const text = pointer.isNothing ? look.glyphs.nothing : look.glyphs.pointer;
  const span = coloured(text, pointer.wavelengthNm);
  return { at, span, weight: pointer.isNothing ? 0 : 1 };
}

function differenceMark({ at, ...pointer }: AtColumn<Pointer>, bench: Bench): readonly Mark[] {
  if (pointer.isNothing) return [];
  const mark = (text: string, tone: Tone, weight: number): Mark => {
    return { at: at - Math.floor(text.length / 2), span: { text, tone }, weight };
  };
  if (pointer.offUnits === null) return [mark(pointer.isMended ? 'misread?' : '?', 'doubt', 0)];
  const number = offNumber(pointer.offUnits, bench);
  return [mark(Number(number) === 0 ? '0' : number, 'strong', 1)];
}

function tickMark({ at, ...tick }: AtColumn<Tick>, look: Look): Mark {
  const { prominence, brightness, wavelengthNm } = tick.line;
  const { strongTick, mediumTick, weakTick, missing } = look.glyphs;
  const glyph = brightness === 'strong' ? strongTick : brightness === 'medium' ? mediumTick : weakTick;
  const span = coloured(tick.isMissing ? missing : glyph, wavelengthNm);
  return { at, span, weight: prominence };
}

function coloured(text: string, wavelengthNm: number | null): Span {
  return wavelengthNm === null ? { text, tone: 'strong' } : { text, wavelengthNm };
}

/** Puts marks at their columns; one that would touch another gives way to the heavier. */
function spread(
  marks: readonly Mark[],
  width: number,
): { readonly line: Line; readonly dropped: readonly Mark[] } {
  const kept: Mark[] = [];
  const dropped: Mark[] = [];
  for (const mark of [...marks].sort((a, b) => b.weight - a.weight)) {
    const end = mark.at + mark.span.text.length;
    const gap = mark.span.text.length > 1 ? 1 : 0;
    const isFree = kept.every(({ at, span }) => end + gap <= at || at + span.text.length + gap <= mark.at);
    (mark.at >= 0 && end <= width && isFree ? kept : dropped).push(mark);
  }
  kept.sort((a, b) => a.at - b.at);
  const spans: Span[] = [];
  let column = 0;
  for (const { at, span } of kept) {
    spans.push({ text: ' '.repeat(at - column) }, span);
    column = at + span.text.length;
  }
  return { line: spans, dropped };
}

/** The differences under their pointers; what has no room in the first row goes to the second. */
function differenceLines(
  pointers: readonly AtColumn<Pointer>[],
  width: number,
  bench: Bench,
): readonly Line[] {
  const marks = pointers.flatMap((pointer) => differenceMark(pointer, bench));
  const first = spread(marks, width);
  return [first.line, spread(first.dropped, width).line];
}

const AXIS_STEPS = [1, 2, 5, 10, 15, 20, 30, 60, 120, 300, 600, 1200, 3600];

function axisLine(
  analysis: Analysis,
  subject: StripSubject,
  span: Stretch,
  column: (place: number) => number,
  width: number,
  look: Look,
): Line {
  const { bench } = analysis;
  const scale = scaleOf(analysis, subject);
  const [leftEnd, rightEnd] = endColours(analysis, subject);
  const zero = scale.zeroArcmin ?? 0;
  const length = span.to - span.from;
  const most = Math.max(2, Math.floor(width / 14));
  const unit = bench.method === 'scale' ? 10 ** Math.floor(Math.log10(length / most)) : 1;
  const step = (AXIS_STEPS.find((each) => length / (each * unit) <= most) ?? 3600) * unit;
  const first = Math.ceil((span.from + zero) / step) * step - zero;
  const axis = Array<string>(width).fill(look.glyphs.axis);
  for (let place = first; place <= span.to; place += step) {
    const at = column(place);
    const text = `${look.glyphs.axisMark}${axisLabel(bench, place, scale)} `;
    if (at >= 0 && at + text.length <= width - END_WIDTH) axis.splice(at, text.length, ...text);
  }
  axis.splice(0, leftEnd.length + 1, ...leftEnd, ' ');
  axis.splice(width - rightEnd.length - 1, rightEnd.length + 1, ' ', ...rightEnd);
  return [{ text: axis.join(''), tone: 'faint' }];
}

function axisLabel({ method }: Bench, place: number, { zeroArcmin, direction }: StripScale): string {
  if (method === 'scale') return String(Number(place.toPrecision(6)));
  if (zeroArcmin === null) return formatDeviation((direction * place) / 60, 1);
  return formatAngle((zeroArcmin + place) / 60, 1);
}

function wavelengthLine(ticks: readonly AtColumn<Tick>[], width: number): Line {
  const marks = ticks.map(({ at, line: { wavelengthNm, prominence } }): Mark => {
    return { at: at - 1, span: { text: wavelengthNm.toFixed(0), tone: 'faint' }, weight: prominence };
  });
  return spread(marks, width).line;
}

interface StripKeyProps {
  /** Whose lines the ticks are; null where there are none. */
  readonly name: string | null;
  readonly unit: 'arcmin' | 'scale';
  /** What stands on the strip besides. */
  readonly hasMissing: boolean;
  readonly hasNothing: boolean;
  readonly width: number;
  readonly look: Look;
}

/** The key to the strip, in fewer words where there is little room. */
export function stripKey({ name, unit, hasMissing, hasNothing, width, look }: StripKeyProps): Line {
  const { pointer, strongTick, mediumTick, weakTick, missing, nothing } = look.glyphs;
  const nothingThere = hasNothing ? `  ${nothing} nothing there` : '';
  if (name === null) return line(` ${pointer} your readings${nothingThere}`, 'faint');
  const rest = `${hasMissing ? `  ${missing} not seen yet` : ''}${nothingThere}`;
  const [units, short] = unit === 'arcmin' ? ['arc-minutes', "'"] : ['scale units', 'units'];
  const graded = `${strongTick}${mediumTick}${weakTick} ${name}, bright to faint`;
  const wordings = [
    ` ${pointer} reading, off by (${units})  ${graded}${rest}`,
    ` ${pointer} reading, off by (${units})  ${strongTick} ${name}${rest}`,
    ` ${pointer} off by (${short})  ${strongTick} ${name}${rest}`,
  ];
  return line(fitting(wordings, width), 'faint');
}
