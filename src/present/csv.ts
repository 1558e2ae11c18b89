/** Comma-separated output that a spreadsheet may open without running anything. */
import { safeText } from './safe-text.ts';

export type CsvValue = string | number | boolean | null;

/** A number as the full value, a text made harmless: a cell that a spreadsheet would compute starts with `'`. */
export function csvCell(value: CsvValue): string {
  if (value === null) return '';
  if (typeof value !== 'string') return String(value);
  const visible = safeText(value);
  // The check is on the raw text too: a stripped tab or carriage return in front may not open a formula.
  const harmless = /^\s*[=+\-@]|^[\t\r]/.test(visible) || /^[\t\r]/.test(value) ? `'${visible}` : visible;
  // A spreadsheet that separates by semicolons, as many countries' do, begins a cell behind each of them.
  const inside = harmless.replace(/;(?=\s*[=+\-@])/g, ";'");
  return /[",\n;]/.test(inside) ? `"${inside.replaceAll('"', '""')}"` : inside;
}

/** One line of the file, without its line end. */
export function csvRow(values: readonly CsvValue[]): string {
  return values.map(csvCell).join(',');
}
