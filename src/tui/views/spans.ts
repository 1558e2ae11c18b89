/**
 * Lines of text with tones: what every view is made of, and what tests read. Texts are measured, cut and broken as the
 * gate (`lines.tsx`) will draw them.
 */
import stringWidth from 'fast-string-width';
import { safeText } from '../../present/safe-text.ts';
import { brokenLines } from '../../present/text-table.ts';
import type { ScreenState } from '../state.ts';
import type { Look, Tone } from './theme.ts';

/** A part of the screen: what is to be drawn in it, how large it is, and with which signs. */
export interface Area {
  readonly state: ScreenState;
  readonly width: number;
  readonly height: number;
  readonly look: Look;
}

export interface Span {
  readonly text: string;
  readonly tone?: Tone;
  /** Draws the text in the colour of a spectral line. */
  readonly wavelengthNm?: number;
  readonly inverse?: boolean;
}

export type Line = readonly Span[];

export function line(text: string, tone: Tone = 'normal'): Line {
  return [{ text, tone }];
}

export const EMPTY: Line = [];

export function plainText(spans: Line): string {
  return spans.map(({ text }) => text).join('');
}

export function widthOf(spans: Line): number {
  return stringWidth(safeText(plainText(spans)));
}

/** Text cut or filled up to a number of columns. */
export function toWidth(text: string, columns: number, toTheRight = false): string {
  if (columns <= 0) return '';
  const shown = safeText(text);
  const width = stringWidth(shown);
  if (width <= columns)
    return toTheRight ? ' '.repeat(columns - width) + shown : shown + ' '.repeat(columns - width);
  let cut = '';
  for (const character of shown) {
    if (stringWidth(cut + character) > columns - 1) break;
    cut += character;
  }
  return toWidth(`${cut}~`, columns);
}

/** A line cut to a number of columns, with a mark where something is cut off. */
export function clip(spans: Line, columns: number): Line {
  if (widthOf(spans) <= columns) return spans;
  let room = columns;
  return spans.flatMap((span) => {
    const width = stringWidth(span.text);
    const text = room <= 0 ? '' : toWidth(span.text, Math.min(width, room));
    const isLast = width >= room;
    room -= width;
    if (text === '') return [];
    return [
      { ...span, text: isLast && width <= columns && !text.endsWith('~') ? `${text.slice(0, -1)}~` : text },
    ];
  });
}

/** Words broken into lines of at most so many columns; what exceeds `most` lines is cut with a mark. */
export function wrap(text: string, columns: number, most = Number.POSITIVE_INFINITY): readonly string[] {
  const words = safeText(text).trim().replaceAll(/\s+/g, ' ');
  if (words === '') return [];
  const lines = brokenLines(words, columns).map((each) =>
    toWidth(each, Math.min(columns, stringWidth(each))),
  );
  if (lines.length <= most) return lines;
  return [...lines.slice(0, most - 1), toWidth(`${lines[most - 1]} ${lines[most]}`, columns)];
}

/** Words broken into lines of their own, one column away from either edge. */
export function paragraph(
  text: string,
  columns: number,
  tone: Tone = 'normal',
  most = Number.POSITIVE_INFINITY,
): readonly Line[] {
  return wrap(text, columns - 2, most).map((each) => line(` ${each}`, tone));
}

/** The first of several wordings that has room; the last where none has. */
export function fitting(wordings: readonly string[], columns: number): string {
  return wordings.find((text) => widthOf(line(text)) <= columns) ?? wordings.at(-1)!;
}

/** Where a window of so many rows begins that has the cursor in its middle. */
export function windowStart(cursor: number, rows: number, of: number): number {
  return Math.max(0, Math.min(cursor - Math.floor(rows / 2), of - rows));
}

/** As many blocks of lines as have room, each whole; of those that have none their number is said in one line. */
export function wholeBlocks(
  blocks: readonly (readonly Line[])[],
  most: number,
  more: (left: number, shown: number) => Line,
): readonly Line[] {
  const lines: Line[] = [];
  for (const [shown, block] of blocks.entries()) {
    const left = blocks.length - shown;
    if (lines.length + block.length > (left === 1 ? most : most - 1))
      return most < 1 ? [] : [...lines, more(left, shown)];
    lines.push(...block);
  }
  return lines;
}

/** Exactly so many lines: cut, or filled with empty ones. */
export function exactly(lines: readonly Line[], count: number): readonly Line[] {
  return Array.from({ length: Math.max(0, count) }, (_, at) => lines[at] ?? EMPTY);
}

/** Signs that plain terminals lack, written out. */
export function asciiText(text: string): string {
  return text
    .replaceAll('°', 'd')
    .replaceAll('±', '+-')
    .replaceAll('−', '-')
    .replaceAll('′', "'")
    .replaceAll('″', '"')
    .replaceAll('…', '...')
    .replaceAll('·', '.')
    .replaceAll('→', '->')
    .replaceAll('←', '<-')
    .replaceAll('σ', 'sigma')
    .replaceAll('²', '2')
    .replaceAll('δ', 'delta')
    .replaceAll('λ', 'lambda')
    .replaceAll('✓', 'ok');
}
