/** What the rows of known and of unknown lines have in common. */
import type { LineForm } from '../form.ts';
import { readingText } from '../typed.ts';
import { type Span, toWidth } from './spans.ts';

export function readingsText(form: LineForm, width: number): string {
  const [first] = form.readings;
  const more = form.readings.length > 1 ? ` +${form.readings.length - 1}` : '';
  return toWidth(`${first === undefined ? '' : readingText(first)}${more}`, width);
}

export function colourSpan(text: string, wavelengthNm: number | null, width: number): Span {
  const fitted = toWidth(text, width);
  return wavelengthNm === null ? { text: fitted } : { text: fitted, wavelengthNm };
}
