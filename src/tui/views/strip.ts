/**
 * The spectrum as one strip on this bench's own circle: readings as pointers, the lines of one tube as ticks,
 * and between them the difference of each reading from its line.
 */

import type { Analysis } from '../../analysis/types.ts';
import { formatAngle, formatDeviation } from '../../angle/format-angle.ts';
import type { CalibrationCurve } from '../../calibrate/types.ts';
import type { Bench } from '../../record/bench.ts';
import { whyNoCurve } from '../no-curve.ts';
import { offNumber } from './off-text.ts';
import { fitting, type Line, line, type Span } from './spans.ts';
import {
  endColours,
  lampPointers,
  lampTicks,
  type Pointer,
  type StripScale,
  type StripSubject,
  scaleOf,
  type Tick,
  tubePointers,
  tubeTicks,
} from './strip-marks.ts';
import type { Look } from './theme.ts';

export interface StripProps {
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
  const { direction } = scale;
  const pointers =
    subject.kind === 'tube'
      ? tubePointers(analysis, subject, direction)
      : lampPointers(analysis, subject.lamp, direction);
  const ticks =
    subject.kind === 'tube'
      ? tubeTicks(analysis, subject, direction)
      : lampTicks(analysis, subject.lamp, direction);
  const span = spanOf(pointers, ticks, curve, direction);
  const column = (place: number): number =>
    Math.round(((place - span.from) / (span.to - span.from)) * (width - 2 * END_WIDTH)) + END_WIDTH;
  const inside = <Item extends { readonly place: number }>(items: readonly Item[]): readonly Item[] =>
    items.filter(({ place }) => place >= span.from && place <= span.to);
  return [
    axisLine(analysis.bench, scale, span, column, width, look, endColours(analysis, subject)),
    spread(
      width,
      inside(pointers).map((pointer) => pointerMark(pointer, column, look)),
    ).line,
    // Without a tube to compare with there is nothing to be off from.
    ...differenceLines(isCompared(subject) ? inside(pointers) : [], column, width, analysis.bench),
    spread(
      width,
      inside(ticks).map((tick) => tickMark(tick, column, look)),
    ).line,
    wavelengthLine(inside(ticks), column, width),
  ];
}

function isCompared(subject: StripSubject): boolean {
  return subject.kind === 'lamp' || subject.substance !== null;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

function spanOf(
  pointers: readonly Pointer[],
  ticks: readonly Tick[],
  curve: CalibrationCurve,
  direction: number,
): Stretch {
  const bright = ticks.filter((tick) => tick.line.prominence >= -1.5);
  const marked = [...pointers, ...bright].map(({ place }) => place);
  const places = marked.length >= 2 ? marked : curve.rangeNm.map((nm) => direction * curve.ordinateAt(nm));
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

function pointerMark(pointer: Pointer, column: (place: number) => number, look: Look): Mark {
  const text = pointer.isNothing ? look.glyphs.nothing : look.glyphs.pointer;
  return {
    at: column(pointer.place),
    span: coloured(text, pointer.wavelengthNm),
    weight: pointer.isNothing ? 0 : 1,
  };
}

function differenceMark(pointer: Pointer, column: (place: number) => number, bench: Bench): readonly Mark[] {
  if (pointer.isNothing) return [];
  if (pointer.offUnits === null) {
    const text = pointer.isMended ? 'misread?' : '?';
    const at = column(pointer.place) - Math.floor(text.length / 2);
    return [{ at, span: { text, tone: 'doubt' }, weight: 0 }];
  }
  const number = offNumber(pointer.offUnits, bench);
  const off = Number(number) === 0 ? '0' : number;
  return [
    {
      at: column(pointer.place) - Math.floor(off.length / 2),
      span: { text: off, tone: 'strong' },
      weight: 1,
    },
  ];
}

function tickMark(tick: Tick, column: (place: number) => number, look: Look): Mark {
  const { prominence, brightness, wavelengthNm } = tick.line;
  const { strongTick, mediumTick, weakTick, missing } = look.glyphs;
  const glyph = brightness === 'strong' ? strongTick : brightness === 'medium' ? mediumTick : weakTick;
  return {
    at: column(tick.place),
    span: coloured(tick.isMissing ? missing : glyph, wavelengthNm),
    weight: prominence,
  };
}

function coloured(text: string, wavelengthNm: number | null): Span {
  return wavelengthNm === null ? { text, tone: 'strong' } : { text, wavelengthNm };
}

/** Puts marks at their columns; one that would touch another gives way to the heavier. */
function spread(
  width: number,
  marks: readonly Mark[],
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
  pointers: readonly Pointer[],
  column: (place: number) => number,
  width: number,
  bench: Bench,
): readonly Line[] {
  const first = spread(
    width,
    pointers.flatMap((pointer) => differenceMark(pointer, column, bench)),
  );
  return [first.line, spread(width, first.dropped).line];
}

const AXIS_STEPS = [1, 2, 5, 10, 15, 20, 30, 60, 120, 300, 600, 1200, 3600];

function axisLine(
  bench: Bench,
  scale: StripScale,
  span: Stretch,
  column: (place: number) => number,
  width: number,
  look: Look,
  [leftEnd, rightEnd]: readonly [string, string],
): Line {
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

function wavelengthLine(ticks: readonly Tick[], column: (place: number) => number, width: number): Line {
  const marks = ticks.map((tick): Mark => {
    const text = tick.line.wavelengthNm.toFixed(0);
    return { at: column(tick.place) - 1, span: { text, tone: 'faint' }, weight: tick.line.prominence };
  });
  return spread(width, marks).line;
}

export interface StripKeyProps {
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
