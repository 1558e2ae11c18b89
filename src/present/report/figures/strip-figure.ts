/**
 * Measured against candidate as one strip on the bench's own scale: readings point at it from above, the candidate's
 * lines cross it, and the difference of each pair stands between the reading and its line.
 */
import * as Plot from '@observablehq/plot';
import type { Candidate, TubeAnalysis } from '../../../analysis/types.ts';
import type { CalibrationCurve } from '../../../calibrate/types.ts';
import type { Bench } from '../../../record/bench.ts';
import { listedText } from '../../quantity-text.ts';
import { benchScale } from './bench-scale.ts';
import { drawSvg, FIGURE_WIDTH, fillOf, ink } from './canvas.ts';
import { spreadLabels, thinned } from './spread-labels.ts';
import { faintLines, type Pair, pairsOf } from './strip-pairs.ts';

/** Heights in the figure, from the top. */
const at = {
  reading: 68,
  difference: 120,
  columnEnd: 124,
  pointer: 142,
  stripTop: 148,
  stripEnd: 176,
  lineStart: 198,
  patch: 204,
  wavelength: 213,
  axis: 288,
  height: 326,
} as const;

const edge = 24;
const columnWidth = 12.5;
/** With more readings and lines than this, only every second, third ... is labelled. */
export const MOST_LABELS = 50;

/** `marked`: indexes of readings whose labels stand out. */
export function stripFigure(
  bench: Bench,
  tube: TubeAnalysis,
  candidate: Candidate,
  curve: CalibrationCurve,
  marked: ReadonlySet<number> = new Set(),
): string {
  const scale = benchScale(bench, tube.tubeIndex);
  const pairs = pairsOf(tube, candidate, curve, scale, marked);
  const others = faintLines(candidate, pairs, curve).map((nm) => scale.placeOf(curve.ordinateAt(nm)));
  const places = pairs.flatMap(({ reading, line }) => [reading?.x ?? [], line?.x ?? []].flat());
  const [from, to] = widened(Math.min(...places), Math.max(...places));
  const px = (place: number): number => edge + ((place - from) / (to - from)) * (FIGURE_WIDTH - 2 * edge);

  const anchored = pairs
    .map((pair) => ({ ...pair, anchor: px(pair.reading?.x ?? pair.line?.x ?? from) }))
    .sort((a, b) => a.anchor - b.anchor);
  const labelled = thinned(anchored, MOST_LABELS);
  const columns = keptInside(
    spreadLabels(
      labelled.map((pair) => pair.anchor),
      columnWidth,
    ),
  );
  const ticks = scale.ticks(from, to, 9).map((place) => ({ x: px(place), text: scale.textAt(place) }));
  const visible = others.filter((place) => place >= from && place <= to).map(px);

  return drawSvg({
    height: at.height,
    margin: 0,
    x: { type: 'identity', axis: null },
    y: { type: 'identity', axis: null },
    marks: [
      ...axisMarks(ticks, scale.title),
      Plot.rect([0], {
        x1: edge / 2,
        x2: FIGURE_WIDTH - edge / 2,
        y1: at.stripTop,
        y2: at.stripEnd,
        fill: '#f3f3f3',
        stroke: ink.soft,
      }),
      Plot.ruleX(visible, { y1: at.stripEnd - 10, y2: at.stripEnd, stroke: ink.soft, strokeWidth: 0.8 }),
      ...anchored.flatMap(({ reading, line }) => [
        ...(reading === null ? [] : [pointer(px(reading.x), line !== null)]),
        ...(line === null ? [] : [lineTick(px(line.x), reading !== null)]),
      ]),
      ...labelled.flatMap((pair, position) => columnMarks(pair, columns[position]!, px)),
    ],
  });
}

function widened(from: number, to: number): [number, number] {
  const margin = to > from ? 0.05 * (to - from) : 1;
  return [from - margin, to + margin];
}

/** Columns pushed over an edge come back in, the others making room. */
function keptInside(columns: readonly number[]): number[] {
  const forward: number[] = [];
  for (const column of columns)
    forward.push(Math.max(column, (forward.at(-1) ?? edge / 2 - columnWidth) + columnWidth));
  const backward: number[] = [];
  for (const column of forward.reverse()) {
    backward.push(Math.min(column, (backward.at(-1) ?? FIGURE_WIDTH - edge / 2 + columnWidth) - columnWidth));
  }
  return backward.reverse();
}

function columnText(
  x: number,
  y: number,
  text: string,
  textAnchor: 'start' | 'end',
  fontWeight = 400,
): Plot.Markish {
  return Plot.text([text], {
    x: () => x,
    y: () => y,
    text: (value: string) => value,
    rotate: -90,
    textAnchor,
    fontWeight,
    fontSize: 10,
    fill: ink.main,
  });
}

function pointer(x: number, matched: boolean): Plot.Markish {
  return Plot.dot([0], {
    x,
    y: at.pointer,
    symbol: 'triangle',
    rotate: 180,
    r: 4.2,
    fill: matched ? ink.main : 'white',
    stroke: ink.main,
  });
}

function lineTick(x: number, read: boolean): Plot.Markish {
  return Plot.ruleX([x], {
    y1: at.stripTop,
    y2: at.stripEnd,
    stroke: ink.main,
    strokeWidth: read ? 2 : 1.5,
    ...(read ? {} : { strokeDasharray: '3 3' }),
  });
}

/** The texts of a pair in its column, tied to their places in the strip. */
function columnMarks({ reading, line, difference }: Pair, column: number, px: (place: number) => number) {
  const tie = (x1: number, y1: number, x2: number, y2: number) =>
    Plot.link([0], { x1, y1, x2, y2, stroke: ink.soft, strokeWidth: 0.7 });
  return [
    ...(reading === null
      ? []
      : [
          columnText(column, at.reading, reading.label, 'start', reading.isMarked ? 700 : 400),
          columnText(column, at.difference, difference, 'start', 600),
          tie(column, at.columnEnd, px(reading.x), at.pointer - 6),
        ]),
    ...(line === null
      ? []
      : [
          tie(px(line.x), at.stripEnd, column, at.lineStart),
          patch(column, reading === null ? null : line.nm),
          columnText(
            column,
            at.wavelength,
            `${listedText(line.nm)}${reading === null ? ' not read' : ''}`,
            'end',
          ),
        ]),
  ];
}

/** The line's colour; white where nothing was read. */
function patch(column: number, nm: number | null): Plot.Markish {
  return Plot.rect([0], {
    x1: column - 4.5,
    x2: column + 4.5,
    y1: at.patch - 4.5,
    y2: at.patch + 4.5,
    fill: nm === null ? 'rgb(255,255,255)' : fillOf(nm),
    stroke: ink.main,
    strokeWidth: 0.8,
  });
}

function axisMarks(ticks: readonly { x: number; text: string }[], title: string): Plot.Markish[] {
  return [
    Plot.ruleX(ticks, { x: 'x', y1: at.stripTop - 4, y2: at.axis, stroke: ink.faint }),
    Plot.ruleY([at.axis], { x1: edge / 2, x2: FIGURE_WIDTH - edge / 2, stroke: ink.main }),
    Plot.ruleX(ticks, { x: 'x', y1: at.axis, y2: at.axis + 5, stroke: ink.main }),
    Plot.text(ticks, { x: 'x', y: () => at.axis + 14, text: 'text', fill: ink.main }),
    Plot.text([title], {
      x: () => FIGURE_WIDTH / 2,
      y: () => at.axis + 31,
      text: (value: string) => value,
      fill: ink.main,
    }),
  ];
}
