/** A small plot in characters: a curve in braille dots (or full stops), points on top, an axis at the left. */
import type { Area, Line, Span } from './spans.ts';
import type { Look } from './theme.ts';

export interface PlotPoint {
  readonly x: number;
  readonly y: number;
  /** In the fit, left out of it by the program or a person, or a check line. */
  readonly kind: 'used' | 'out' | 'check';
  readonly wavelengthNm: number;
}

export interface PlotProps extends Omit<Area, 'state'> {
  /** From left to right. */
  readonly xRange: readonly [number, number];
  /** What stands at the left and at the right end of the axis. */
  readonly ends: readonly [string, string];
  readonly yRange: readonly [number, number];
  readonly points: readonly PlotPoint[];
  /** The curve; null where there is none. */
  readonly curve: ((x: number) => number) | null;
  /** Draws a rule at this ordinate. */
  readonly ruleAt: number | null;
  yLabel(y: number): string;
}

const LABEL_WIDTH = 8;
const UNIT = ' nm';
/** Dot bits of a braille cell, by row and column (ISO/IEC 10646, Braille patterns). */
const DOTS: readonly (readonly [number, number])[] = [
  [0x01, 0x08],
  [0x02, 0x10],
  [0x04, 0x20],
  [0x40, 0x80],
];

export function plotLines(props: PlotProps): readonly Line[] {
  const { width, height, xRange, yRange, look } = props;
  const columns = Math.max(10, width - LABEL_WIDTH - 1);
  const cells = curveCells(props, columns);
  const row = (y: number): number => Math.round(((yRange[1] - y) / (yRange[1] - yRange[0])) * (height - 1));
  const column = (x: number): number =>
    Math.round(((x - xRange[0]) / (xRange[1] - xRange[0])) * (columns - 1));
  const points = pointCells(props, row, column);
  const plotted = Array.from({ length: height }, (_, at): Line => {
    const y = yRange[1] - (at / Math.max(1, height - 1)) * (yRange[1] - yRange[0]);
    const isRule = props.ruleAt !== null && at === row(props.ruleAt);
    const isLabelled =
      isRule || at === 0 || at === height - 1 || (props.ruleAt === null && at % 3 === 0 && at < height - 2);
    const label = isLabelled ? props.yLabel(isRule ? props.ruleAt! : y) : '';
    const cellsOfRow = Array.from({ length: columns }, (_, cell): Span => {
      const under = isRule ? look.glyphs.axis : (cells[at]?.[cell] ?? ' ');
      return points.get(`${at},${cell}`) ?? { text: under, tone: 'faint' };
    });
    return [
      { text: `${label.padStart(LABEL_WIDTH - 1)} ${look.glyphs.upright}`, tone: 'faint' },
      ...joined(cellsOfRow),
    ];
  });
  return [...plotted, xAxis(props, columns)];
}

/** The points by row and column. Of two signs for one place the second stands beside the first. */
function pointCells(
  { points, yRange, look }: PlotProps,
  row: (y: number) => number,
  column: (x: number) => number,
): ReadonlyMap<string, Span> {
  const cells = new Map<string, Span>();
  for (const { x, y, kind, wavelengthNm } of points) {
    const at = row(Math.max(yRange[0], Math.min(yRange[1], y)));
    const text = pointGlyph(kind, look);
    const keys = [0, 1, -1].map((aside) => `${at},${column(x) + aside}`);
    const free = keys.find((key) => (cells.get(key)?.text ?? text) === text);
    cells.set(free ?? keys[0]!, { text, wavelengthNm });
  }
  return cells;
}

export function pointGlyph(kind: PlotPoint['kind'], { glyphs }: Look): string {
  return { used: glyphs.point, out: glyphs.outPoint, check: glyphs.checkPoint }[kind];
}

/** Neighbours of one tone in one span: fewer pieces to draw. */
function joined(spans: readonly Span[]): readonly Span[] {
  const runs: Span[] = [];
  for (const span of spans) {
    const last = runs.at(-1);
    if (
      last !== undefined &&
      last.wavelengthNm === undefined &&
      span.wavelengthNm === undefined &&
      last.tone === span.tone
    ) {
      runs[runs.length - 1] = { ...last, text: last.text + span.text };
    } else runs.push(span);
  }
  return runs;
}

function curveCells(
  { curve, height, xRange, yRange, look }: PlotProps,
  columns: number,
): readonly (readonly string[])[] {
  const bits = Array.from({ length: height }, () => Array<number>(columns).fill(0));
  if (curve !== null) {
    for (let dot = 0; dot < columns * 2; dot += 1) {
      const y = curve(xRange[0] + (dot / (columns * 2 - 1)) * (xRange[1] - xRange[0]));
      const fine = Math.round(((yRange[1] - y) / (yRange[1] - yRange[0])) * (height * 4 - 1));
      const cells = bits[Math.floor(fine / 4)];
      const column = Math.floor(dot / 2);
      if (cells !== undefined && fine >= 0) cells[column] = (cells[column] ?? 0) | DOTS[fine % 4]![dot % 2]!;
    }
  }
  return bits.map((cells) =>
    cells.map((cell) => (cell === 0 ? ' ' : look.ascii ? '.' : String.fromCodePoint(0x2800 + cell))),
  );
}

function xAxis({ xRange, ends: [left, right], width }: PlotProps, columns: number): Line {
  const text = Array<string>(width).fill(' ');
  const room = width - right.length - UNIT.length - 1;
  const [from, to] = xRange;
  for (let nm = Math.ceil(Math.min(...xRange) / 50) * 50; nm <= Math.max(...xRange); nm += 50) {
    const label = String(nm);
    const at = LABEL_WIDTH + 1 + Math.round(((nm - from) / (to - from)) * (columns - 1)) - 1;
    if (
      at + label.length <= room &&
      text.slice(Math.max(0, at - 1), at + 4).every((character) => character === ' ')
    )
      text.splice(at, label.length, ...label);
  }
  const numbers = text.slice(LABEL_WIDTH).join('').trimEnd();
  const axis = `${left.padStart(LABEL_WIDTH - 1)} ${numbers}${UNIT}`;
  return [{ text: `${axis.padEnd(width - right.length)}${right}`, tone: 'faint' }];
}
