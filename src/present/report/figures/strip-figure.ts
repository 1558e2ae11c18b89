/**
 * Measured against candidate as one strip on the bench's own scale: readings point at it from above, the candidate's
 * lines cross it, and the difference of each pair stands between the reading and its line.
 */
import * as Plot from '@observablehq/plot';
import type { CalibrationCurve } from '../../../calibrate/types.ts';
import type { Candidate, TubeAnalysis } from '../../../identify/types.ts';
import { lineSrgb } from '../../../lines/screen-colour.ts';
import { tubeNamed } from '../../../lines/table.ts';
import type { Bench } from '../../../record/bench.ts';
import { listedText, signedText } from '../../quantity-text.ts';
import { type BenchScale, benchScale } from './bench-scale.ts';
import { drawSvg, FIGURE_WIDTH, ink } from './canvas.ts';
import { spreadLabels } from './spread-labels.ts';

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
/** Lines of the candidate fainter than this are not drawn unless something was read there. */
const faintestProminence = -3;

/** A reading with its line, a reading without a line, or a line without a reading. */
interface Pair {
  readonly reading: { readonly label: string; readonly x: number } | null;
  readonly line: { readonly nm: number; readonly x: number } | null;
  readonly difference: string;
  readonly note: string;
}

export function stripFigure(
  bench: Bench,
  tube: TubeAnalysis,
  candidate: Candidate,
  curve: CalibrationCurve,
): string {
  const scale = benchScale(bench, tube.tubeIndex);
  const pairs = pairsOf(tube, candidate, curve, scale);
  const others = faintLines(candidate, pairs, curve).map((nm) => scale.placeOf(curve.ordinateAt(nm)));
  const places = pairs.flatMap(({ reading, line }) => [reading?.x ?? [], line?.x ?? []].flat());
  const [from, to] = widened(Math.min(...places), Math.max(...places));
  const px = (place: number): number => edge + ((place - from) / (to - from)) * (FIGURE_WIDTH - 2 * edge);

  const anchored = pairs
    .map((pair) => ({ ...pair, anchor: px(pair.reading?.x ?? pair.line?.x ?? from) }))
    .sort((a, b) => a.anchor - b.anchor);
  const columns = keptInside(
    spreadLabels(
      anchored.map((pair) => pair.anchor),
      columnWidth,
    ),
  );
  const drawn = anchored.map((pair, position) => ({ ...pair, column: columns[position]! }));
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
      ...drawn.flatMap(({ reading, line, column, difference, note }) => [
        ...(reading === null ? [] : readingMarks(px(reading.x), column, reading.label, line !== null)),
        ...(line === null ? [] : lineMarks(px(line.x), column, line.nm, note)),
        columnText(column, at.difference, difference, 'start', 600),
      ]),
    ],
  });
}

function pairsOf(
  tube: TubeAnalysis,
  candidate: Candidate,
  curve: CalibrationCurve,
  scale: BenchScale,
): Pair[] {
  const lineAt = (nm: number) => ({ nm, x: scale.placeOf(curve.ordinateAt(nm)) });
  const inDomain = (nm: number): boolean => nm >= curve.domainNm[0] && nm <= curve.domainNm[1];
  const readings = tube.lines.flatMap((line): Pair[] => {
    if (line.ordinate === null) return [];
    const x = scale.placeOf(line.ordinate);
    const reading = { label: `${line.index + 1} · ${scale.textAt(x)}`, x };
    const match = candidate.matches.find(({ index }) => index === line.index);
    return match === undefined || !inDomain(match.wavelengthNm)
      ? [{ reading, line: null, difference: 'no line', note: '' }]
      : [
          {
            reading,
            line: lineAt(match.wavelengthNm),
            difference: `${signedText(match.residualNm, 1)} nm`,
            note: '',
          },
        ];
  });
  const missing = candidate.missing
    .filter(({ wavelengthNm, chanceSeen }) => chanceSeen >= 0.5 && inDomain(wavelengthNm))
    .map(
      ({ wavelengthNm }): Pair => ({
        reading: null,
        line: lineAt(wavelengthNm),
        difference: '',
        note: 'not read',
      }),
    );
  return [...readings, ...missing];
}

/** The candidate's other visible lines: drawn as short ticks without a label. */
function faintLines(candidate: Candidate, pairs: readonly Pair[], curve: CalibrationCurve): number[] {
  const labelled = new Set(pairs.map(({ line }) => line?.nm));
  return [candidate.substance, ...candidate.with]
    .flatMap((substance) => tubeNamed(substance)?.lines ?? [])
    .filter((line) => line.prominence >= faintestProminence && !labelled.has(line.wavelengthNm))
    .map((line) => line.wavelengthNm)
    .filter((nm) => nm >= curve.domainNm[0] && nm <= curve.domainNm[1]);
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

function readingMarks(x: number, column: number, label: string, matched: boolean): Plot.Markish[] {
  return [
    columnText(column, at.reading, label, 'start'),
    Plot.link([0], {
      x1: column,
      y1: at.columnEnd,
      x2: x,
      y2: at.pointer - 6,
      stroke: ink.soft,
      strokeWidth: 0.7,
    }),
    Plot.dot([0], {
      x,
      y: at.pointer,
      symbol: 'triangle',
      rotate: 180,
      r: 4.2,
      fill: matched ? ink.main : 'white',
      stroke: ink.main,
    }),
  ];
}

function lineMarks(x: number, column: number, nm: number, note: string): Plot.Markish[] {
  const { r, g, b } = lineSrgb(nm);
  const read = note === '';
  return [
    Plot.ruleX([x], {
      y1: at.stripTop,
      y2: at.stripEnd,
      stroke: ink.main,
      strokeWidth: read ? 2 : 1.5,
      ...(read ? {} : { strokeDasharray: '3 3' }),
    }),
    Plot.link([0], {
      x1: x,
      y1: at.stripEnd,
      x2: column,
      y2: at.lineStart,
      stroke: ink.soft,
      strokeWidth: 0.7,
    }),
    Plot.rect([0], {
      x1: column - 4.5,
      x2: column + 4.5,
      y1: at.patch - 4.5,
      y2: at.patch + 4.5,
      fill: read ? `rgb(${r},${g},${b})` : 'white',
      stroke: ink.main,
      strokeWidth: 0.8,
    }),
    columnText(column, at.wavelength, `${listedText(nm)}${read ? '' : ` ${note}`}`, 'end'),
  ];
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
