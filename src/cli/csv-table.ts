/** A spreadsheet's CSV, whatever its separator, as rows of cells. What is no clear table is refused with its place. */
import Papa from 'papaparse';
import { quoteText } from '../angle/quote-text.ts';
import { UserError } from './user-error.ts';

export interface CsvRow {
  /** Line of the spreadsheet, the header being 1. */
  readonly row: number;
  /** One for each column, trimmed; missing cells are "". */
  readonly cells: readonly string[];
}

export interface CsvTable {
  readonly name: string;
  readonly separator: string;
  /** Names of the columns, lower case, trimmed; "" where the first row names none. */
  readonly columns: readonly string[];
  /** Rows that are not empty. */
  readonly rows: readonly CsvRow[];
}

/** More than any laboratory has, and few enough to be read in a moment. */
const mostLetters = 4 * 1024 * 1024;
const mostRows = 20_000;
const mostColumns = 100;

/** A first row that only tells a spreadsheet what separates the cells: `sep=;`. */
const TOLD_SEPARATOR = /^\uFEFF?"?sep=([,;\t])"?[,;\t]*\r?\n/i;

/** `multiline`: columns whose cells may hold line breaks; elsewhere one shows that a quotation mark is missing. */
export function parseCsvTable(name: string, text: string, multiline: readonly string[] = []): CsvTable {
  if (text.length > mostLetters)
    throw new UserError(`${name}: larger than 4 MiB, which no table of a lab is`);
  const told = TOLD_SEPARATOR.exec(text);
  const table = told === null ? text : text.slice(told[0].length);
  // Rows are counted as the file has them.
  const above = told === null ? 0 : 1;
  const separator = told?.[1] ?? separatorOf(table);
  const { data, errors } = Papa.parse<string[]>(table, { delimiter: separator, preview: mostRows + 2 });
  if (data.length > mostRows + 1) throw new UserError(`${name}: more than ${mostRows} rows`);
  const columns = namedColumns(name, data[0] ?? []);
  const badlyQuoted = errors.find(({ type }) => type === 'Quotes')?.row;
  if (badlyQuoted !== undefined) {
    const cells = data[badlyQuoted] ?? [];
    // The cell that has swallowed what does not belong to it; the last one where none shows it.
    const swallowing = cells.findIndex((cell) => /["\r\n]/.test(cell));
    const place = cellPlace(
      { name, columns },
      badlyQuoted + 1 + above,
      swallowing < 0 ? cells.length - 1 : swallowing,
    );
    throw new UserError(`${place}: a quotation mark is not closed, or text follows the closing one`);
  }
  const rows = data.slice(1).map((cells, at) => {
    const row = { row: at + 2 + above, cells: columns.map((_, column) => (cells[column] ?? '').trim()) };
    checkCells({ name, columns, separator }, row.row, cells, multiline);
    return row;
  });
  return { name, separator, columns, rows: rows.filter(({ cells }) => cells.some((cell) => cell !== '')) };
}

/** `readings.csv: row 3, column 2 (wavelength)`; `column` counts from 0. */
export function cellPlace(
  { name, columns }: Pick<CsvTable, 'name' | 'columns'>,
  row: number,
  column: number,
): string {
  const title = columns[column] ?? '';
  return `${name}: row ${row}, column ${column + 1}${title === '' ? '' : ` (${title})`}`;
}

function namedColumns(name: string, header: readonly string[]): string[] {
  if (header.length > mostColumns) {
    throw new UserError(`${name}: row 1: ${header.length} columns; at most ${mostColumns} are read`);
  }
  const columns = header.map((cell) => cell.trim().toLowerCase());
  if (columns.every((column) => column === ''))
    throw new UserError(`${name}: the first row must name the columns`);
  const twice = columns.find((column, at) => column !== '' && columns.indexOf(column) !== at);
  if (twice !== undefined) {
    const repeats = twice === 'reading' ? '; repeats stand under "reading 2", "reading 3" and so on' : '';
    throw new UserError(`${name}: two columns are named ${quoteText(twice)}${repeats}`);
  }
  return columns;
}

/** Nothing of a row may be lost for want of a column. */
function checkCells(
  table: Omit<CsvTable, 'rows'>,
  row: number,
  cells: readonly string[],
  multiline: readonly string[],
): void {
  for (const [column, cell] of cells.entries()) {
    const place = () => cellPlace(table, row, column);
    const title = table.columns[column];
    if (cell.trim() === '') continue;
    if (title === undefined) {
      const decimals =
        table.separator === ','
          ? '; a number with a decimal comma needs quotation marks, or semicolons between the cells'
          : '';
      throw new UserError(
        `${place()}: ${quoteText(cell)} is one cell more than there are columns${decimals}`,
      );
    }
    if (title === '')
      throw new UserError(
        `${place()}: ${quoteText(cell)} stands in a column that the first row does not name`,
      );
    if (/[\r\n]/.test(cell.trim()) && !multiline.includes(title))
      throw new UserError(`${place()}: a line break inside the cell; is a quotation mark not closed?`);
  }
}

/** A comma may be a decimal mark, so the header decides: whatever separates its names separates all. */
function separatorOf(text: string): string {
  const header = text.slice(0, /[\r\n]/.exec(text)?.index);
  const count = (separator: string) => header.split(separator).length;
  return [',', ';', '\t'].reduce((best, separator) => (count(separator) > count(best) ? separator : best));
}
