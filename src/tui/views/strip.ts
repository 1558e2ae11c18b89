/**
 * The spectrum as one strip on this bench's own circle: readings as pointers, the lines of one tube as ticks,
 * and between them the difference of each reading from its line.
 */

import type { Analysis } from '../../analysis/types.ts';
import { formatAngle, formatDeviation } from '../../angle/format-angle.ts';
import { centralImage, observe } from '../../calibrate/observation.ts';
import type { CalibrationCurve } from '../../calibrate/types.ts';
import type { Candidate, TubeLineResult } from '../../identify/types.ts';
import type { TubeLine } from '../../lines/spectrum.ts';
import { lampSpectrum } from '../../lines/table.ts';
import type { Bench } from '../../record/bench.ts';
import { type Line, line, type Span } from './spans.ts';
import type { Look } from './theme.ts';

/** Ticks fainter than this are left out unless a reading matches them. */
const FAINTEST_TICK = -2.8;
/** A line more likely seen than this is marked when it was not written down. */
const LIKELY_SEEN = 0.3;

/** Whose readings are the pointers, and whose lines the ticks. */
export type StripSubject =
  | { readonly kind: 'tube'; readonly tube: number; readonly substance: string | null }
  | { readonly kind: 'lamp'; readonly lamp: number };

export interface StripProps {
  readonly analysis: Analysis;
  readonly subject: StripSubject;
  readonly width: number;
  readonly look: Look;
}

interface Pointer {
  readonly place: number;
  readonly wavelengthNm: number | null;
  readonly offUnits: number | null;
  readonly isNothing: boolean;
}

interface Tick {
  readonly place: number;
  readonly line: TubeLine;
  readonly isMissing: boolean;
}

/** Six lines: the circle, the pointers, the differences in two rows, the ticks, their wavelengths. */
export function stripLines({ analysis, subject, width, look }: StripProps): readonly Line[] {
  const { curve } = analysis.calibration;
  if (curve === null)
    return [line(' The strip needs a curve: two or three lines of the known lamp.', 'faint')];
  const direction = directionOf(analysis.bench);
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
    Math.round(((place - span.from) / (span.to - span.from)) * (width - 10)) + 4;
  const inside = <Item extends { readonly place: number }>(items: readonly Item[]): readonly Item[] =>
    items.filter(({ place }) => place >= span.from && place <= span.to);
  return [
    axisLine(analysis.bench, span, column, direction, width, look),
    spread(
      width,
      inside(pointers).map((pointer) => pointerMark(pointer, column, look)),
    ).line,
    ...differenceLines(inside(pointers), column, width),
    spread(
      width,
      inside(ticks).map((tick) => tickMark(tick, column, look)),
    ).line,
    wavelengthLine(inside(ticks), column, width),
  ];
}

function candidateOf(
  { tubes }: Analysis,
  { tube, substance }: Extract<StripSubject, { kind: 'tube' }>,
): Candidate | null {
  return tubes[tube]?.candidates.find((each) => each.substance === substance) ?? null;
}

function tubePointers(
  analysis: Analysis,
  subject: Extract<StripSubject, { kind: 'tube' }>,
  direction: number,
): readonly Pointer[] {
  const curve = analysis.calibration.curve!;
  const candidate = candidateOf(analysis, subject);
  const lines = analysis.tubes[subject.tube]?.lines ?? [];
  return [
    ...lines.flatMap((each) => pointerOf(each, candidate, curve, direction)),
    ...nothingPointers(analysis, subject.tube, direction),
  ];
}

function lampPointers(
  { calibration: { lines } }: Analysis,
  lamp: number,
  direction: number,
): readonly Pointer[] {
  return lines.flatMap(({ lampIndex, ordinate, wavelengthNm, residual }) =>
    lampIndex !== lamp || ordinate === null
      ? []
      : [{ place: direction * ordinate, wavelengthNm, offUnits: residual, isNothing: false }],
  );
}

function lampTicks(
  { bench, calibration: { curve } }: Analysis,
  lamp: number,
  direction: number,
): readonly Tick[] {
  const substances = bench.known[lamp]?.substances ?? [];
  return ticksOf(
    substances,
    curve!,
    direction,
    (each) => each.expected && each.prominence >= FAINTEST_TICK,
    () => false,
  );
}

function tubeTicks(
  analysis: Analysis,
  subject: Extract<StripSubject, { kind: 'tube' }>,
  direction: number,
): readonly Tick[] {
  if (subject.substance === null) return [];
  const candidate = candidateOf(analysis, subject);
  const likelyMissing = candidate?.missing.filter(({ chanceSeen }) => chanceSeen >= LIKELY_SEEN) ?? [];
  const isIn = (list: readonly { readonly wavelengthNm: number }[], nm: number): boolean =>
    list.some(({ wavelengthNm }) => Math.abs(wavelengthNm - nm) < 0.05);
  return ticksOf(
    [subject.substance],
    analysis.calibration.curve!,
    direction,
    (each) =>
      isIn(candidate?.matches ?? [], each.wavelengthNm) ||
      (each.expected && each.prominence >= FAINTEST_TICK),
    (each) => isIn(likelyMissing, each.wavelengthNm),
  );
}

/** +1 where readings grow with the deviation. */
function directionOf(bench: Bench): 1 | -1 {
  if (bench.method !== 'central') return 1;
  const central = centralImage(bench, bench.central);
  const sides = [...bench.known, ...bench.tubes]
    .flatMap(({ lines }) => lines)
    .map(({ settings }) => observe(bench, settings, central)?.side ?? 0);
  return sides.reduce<number>((sum, side) => sum + side, 0) < 0 ? -1 : 1;
}

function pointerOf(
  each: TubeLineResult,
  candidate: Candidate | null,
  curve: CalibrationCurve,
  direction: number,
): readonly Pointer[] {
  if (each.ordinate === null) return [];
  const match = candidate?.matches.find(({ index }) => index === each.index);
  const offUnits = match === undefined ? null : each.ordinate - curve.ordinateAt(match.wavelengthNm);
  return [{ place: direction * each.ordinate, wavelengthNm: each.wavelengthNm, offUnits, isNothing: false }];
}

function nothingPointers(
  { bench, calibration: { curve } }: Analysis,
  tube: number,
  direction: number,
): readonly Pointer[] {
  return (bench.tubes[tube]?.notSeen ?? []).flatMap((place) => {
    const ordinate =
      place.kind === 'wavelength'
        ? curve?.ordinateAt(place.wavelengthNm)
        : observe(bench, place.settings, centralImage(bench, bench.central))?.ordinate;
    return ordinate === undefined
      ? []
      : [{ place: direction * ordinate, wavelengthNm: null, offUnits: null, isNothing: true }];
  });
}

function ticksOf(
  substances: readonly string[],
  curve: CalibrationCurve,
  direction: number,
  isDrawn: (line: TubeLine) => boolean,
  isMissing: (line: TubeLine) => boolean,
): readonly Tick[] {
  const [lowest, highest] = curve.domainNm;
  return lampSpectrum(substances)
    .lines.filter(
      ({ wavelengthNm }) => wavelengthNm >= Math.max(lowest, 395) && wavelengthNm <= Math.min(highest, 730),
    )
    .filter(isDrawn)
    .map((each) => ({
      place: direction * curve.ordinateAt(each.wavelengthNm),
      line: each,
      isMissing: isMissing(each),
    }));
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

function differenceMark(pointer: Pointer, column: (place: number) => number): readonly Mark[] {
  if (pointer.offUnits === null)
    return pointer.isNothing
      ? []
      : [{ at: column(pointer.place), span: { text: '?', tone: 'doubt' }, weight: 0 }];
  const off =
    Math.abs(pointer.offUnits) < 0.05
      ? '0'
      : `${pointer.offUnits > 0 ? '+' : ''}${pointer.offUnits.toFixed(1)}`;
  return [
    {
      at: column(pointer.place) - Math.floor(off.length / 2),
      span: { text: off, tone: 'strong' },
      weight: 1,
    },
  ];
}

function tickMark(tick: Tick, column: (place: number) => number, look: Look): Mark {
  const { prominence, wavelengthNm } = tick.line;
  const { strongTick, mediumTick, weakTick, missing } = look.glyphs;
  const glyph = prominence > -0.65 ? strongTick : prominence > -1.95 ? mediumTick : weakTick;
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
): readonly Line[] {
  const first = spread(
    width,
    pointers.flatMap((pointer) => differenceMark(pointer, column)),
  );
  return [first.line, spread(width, first.dropped).line];
}

const AXIS_STEPS = [1, 2, 5, 10, 15, 20, 30, 60, 120, 300, 600, 1200, 3600];

function axisLine(
  bench: Bench,
  span: Stretch,
  column: (place: number) => number,
  direction: number,
  width: number,
  look: Look,
): Line {
  const origin = axisOrigin(bench);
  const length = span.to - span.from;
  const most = Math.max(2, Math.floor(width / 14));
  const unit = bench.method === 'scale' ? 10 ** Math.floor(Math.log10(length / most)) : 1;
  const step = (AXIS_STEPS.find((each) => length / (each * unit) <= most) ?? 3600) * unit;
  const first = Math.ceil((span.from + origin) / step) * step - origin;
  const axis = Array<string>(width).fill(look.glyphs.axis);
  for (let place = first; place <= span.to; place += step) {
    const at = column(place);
    const text = `${look.glyphs.axisMark}${axisLabel(bench, place, origin, direction)} `;
    if (at >= 0 && at + text.length <= width) axis.splice(at, text.length, ...text);
  }
  return [{ text: axis.join(''), tone: 'faint' }];
}

/** Arc-minutes of the circle at which the deviation is zero. */
function axisOrigin(bench: Bench): number {
  if (bench.method !== 'central') return 0;
  return (centralImage(bench, bench.central)?.windowsDeg[0] ?? 0) * 60;
}

function axisLabel(bench: Bench, place: number, origin: number, direction: number): string {
  if (bench.method === 'scale') return String(Number(place.toPrecision(6)));
  if (bench.method === 'both-sides') return formatDeviation((direction * place) / 60, 1);
  return formatAngle((origin + place) / 60, 1);
}

function wavelengthLine(ticks: readonly Tick[], column: (place: number) => number, width: number): Line {
  const marks = ticks.map((tick): Mark => {
    const text = tick.line.wavelengthNm.toFixed(0);
    return { at: column(tick.place) - 1, span: { text, tone: 'faint' }, weight: tick.line.prominence };
  });
  return spread(width, marks).line;
}

/** The key to the strip, in words. */
export function stripKey(substance: string | null, unit: 'arcmin' | 'scale', look: Look): Line {
  const { pointer, strongTick, missing, nothing } = look.glyphs;
  const units = unit === 'arcmin' ? 'arc-minutes' : 'divisions';
  if (substance === null) return line(` ${pointer} your readings  ${nothing} nothing there`, 'faint');
  return line(
    ` ${pointer} reading, off by (${units})  ${strongTick} ${substance}  ${missing} not seen yet  ${nothing} nothing there`,
    'faint',
  );
}
