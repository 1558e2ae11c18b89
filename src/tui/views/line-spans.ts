/** What the rows of known and of unknown lines have in common. */
import type { LineForm } from '../form.ts';
import { readingText, SHORT_COLOURS } from '../typed.ts';
import { fitting, type Span, toWidth } from './spans.ts';

/** The first reading and how many repeats it has, in a column of this width. */
export function readingsText(form: LineForm, width: number): string {
  const [first] = form.readings;
  const more = form.readings.length > 1 ? ` +${form.readings.length - 1}` : '';
  const whole = first === undefined ? '' : readingText(first);
  const short = shortSides(whole);
  const texts = [whole, short, bareNumbers(short), firstWindows(short)].map((text) => text + more);
  return toWidth(fitting(texts, width), width);
}

/** As it may be typed, too: `l 229 40 r 132 28`. */
function shortSides(text: string): string {
  return text.replace(/^left (.*) right (.*)$/, 'l $1 r $2');
}

/** `l 210 35/30 36 r 93 58/273 59`: as it may be typed, without the signs. */
function bareNumbers(text: string): string {
  return text
    .replace(/[°'"] */g, ' ')
    .replace(/ (?= |\/|$)/g, '')
    .replace(/ ?\/ ?/g, '/');
}

/** Columns that the readings of a list want, with a space behind them: each line's in its shortest whole writing. */
export function readingsWidth(lines: readonly LineForm[]): number {
  const widths = lines.map(({ readings: [first = '', ...more] }) => {
    const text = bareNumbers(shortSides(readingText(first)));
    return text.length + (more.length > 0 ? ` +${more.length}`.length : 0) + 1;
  });
  return Math.max(0, ...widths);
}

/** `l 210 35~ r 93 58~`: the reading of the second window left away, with a mark. */
function firstWindows(text: string): string {
  return text.replace(/ \/ [^/]*?(?= r |$)/g, '~');
}

/** `bv strong` for `blue-violet strong`, as it may be typed. */
function inShort(text: string): string {
  const [short, name = ''] =
    Object.entries(SHORT_COLOURS)
      .sort(([, a], [, b]) => b.length - a.length)
      .find(([, colour]) => text.replace(/-/g, ' ').startsWith(colour.replace(/-/g, ' '))) ?? [];
  return short === undefined ? text : short + text.slice(name.length);
}

export function colourSpan(text: string, wavelengthNm: number | null, width: number): Span {
  const fitted = toWidth(text.length < width ? text : inShort(text), width);
  return wavelengthNm === null ? { text: fitted } : { text: fitted, wavelengthNm };
}
