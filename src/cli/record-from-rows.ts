/** Rows of a spreadsheet sorted into the known lamps, the tubes and the central image of a record. */
import { quoteText } from '../angle/quote-text.ts';
import type { Method } from '../record/bench.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';
import { type CsvRow, type CsvTable, cellPlace } from './csv-table.ts';
import { checkDecimalCommas } from './decimal-commas.ts';
import { decimalNumber } from './decimal-number.ts';
import { readingValue, sideValue } from './reading-argument.ts';
import { UserError } from './user-error.ts';

/** What a column holds. */
export type Meaning = keyof typeof columnNames | 'reading';

/** Names that people give a column, by what it means; `reading 2`, `reading 3` ... are repeats. */
const columnNames = {
  lamp: ['lamp', 'known lamp'],
  tube: ['tube', 'unknown'],
  wavelength: ['wavelength', 'wavelength nm', 'wavelength (nm)', 'wavelengthnm', 'nm'],
  color: ['color', 'colour'],
  brightness: ['brightness'],
  note: ['note'],
  answer: ['answer'],
  left: ['left'],
  right: ['right'],
} as const;

const meanings = Object.entries(columnNames) as [Meaning, readonly string[]][];

interface LineWords {
  wavelengthNm?: number;
  color?: string;
  brightness?: string;
  note?: string;
}

type DraftLine = LineWords & { readonly readings: readonly ReadingValue[] };

/** A line of the record with the cells that it was made from. */
interface PlacedLine {
  readonly line: DraftLine;
  readonly row: number;
  /** Column of each reading, and of each word by its key in the record. */
  readonly readingColumns: readonly number[];
  readonly wordColumns: Readonly<Record<string, number>>;
}

/** A lamp or a tube by its name, with its lines in the order of the rows. */
type LinesByName = Map<string, PlacedLine[]>;

export interface DraftRecord {
  /** Still to be checked as every record is. */
  readonly draft: {
    readonly central?: readonly SideValue[];
    readonly known: readonly { readonly lamp: string; readonly lines: readonly DraftLine[] }[];
    readonly unknown: readonly {
      readonly label: string;
      readonly lines: readonly DraftLine[];
      readonly answer?: string;
    }[];
  };
  /** What was typed and has no place in the record. */
  readonly leftOut: readonly string[];
  /** `readings.csv: row 5, column 3 (reading)` for a place in the record; null for one that no cell made. */
  readonly cellOf: (place: string) => string | null;
}

/** The word in the lamp or tube column that marks a reading of the central image. */
const centralWord = /^central( image)?$/i;

/**
 * The record that the rows make, not yet read as one. Throws UserError with file, row and column of what is
 * wrong.
 */
export function recordFromRows(table: CsvTable, method: Method): DraftRecord {
  const meaningOf = columnMeanings(table);
  checkDecimalCommas(table, meaningOf, method);
  const lamps: LinesByName = new Map();
  const tubes: LinesByName = new Map();
  const central: { readonly value: ReadingValue; readonly row: number; readonly column: number }[] = [];
  const leftOut: string[] = [];
  const answers = new Map<string, Cell>();
  for (const row of table.rows) {
    const cells = new RowCells(table, meaningOf, row);
    const [owners, owner] = ownerOf(cells, lamps, tubes);
    takeAnswer(cells, owners === tubes ? owner : null, answers);
    const readings = readingsOf(cells, method);
    if (centralWord.test(owner)) {
      central.push(...readings.map(({ value, column }) => ({ value, row: row.row, column })));
      leftOut.push(...wordsOfCentral(cells));
      continue;
    }
    const { words, wordColumns } = lineWords(cells);
    const line = { ...words, readings: readings.map(({ value }) => value) };
    const placed = { line, row: row.row, readingColumns: readings.map(({ column }) => column), wordColumns };
    const lines = owners.get(owner) ?? [];
    lines.push(placed);
    owners.set(owner, lines);
  }
  const draft = {
    ...(central.length === 0 ? {} : { central: central.map(({ value }) => value as SideValue) }),
    known: [...lamps].map(([lamp, lines]) => ({ lamp, lines: lines.map(({ line }) => line) })),
    unknown: [...tubes].map(([label, lines]) => {
      const answer = answers.get(label)?.text;
      return { label, lines: lines.map(({ line }) => line), ...(answer === undefined ? {} : { answer }) };
    }),
  };
  const ofCentral = (place: string) => {
    const cell = central[Number(/^central\[(\d+)\]/.exec(place)?.[1])];
    return cell === undefined ? null : cellPlace(table, cell.row, cell.column);
  };
  const owned = { known: [...lamps.values()], unknown: [...tubes.values()] };
  return { draft, leftOut, cellOf: (place) => ofCentral(place) ?? cellOfLine(table, place, owned) };
}

/** The cell behind a place such as `known[1].lines[2].readings[0]`. */
function cellOfLine(
  table: CsvTable,
  place: string,
  owned: Readonly<Record<'known' | 'unknown', readonly (readonly PlacedLine[])[]>>,
): string | null {
  const [, list, owner = '0', line, key, reading] =
    /^(known|unknown)(?:\[(\d+)\])?\.lines\[(\d+)\](?:\.(\w+)(?:\[(\d+)\])?)?/.exec(place) ?? [];
  if (list === undefined) return null;
  const placed = owned[list as 'known' | 'unknown'][Number(owner)]?.[Number(line)];
  if (placed === undefined) return null;
  const column =
    key === 'readings' ? placed.readingColumns[Number(reading ?? 0)] : placed.wordColumns[key ?? ''];
  return column === undefined ? `${table.name}: row ${placed.row}` : cellPlace(table, placed.row, column);
}

/** What each column holds; null for one without a name, which is empty. */
function columnMeanings(table: CsvTable): readonly (Meaning | null)[] {
  const found = table.columns.map((column, at) => {
    if (column === '') return null;
    const meaning = /^readings?( ?\d+)?$/.test(column)
      ? 'reading'
      : meanings.find(([, names]) => names.includes(column))?.[0];
    if (meaning !== undefined) return meaning;
    throw new UserError(
      `${table.name}: row 1, column ${at + 1}: the column ${quoteText(column)} is not known; known are lamp, tube, wavelength, color, reading (reading 2 ...), left, right, brightness, note, answer`,
    );
  });
  const twice = found.findIndex(
    (meaning, at) => meaning !== null && meaning !== 'reading' && found.indexOf(meaning) !== at,
  );
  if (twice >= 0) {
    const [first, second] = [table.columns[found.indexOf(found[twice]!)]!, table.columns[twice]!];
    throw new UserError(
      `${table.name}: row 1, column ${twice + 1}: ${quoteText(second)} means the same as ${quoteText(first)}; keep one`,
    );
  }
  return found;
}

interface Cell {
  readonly text: string;
  readonly column: number;
}

/** The cells of one row by what they mean. */
class RowCells {
  constructor(
    private readonly table: CsvTable,
    private readonly meaningOf: readonly (Meaning | null)[],
    private readonly row: CsvRow,
  ) {}

  /** Those that are not empty. */
  all(meaning: Meaning): Cell[] {
    return this.row.cells.flatMap((text, column) =>
      text !== '' && this.meaningOf[column] === meaning ? [{ text, column }] : [],
    );
  }

  /** The only one, or null where it is empty or there is no such column. */
  one(meaning: Exclude<Meaning, 'reading'>): Cell | null {
    return this.all(meaning)[0] ?? null;
  }

  refuse(fault: string, cell: Cell | null = null): UserError {
    const place =
      cell === null
        ? `${this.table.name}: row ${this.row.row}`
        : cellPlace(this.table, this.row.row, cell.column);
    return new UserError(`${place}: ${fault}`);
  }
}

function ownerOf(cells: RowCells, lamps: LinesByName, tubes: LinesByName): [LinesByName, string] {
  const lamp = cells.one('lamp');
  const tube = cells.one('tube');
  if (lamp !== null && tube !== null)
    throw cells.refuse('names both a lamp and a tube; a line belongs to one of them', tube);
  if (lamp !== null) return [lamps, lamp.text];
  if (tube !== null) return [tubes, tube.text];
  throw cells.refuse(
    'names neither a lamp nor a tube; a line belongs to one of them, and its name stands in every row (cells that were merged are empty in a CSV)',
  );
}

/**
 * The readings of a row as a record writes them. A cell's text goes into the record as it was typed: what a number
 * with decimals means on a circle with minutes is weighed there, over the whole record.
 */
function readingsOf(cells: RowCells, method: Method): { value: ReadingValue; column: number }[] {
  const readings: { value: ReadingValue; column: number }[] = cells
    .all('reading')
    .map(({ text, column }) => ({ value: readingValue(text, method), column }));
  const left = cells.one('left');
  const right = cells.one('right');
  if (left !== null && right !== null) {
    const value = { left: sideValue(left.text), right: sideValue(right.text) };
    readings.push({ value, column: left.column });
  } else if (left !== right) {
    const missing = left === null ? 'left' : 'right';
    throw cells.refuse(`the other side is missing: the cell "${missing}" is empty`, left ?? right);
  }
  if (readings.length === 0) throw cells.refuse('there is no reading');
  return readings;
}

/** What the observers concluded stands in any row of the tube, and is the same in all that have it. */
function takeAnswer(cells: RowCells, tube: string | null, answers: Map<string, Cell>): void {
  const cell = cells.one('answer');
  if (cell === null) return;
  if (tube === null || centralWord.test(tube))
    throw cells.refuse('an answer belongs to an unknown tube, not to a lamp', cell);
  const before = answers.get(tube) ?? cell;
  if (before.text !== cell.text)
    throw cells.refuse(
      `${quoteText(cell.text)} is another answer than ${quoteText(before.text)} above`,
      cell,
    );
  answers.set(tube, cell);
}

function lineWords(cells: RowCells) {
  const words: LineWords = {};
  const wordColumns: Record<string, number> = {};
  const wavelength = cells.one('wavelength');
  if (wavelength !== null) {
    if (cells.one('tube') !== null)
      throw cells.refuse('a line of an unknown tube has no known wavelength', wavelength);
    words.wavelengthNm = wavelengthOf(cells, wavelength);
    wordColumns.wavelengthNm = wavelength.column;
  }
  for (const key of ['color', 'brightness', 'note'] as const) {
    const cell = cells.one(key);
    if (cell === null) continue;
    if (key !== 'note' && /^[\d.,\s]+$/.test(cell.text)) {
      throw cells.refuse(`${quoteText(cell.text)} is a number, where a word is expected`, cell);
    }
    words[key] = cell.text;
    wordColumns[key] = cell.column;
  }
  return { words, wordColumns };
}

function wavelengthOf(cells: RowCells, cell: Cell): number {
  const wavelengthNm = decimalNumber(cell.text.replace(/\s*nm$/i, ''));
  if (wavelengthNm !== null) return wavelengthNm;
  throw cells.refuse(
    `${quoteText(cell.text)} is not a wavelength in nm, a decimal number such as 546.07`,
    cell,
  );
}

/** A record has no place for what is noted beside the central image; a wavelength there is a slip. */
function wordsOfCentral(cells: RowCells): string[] {
  const wavelength = cells.one('wavelength');
  if (wavelength !== null) throw cells.refuse('the central image has no wavelength', wavelength);
  return (['color', 'brightness', 'note'] as const).flatMap((meaning) => {
    const cell = cells.one(meaning);
    if (cell === null) return [];
    return [
      cells.refuse(`${quoteText(cell.text)} is left out: a central reading takes no ${meaning}`, cell)
        .message,
    ];
  });
}
