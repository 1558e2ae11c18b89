/** A spreadsheet's CSV, whatever its separator, as rows by column name. */
import Papa from 'papaparse';
import { UserError } from './user-error.ts';

export interface CsvRow {
  /** Line of the spreadsheet, the header being 1. */
  readonly row: number;
  /** Cells by column name (lower case, trimmed), themselves trimmed; missing cells are "". */
  readonly cells: ReadonlyMap<string, string>;
}

export interface CsvTable {
  readonly columns: readonly string[];
  readonly rows: readonly CsvRow[];
}

/** Most rows that are read; no laboratory has more. */
const rowLimit = 100_000;

export function parseCsvTable(name: string, text: string): CsvTable {
  const { data } = Papa.parse<string[]>(text, { delimiter: separatorOf(text), preview: rowLimit + 2 });
  if (data.length > rowLimit + 1) throw new UserError(`${name}: more than ${rowLimit} rows`);
  const [header, ...body] = data;
  const columns = (header ?? []).map((cell) => cell.trim().toLowerCase());
  if (columns.every((column) => column === ''))
    throw new UserError(`${name}: the first row must name the columns`);
  const twice = columns.find((column, at) => column !== '' && columns.indexOf(column) !== at);
  if (twice !== undefined) throw new UserError(`${name}: two columns are named "${twice}"`);
  const rows = body
    .map((cells, at) => ({
      row: at + 2,
      cells: new Map(columns.map((column, place) => [column, (cells[place] ?? '').trim()])),
    }))
    .filter(({ cells }) => [...cells.values()].some((cell) => cell !== ''));
  return { columns, rows };
}

/** A comma may be a decimal mark, so the header decides: whatever separates its names separates all. */
function separatorOf(text: string): string {
  const header = text.split(/\r?\n|\r/, 1)[0] ?? '';
  const count = (separator: string) => header.split(separator).length;
  return [',', ';', '\t'].reduce((best, separator) => (count(separator) > count(best) ? separator : best));
}
