/** `546,07` in a table whose cells are separated by commas: one number, or two cells? */
import type { Method } from '../record/bench.ts';
import { type CsvTable, cellPlace } from './csv-table.ts';
import type { Meaning } from './record-from-rows.ts';
import { UserError } from './user-error.ts';

const numbers: readonly (Meaning | null)[] = ['wavelength', 'reading', 'left', 'right'];

/**
 * Two neighbouring cells of bare digits are refused where the row would be whole as well with the two as one number.
 * On a scale whole numbers are ordinary, so there only a table that shows no decimal point at all is doubtful; on a
 * circle a reading of whole degrees hardly ever happens.
 */
export function checkDecimalCommas(
  table: CsvTable,
  meaningOf: readonly (Meaning | null)[],
  method: Method,
): void {
  if (table.separator !== ',') return;
  const isNumber = (column: number) => numbers.includes(meaningOf[column] ?? null);
  const showsItsPoint = table.rows.some(({ cells }) =>
    cells.some((cell, column) => isNumber(column) && /\d[.,]\d/.test(cell)),
  );
  if (method === 'scale' && showsItsPoint) return;
  for (const { row, cells } of table.rows) {
    const at = cells.findIndex(
      (cell, column) =>
        isNumber(column) &&
        isDigits(cell) &&
        isDigits(cells[column + 1]) &&
        isWhole(joined(cells, column), meaningOf),
    );
    if (at < 0) continue;
    const [whole, decimals] = [cells[at]!, cells[at + 1]!];
    throw new UserError(
      `${cellPlace(table, row, at)}: "${whole},${decimals}" can be one number with a decimal comma, or two cells; if it is one write ${whole}.${decimals}, if two ${whole}.0 (or separate the cells by semicolons)`,
    );
  }
}

const isDigits = (cell: string | undefined): boolean => cell !== undefined && /^\d+$/.test(cell);

/** The row with the cell and the one behind it as one, the rest moved up. */
function joined(cells: readonly string[], at: number): string[] {
  return [...cells.slice(0, at), `${cells[at]}.${cells[at + 1]}`, ...cells.slice(at + 2), ''];
}

/** Does the row have an owner and a reading, and numbers where numbers belong? */
function isWhole(cells: readonly string[], meaningOf: readonly (Meaning | null)[]): boolean {
  const filled = (meaning: Meaning) => cells.some((cell, at) => meaningOf[at] === meaning && cell !== '');
  const fits = cells.every((cell, at) => {
    const meaning = meaningOf[at] ?? null;
    if (cell === '') return true;
    if (numbers.includes(meaning)) return /\d/.test(cell);
    return (meaning !== 'color' && meaning !== 'brightness') || !/\d/.test(cell);
  });
  const hasReading = filled('reading') || (filled('left') && filled('right'));
  return fits && hasReading && (filled('lamp') || filled('tube'));
}
