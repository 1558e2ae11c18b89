/** What the rows of known and of unknown lines have in common. */
import type { LineForm } from '../form.ts';
import { readingText } from '../typed.ts';
import { type Span, toWidth } from './spans.ts';

export function readingsText(form: LineForm, width: number): string {
  const [first] = form.readings;
  const more = form.readings.length > 1 ? ` +${form.readings.length - 1}` : '';
  const text = `${first === undefined ? '' : readingText(first)}${more}`;
  return toWidth(text.length <= width ? text : shortSides(text), width);
}

/** As it may be typed, too: `l 229 40 r 132 28`. */
function shortSides(text: string): string {
  return text.replace(/^left (.*) right (.*)$/, 'l $1 r $2');
}

export function colourSpan(text: string, wavelengthNm: number | null, width: number): Span {
  const fitted = toWidth(text, width);
  return wavelengthNm === null ? { text: fitted } : { text: fitted, wavelengthNm };
}
