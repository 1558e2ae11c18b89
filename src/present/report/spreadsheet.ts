/**
 * All tables of the report in one CSV file, one under the other: a row with the table's name, a row of column titles,
 * the rows, an empty row. A number is a bare number with the digits of the report; any other cell is a text.
 */
import { csvCell, csvRow } from '../csv.ts';
import { blocksInOrder, type ReportDocument, type Table } from './document.ts';

export function renderCsv(report: ReportDocument): string {
  const tables = report.sections.flatMap((section) =>
    blocksInOrder(section.blocks).filter((block) => block.kind === 'table'),
  );
  return `${tables.map(renderTable).join('\n\n')}\n`;
}

function renderTable(table: Table): string {
  return [
    csvRow([table.name]),
    csvRow(table.columns.map((column) => column.title)),
    ...table.rows.map((row) => row.map((cell, at) => dataCell(cell, table.columns[at]?.numeric)).join(',')),
  ].join('\n');
}

/** The dash of what does not exist is an empty cell. A signed number is no formula, so it needs no apostrophe. */
function dataCell(cell: string, numeric = false): string {
  if (cell === '-') return '';
  return numeric && /^[+-]?\d+(?:\.\d+)?$/.test(cell) ? cell : csvCell(cell);
}
