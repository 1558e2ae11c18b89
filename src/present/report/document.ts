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
  /** Rows of a name and what it is, few words each: written one after the other like a sentence where that saves room. */
  readonly isFacts?: true;
  readonly rows: readonly (readonly string[])[];
}

export interface Figure {
  readonly kind: 'figure';
  /** Drawn for half the width of the page, to stand in a pair. */
  readonly half?: true;
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
  | Figure
  /** Two columns side by side where there is room, one after the other where there is none. */
  | { readonly kind: 'pair'; readonly left: readonly Block[]; readonly right: readonly Block[] };

export interface Section {
  readonly title: string;
  /** Set in smaller type: what is looked up, not read. */
  readonly isSmall?: true;
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

/** A block, several of them, or what has nothing to say on this bench. */
type Part = Block | readonly Block[] | null | false | '';

/** The blocks that there are, one after the other. */
export function blocksOf(...parts: readonly Part[]): Block[] {
  return parts.flatMap((part) => part || []);
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

/** Two columns; where one of them is empty, the other alone in the full width. */
export function pair(left: readonly Block[], right: readonly Block[]): readonly Block[] {
  return left.length === 0 ? right : right.length === 0 ? left : [{ kind: 'pair', left, right }];
}

/** The blocks of a section one after the other, pairs taken apart. */
export function blocksInOrder(blocks: readonly Block[]): Block[] {
  return blocks.flatMap((block) =>
    block.kind === 'pair' ? blocksInOrder([...block.left, ...block.right]) : [block],
  );
}

/** A table written like a sentence where that saves room. */
export const asFacts = (block: Block): Block =>
  block.kind === 'table' ? { ...block, isFacts: true } : block;

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
