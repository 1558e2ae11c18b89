/** Numbers with a decimal mark among what was typed: what each means, and what is still to be asked. */
import type { Circle } from '../angle/circle.ts';
import { type DecimalReading, decimalMeaning, meantText } from '../angle/decimal-meaning.ts';
import type { ScreenState } from './state.ts';

/** Stands between an angle and its uncertainty. */
export const UNCERTAINTY = /\s*(?:±|\+\s*\/?\s*-)\s*/;

/** The parts of a reading as they are understood. */
export interface UnderstoodParts {
  /** As they are taken: `229°10'` for `229.17`. */
  readonly texts: readonly string[];
  /** What each number with a decimal mark was taken for: `229°10' (decimal degrees)`. */
  readonly said: readonly string[];
  /** The parts that may be meant in the other way too, with their text in it. */
  readonly open: readonly { readonly typed: string; readonly other: string; readonly otherSaid: string }[];
}

/** `first`: the meaning that is offered where both are possible. */
export function understandParts(
  parts: readonly string[],
  circle: Circle | null,
  first: DecimalReading,
): UnderstoodParts {
  const texts: string[] = [];
  const said: string[] = [];
  const open: UnderstoodParts['open'][number][] = [];
  for (const typed of parts) {
    const meaning = decimalMeaning(typed, circle);
    if (meaning === null) {
      texts.push(typed);
      continue;
    }
    const meant = meaning.kind === 'one' ? meaning.meant : meaning[first];
    texts.push(meant.text);
    said.push(meantText(meant));
    if (meaning.kind === 'one') continue;
    const other = meaning[otherReading(first)];
    open.push({ typed, other: other.text, otherSaid: meantText(other) });
  }
  return { texts, said, open };
}

/** The meaning that is offered first: of the question being asked, else as chosen on this bench; null before both. */
export function decimalsAtHand({ entry, history }: ScreenState): DecimalReading | null {
  return (entry.query === null ? null : entry.decimals) ?? history.decimals;
}

export function otherReading(reading: DecimalReading): DecimalReading {
  return reading === 'degrees' ? 'minutes' : 'degrees';
}

/** `229°10' (decimal degrees), or 229°17' (degrees.minutes)?` */
export function decimalsQuestion({ said, open }: UnderstoodParts): string {
  return `${said.join(' / ')}, or ${open.map(({ otherSaid }) => otherSaid).join(' / ')}?`;
}

/** The line with every open number in its other meaning. */
export function lineInOtherMeaning(text: string, { open }: UnderstoodParts): string {
  return withParts(text, new Map(open.map(({ typed, other }) => [typed, other])));
}

/**
 * The line with other texts for the parts of its reading, each as a whole: `1.50` is not looked for in `121.50`, nor in
 * the wavelength before `=` or the uncertainty behind `±`.
 */
export function withParts(text: string, texts: ReadonlyMap<string, string>): string {
  if (texts.size === 0) return text;
  const [before] = /^[^=]*=/.exec(text) ?? [''];
  const [reading = ''] = text.slice(before.length).split(UNCERTAINTY);
  const longestFirst = [...texts.keys()].sort((a, b) => b.length - a.length);
  const parts = longestFirst.map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|');
  const meant = reading.replace(
    new RegExp(`(?<![\\d.,])(?:${parts})(?![\\d.,])`, 'g'),
    (part) => texts.get(part) ?? part,
  );
  return before + meant + text.slice(before.length + reading.length);
}
