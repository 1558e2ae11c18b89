/** Plain-text tables and paragraphs, measured as a terminal draws them. */
import { textWidth } from './text-width.ts';

/** A column by its title; where that is all of it, it is aligned left. */
export type Column = string | { readonly title: string; readonly align?: 'left' | 'right' };

/** A column of numbers. */
export const right = (title: string): Column => ({ title, align: 'right' });

/** Width of the plainest terminal; every text output keeps to it. */
export const pageWidth = 80;

const gap = '  ';

/** Columns aligned under their titles, two spaces apart; the last column is not padded. */
export function textTable(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const full = columns.map((column) => (typeof column === 'string' ? { title: column } : column));
  const all = [full.map(({ title }) => title), ...rows];
  const widths = full.map((_, at) => Math.max(...all.map((row) => textWidth(row[at] ?? ''))));
  const line = (cells: readonly string[]): string =>
    full
      .map(({ align = 'left' }, at) => pad(cells[at] ?? '', widths[at]!, align))
      .join(gap)
      .trimEnd();
  return all.map(line).join('\n');
}

function pad(text: string, width: number, align: 'left' | 'right'): string {
  const space = ' '.repeat(Math.max(0, width - textWidth(text)));
  return align === 'left' ? text + space : space + text;
}

/** A paragraph broken at spaces; every line after the first starts with `indent`. */
export function wrapText(text: string, indent = '', width = pageWidth): string {
  return brokenLines(text, width, width - textWidth(indent)).join(`\n${indent}`);
}

/** The lines of a text broken at spaces; a word longer than a line is a line. `first`, `others`: columns of room. */
export function brokenLines(text: string, first: number, others = first): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer) > (lines.length === 0 ? first : others)) {
      lines.push(line);
      line = word;
    } else {
      line = longer;
    }
  }
  return [...lines, line];
}

/** Every line of a block moved to the right. */
export function indented(block: string, indent = '  '): string {
  return block
    .split('\n')
    .map((line) => (line === '' ? line : indent + line))
    .join('\n');
}

/** A paragraph, every line of it moved to the right. */
export const indentedParagraph = (text: string): string => indented(wrapText(text, '', pageWidth - 2));

/** A list entry: the mark, then the text with its later lines under its first. */
export function bullet(text: string, mark = '- ', width = pageWidth): string {
  return mark + wrapText(text, ' '.repeat(mark.length), width - mark.length);
}

/** The first of several ways to print a table that fits the page; the last where none does. */
export function fitting(...tables: readonly (() => string)[]): string {
  const fits = (text: string) => text.split('\n').every((line) => textWidth(line) <= pageWidth);
  for (const table of tables.slice(0, -1)) {
    const text = table();
    if (fits(text)) return text;
  }
  return tables.at(-1)?.() ?? '';
}
