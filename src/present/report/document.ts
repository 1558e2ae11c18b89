/**
 * A report before it has a form: sections of paragraphs, tables, formulae and figures in plain text. HTML, Markdown
 * and CSV are three ways to write the same document, so a number is one string everywhere.
 */

export interface Column {
  readonly title: string;
  /** Aligned right, and a bare number in a spreadsheet. */
  readonly numeric?: boolean;
  /** Says in every row what the caption says once: needed only where a table stands without its caption (CSV). */
  readonly inCaption?: boolean;
}

export interface Table {
  readonly kind: 'table';
  /** Short stable name of the table in the CSV form: `calibration lines`. */
  readonly name: string;
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
}

export interface Figure {
  readonly kind: 'figure';
  readonly caption: string;
  /** What a person who cannot see the figure should know. */
  readonly description: string;
  /** The figure as SVG; drawn only where the form can show it. */
  readonly draw: () => string;
}

export type Block =
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'formula'; readonly lines: readonly string[] }
  | Table
  | Figure;

export interface Section {
  readonly title: string;
  readonly blocks: readonly Block[];
}

export interface ReportDocument {
  readonly title: string;
  /** The result in a sentence or two, for a reader who reads nothing else. */
  readonly abstract: readonly string[];
  readonly sections: readonly Section[];
  /** Where the report comes from: file, date of writing. */
  readonly imprint: string;
}

export const paragraph = (text: string): Block => ({ kind: 'paragraph', text });
export const heading = (text: string): Block => ({ kind: 'heading', text });
export const list = (items: readonly string[]): Block[] =>
  items.length === 0 ? [] : [{ kind: 'list', items }];
export const formula = (...lines: string[]): Block => ({ kind: 'formula', lines });

/** A table, or nothing where there are no rows. */
export function table(
  name: string,
  caption: string,
  columns: readonly (string | Column)[],
  rows: readonly (readonly string[])[],
): Block[] {
  if (rows.length === 0) return [];
  const full = columns.map((column) => (typeof column === 'string' ? { title: column } : column));
  return [{ kind: 'table', name, caption, columns: full, rows }];
}

/** A column of numbers. */
export const number = (title: string): Column => ({ title, numeric: true });
/** A column that repeats what the caption says. */
export const inCaption = (title: string): Column => ({ title, inCaption: true });

/** The table as it stands under its caption: without columns that repeat it and columns with nothing in them. */
export function underCaption(full: Table): Table {
  const kept = full.columns.flatMap((column, at) =>
    column.inCaption || full.rows.every((row) => row[at] === '' || row[at] === '-') ? [] : [at],
  );
  return {
    ...full,
    columns: kept.map((at) => full.columns[at]!),
    rows: full.rows.map((row) => kept.map((at) => row[at] ?? '')),
  };
}
