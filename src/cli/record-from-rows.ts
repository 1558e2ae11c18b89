/** Rows of a spreadsheet sorted into the known lamps, the tubes and the central image of a record. */
import type { ReadingValue, SideValue } from '../record/schema.ts';
import type { CsvRow, CsvTable } from './csv-table.ts';
import { readingValue } from './reading-argument.ts';
import { UserError } from './user-error.ts';

type Method = 'central' | 'both-sides' | 'scale';

/** Column names people use, by what they mean; `reading 2`, `reading 3` ... are repeats. */
const meanings: Readonly<Record<string, string>> = {
  lamp: 'lamp',
  'known lamp': 'lamp',
  tube: 'tube',
  unknown: 'tube',
  wavelength: 'wavelength',
  'wavelength nm': 'wavelength',
  'wavelength (nm)': 'wavelength',
  wavelengthnm: 'wavelength',
  nm: 'wavelength',
  color: 'color',
  colour: 'color',
  brightness: 'brightness',
  note: 'note',
  left: 'left',
  right: 'right',
};

interface DraftLine {
  wavelengthNm?: number;
  color?: string;
  brightness?: string;
  note?: string;
  readings: ReadingValue[];
}

/** A lamp or a tube by its name, with its lines in the order of the rows. */
type LinesByName = Map<string, DraftLine[]>;

export interface DraftRecord {
  /** Still to be checked as every record is. */
  readonly draft: {
    readonly central?: readonly SideValue[];
    readonly known: readonly { readonly lamp: string; readonly lines: readonly DraftLine[] }[];
    readonly unknown: readonly { readonly label: string; readonly lines: readonly DraftLine[] }[];
  };
  /** `row 5` for a place in the record such as `known.lines[2].readings[0]`; null for other places. */
  readonly rowAt: (place: string) => string | null;
}

/** The word in the lamp or tube column that marks a reading of the central image. */
const centralWord = /^central( image)?$/i;

export function recordFromRows(name: string, table: CsvTable, method: Method): DraftRecord {
  const columns = new Map(table.columns.map((column) => [column, meaningOf(name, column)]));
  const lamps: LinesByName = new Map();
  const tubes: LinesByName = new Map();
  const central: { readonly value: SideValue; readonly row: number }[] = [];
  const rowOfLine = new Map<DraftLine, number>();
  for (const row of table.rows) {
    const cells = cellsByMeaning(row, columns);
    const lamp = cells.text('lamp');
    const tube = cells.text('tube');
    if ((lamp === '') === (tube === '')) {
      const fault = lamp === '' ? 'names neither a lamp nor a tube' : 'names both a lamp and a tube';
      throw new UserError(`${name}: row ${row.row}: ${fault}; a line belongs to one of them`);
    }
    const readings = readingsOf(name, row, cells, method);
    if (centralWord.test(lamp + tube)) {
      central.push(...readings.map((value) => ({ value: value as SideValue, row: row.row })));
      continue;
    }
    const line = { ...lineWords(name, row, cells), readings };
    rowOfLine.set(line, row.row);
    const [owners, owner] = lamp === '' ? [tubes, tube] : [lamps, lamp];
    owners.set(owner, [...(owners.get(owner) ?? []), line]);
  }
  const draft = {
    ...(central.length === 0 ? {} : { central: central.map(({ value }) => value) }),
    known: [...lamps].map(([lamp, lines]) => ({ lamp, lines })),
    unknown: [...tubes].map(([label, lines]) => ({ label, lines })),
  };
  return {
    draft,
    rowAt: (place) => {
      const line = lineAt(place, draft);
      const row =
        line === null ? central[Number(/^central\[(\d+)\]/.exec(place)?.[1])]?.row : rowOfLine.get(line);
      return row === undefined ? null : `row ${row}`;
    },
  };
}

/** The line that a place such as `known[1].lines[2].readings[0]` lies in. */
function lineAt(place: string, draft: DraftRecord['draft']): DraftLine | null {
  const [, list, owner = '0', line] = /^(known|unknown)(?:\[(\d+)\])?\.lines\[(\d+)\]/.exec(place) ?? [];
  if (list === undefined) return null;
  return draft[list as 'known' | 'unknown'][Number(owner)]?.lines[Number(line)] ?? null;
}

function meaningOf(name: string, column: string): string {
  if (column === '') return '';
  if (/^readings?( ?\d+)?$/.test(column)) return 'reading';
  const meaning = meanings[column];
  if (meaning !== undefined) return meaning;
  throw new UserError(
    `${name}: the column "${column}" is not known; known are lamp, tube, wavelength, color, reading (reading 2 ...), left, right, brightness, note`,
  );
}

interface Cells {
  /** The first cell with this meaning, or "". */
  text(meaning: string): string;
  /** All cells with this meaning that are not empty. */
  all(meaning: string): string[];
}

function cellsByMeaning(row: CsvRow, columns: ReadonlyMap<string, string>): Cells {
  const all = (meaning: string) =>
    [...row.cells]
      .filter(([column, cell]) => columns.get(column) === meaning && cell !== '')
      .map(([, cell]) => cell);
  return { all, text: (meaning) => all(meaning)[0] ?? '' };
}

function readingsOf(name: string, row: CsvRow, cells: Cells, method: Method): ReadingValue[] {
  const left = cells.text('left');
  const right = cells.text('right');
  const sides = left === '' && right === '' ? [] : [`left ${left} right ${right}`];
  const readings = [...cells.all('reading'), ...sides].map((text) => readingValue(text, method));
  if (readings.length === 0) throw new UserError(`${name}: row ${row.row}: there is no reading`);
  return readings;
}

function lineWords(name: string, row: CsvRow, cells: Cells): Omit<DraftLine, 'readings'> {
  const words: Omit<DraftLine, 'readings'> = {};
  const wavelength = cells
    .text('wavelength')
    .replace(/\s*nm$/i, '')
    .replace(',', '.');
  if (wavelength !== '') {
    if (cells.text('tube') !== '') {
      throw new UserError(`${name}: row ${row.row}: a line of an unknown tube has no known wavelength`);
    }
    const wavelengthNm = Number(wavelength);
    if (Number.isNaN(wavelengthNm)) {
      throw new UserError(
        `${name}: row ${row.row}: "${wavelength}" is not a wavelength in nm, such as 546.07`,
      );
    }
    words.wavelengthNm = wavelengthNm;
  }
  for (const key of ['color', 'brightness', 'note'] as const) {
    const text = cells.text(key);
    if (text !== '') words[key] = text;
  }
  return words;
}
