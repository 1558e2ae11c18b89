/** Main scale and vernier drawn in characters, as the pair at the telescope should see them. */
import type { Circle } from './circle.ts';
import { describeVernier, tickLabel, type VernierReading, vernierReading } from './vernier.ts';
import { wrapDirection } from './wrap.ts';

export interface VernierDrawing {
  /** None when there is no vernier with such steps. */
  readonly lines: readonly string[];
  /** The same in words, for a screen reader. */
  readonly sentence: string;
}

interface Style {
  readonly width: number;
  readonly ascii: boolean;
}

/** Verniers with more ticks than this are not drawn. */
const mostDivisions = 120;
const widest = 76;

/**
 * Two looks at the circle: where the zero of the vernier stands on the main scale, and which tick of the vernier
 * meets a mark. One look where both fit into it.
 */
export function drawVernier(degrees: number, circle: Circle, style: Partial<Style> = {}): VernierDrawing {
  const width = Math.max(40, Math.min(style.width ?? widest, widest));
  const ascii = style.ascii ?? false;
  const plain = (text: string) => (ascii ? text.replaceAll('°', 'd') : text);
  const sentence = plain(describeVernier(degrees, circle));
  const reading = vernierReading(degrees, circle);
  if (reading === null || reading.divisions > mostDivisions) return { lines: [], sentence };
  const panel = (centreMark: number) => drawPanel(reading, circle, centreMark, { width, ascii });
  const lines =
    reading.tick <= 1
      ? [caption('zero and matching tick', width), ...panel(0)]
      : [
          caption('where the zero of the vernier stands', width),
          ...panel(0),
          caption('the tick that meets a mark', width),
          ...panel(reading.tick),
        ];
  return { lines: lines.map((line) => plain(line).trimEnd()), sentence };
}

const caption = (text: string, width: number): string => text.padStart(Math.floor((width + text.length) / 2));

/**
 * One look, centred on a mark of the main scale, counted from the mark below the zero of the vernier. Tick j of a
 * vernier with n divisions stands j·(n − 1)/n main divisions behind its zero, so tick k meets the k-th mark.
 */
function drawPanel(reading: VernierReading, circle: Circle, centreMark: number, style: Style): string[] {
  const { divisions, tick } = reading;
  const spacing = Math.floor(style.width / 6);
  const centre = centreMark === 0 ? Math.floor(style.width / 2 - spacing / 2) : Math.floor(style.width / 2);
  const columnOf = (marks: number) => centre + (marks - centreMark) * spacing;
  const labels = new CharacterRow(style.width);
  const marks = new CharacterRow(style.width);
  const ticks = new CharacterRow(style.width);
  const tickLabels = new CharacterRow(style.width);
  const pointer = new CharacterRow(style.width);

  for (let mark = centreMark - 4; mark <= centreMark + 4; mark += 1) {
    marks.write(columnOf(mark), style.ascii ? '|' : '│');
    labels.centre(columnOf(mark), markLabel(reading, circle, mark));
  }
  const zero = (tick + reading.offTickArcmin / circle.leastCountArcmin) / divisions;
  const lastTick = divisions === 1 ? 0 : divisions;
  for (let index = 0; index <= lastTick; index += 1) {
    const column = columnOf(zero + (index * (divisions - 1)) / divisions);
    ticks.write(Math.round(column), style.ascii ? '|' : tickGlyph(column));
    if (index === tick) {
      pointer.write(Math.round(column), style.ascii ? '^' : '▲');
      pointer.write(Math.round(column) + 2, tickLabel(tick, circle));
    }
    tickLabels.centre(Math.round(column), shortTickLabel(index, circle));
  }
  return [labels, marks, ticks, tickLabels, pointer]
    .map((row) => row.text())
    .filter((line) => line.trim() !== '');
}

/** A tick to a third of a column: at the left edge, in the middle, at the right edge. */
function tickGlyph(column: number): string {
  const offCentre = column - Math.round(column);
  if (offCentre < -1 / 6) return '▏';
  return offCentre > 1 / 6 ? '▕' : '│';
}

/** Whole degrees in full, marks between them by their minutes or decimals. */
function markLabel(reading: VernierReading, circle: Circle, mark: number): string {
  const arcmin = Math.round((reading.mainScaleDeg * 60 + mark * circle.scaleDivisionArcmin) * 1e6) / 1e6;
  const degrees = wrapDirection(arcmin / 60);
  const whole = Math.floor(degrees + 1e-9);
  const rest = degrees - whole;
  if (rest < 1e-9) return `${whole}°`;
  return circle.decimal ? String(Number(rest.toFixed(4))).slice(1) : `${Number((rest * 60).toFixed(2))}'`;
}

/** Whole minutes only: the engraving has no room for more. */
function shortTickLabel(index: number, circle: Circle): string {
  const value = index * circle.leastCountArcmin;
  if (circle.decimal) return String(Number((value / 60).toFixed(4))).replace(/^0\./, '.');
  return Math.abs(value - Math.round(value)) < 1e-6 ? String(Math.round(value)) : '';
}

/** A row of characters on which things are put at columns; what falls outside is not shown. */
class CharacterRow {
  readonly #characters: string[];

  constructor(width: number) {
    this.#characters = Array<string>(width).fill(' ');
  }

  write(column: number, text: string): void {
    if (column < 0 || column + text.length > this.#characters.length) return;
    this.#characters.splice(column, text.length, ...text);
  }

  centre(column: number, text: string): void {
    this.write(column - Math.floor((text.length - 1) / 2), text);
  }

  text(): string {
    return this.#characters.join('').trimEnd();
  }
}
