/** What a person typed for one line: `229 39`, `546.07 = 229 39`, `228 52 red strong`, `231 04 / 51 05`. */
import type { Circle } from '../angle/circle.ts';
import { parseAngle } from '../angle/parse-angle.ts';
import { sixtiethsAsMinutes } from '../angle/unify-signs.ts';
import { colourNamed } from '../lines/colour.ts';
import type { ReadingForm } from './form.ts';
import { type InstrumentShape, readingParts } from './instrument.ts';

export interface TypedLine {
  /** The wavelength typed before `=`; null where there is none. */
  readonly wavelengthNm: number | null;
  /** The parts of the reading, as typed: windows and sides. */
  readonly parts: readonly string[];
  readonly colour: string | null;
  readonly brightness: 'strong' | 'medium' | 'weak' | null;
  /** The word `check` after the reading: a known line kept out of the fit. */
  readonly isCheck: boolean;
}

/** Colours as they are typed behind a reading. */
export const SHORT_COLOURS: Readonly<Record<string, string>> = {
  r: 'red',
  o: 'orange',
  y: 'yellow',
  g: 'green',
  b: 'blue',
  v: 'violet',
  dr: 'deep red',
  yg: 'yellow-green',
  bg: 'blue-green',
  bv: 'blue-violet',
};

/** The names that the short ones stand for. */
export const COLOUR_WORDS: readonly string[] = Object.values(SHORT_COLOURS);

export const BRIGHTNESS: Readonly<Record<string, 'strong' | 'medium' | 'weak'>> = {
  strong: 'strong',
  bright: 'strong',
  medium: 'medium',
  weak: 'weak',
  faint: 'weak',
  s: 'strong',
  m: 'medium',
  w: 'weak',
};

/** `circle`: on one with minutes `22921` is 229 21; null leaves such a number as it is. */
export function readTypedLine(text: string, circle: Circle | null = null): TypedLine {
  const [, wavelength, reading = text] = /^\s*(\d{3,4}(?:[.,]\d+)?)\s*(?:nm)?\s*=\s*(.*)$/is.exec(text) ?? [];
  const { rest, colour, brightness, isCheck } = takeWords(reading);
  return {
    wavelengthNm: wavelength === undefined ? null : Number(wavelength.replace(',', '.')),
    parts: partsOf(sixtiethsAsMinutes(rest)).map((part) => minutesApart(part, circle)),
    colour,
    brightness,
    isCheck,
  };
}

/** Five digits that are more than a full circle are degrees and minutes without a gap, and can be nothing else. */
function minutesApart(part: string, circle: Circle | null): string {
  const [, degrees, minutes] = /^(\d{3})(\d\d)$/.exec(part) ?? [];
  if (circle === null || circle.decimal || degrees === undefined || Number(part) <= 360) return part;
  const apart = `${degrees} ${minutes}`;
  return parseAngle(apart, circle).ok ? apart : part;
}

/** Windows and sides in the order left, right, however they were named: `left 229 21 right 132 48`, `r 132 48 l 229 21`. */
function partsOf(text: string): readonly string[] {
  const parts = text
    .split(/\s*(?:\/|\bleft\b|\bright\b|\bl(?=[\s\d])|\br(?=[\s\d]))\s*/i)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const isRightFirst = /\br(?:ight\b|(?=[\s\d])).*\bl(?:eft\b|(?=[\s\d]))/i.test(text);
  const half = parts.length / 2;
  return isRightFirst ? [...parts.slice(half), ...parts.slice(0, half)] : parts;
}

/** Is this last word the unit of the number before it, as in `229d 21m`? A word for brightness stands apart. */
function isUnit(text: string, word: string): boolean {
  return word.length === 1 && (!/\s$/.test(text.slice(0, -1)) || /\d\s*d/i.test(text));
}

/** Takes colour and brightness words, and the word `check`, off the end. */
function takeWords(text: string): { rest: string } & Pick<TypedLine, 'colour' | 'brightness' | 'isCheck'> {
  let rest = text.trim();
  let colour: string | null = null;
  let brightness: TypedLine['brightness'] = null;
  let isCheck = false;
  for (;;) {
    const words = /(?<=[\s\d°'"′″])\s*(?:([a-z]+[\s-]))?([a-z]+)$/i.exec(rest);
    if (words === null) break;
    const one = words[2]!.toLowerCase();
    const two = `${words[1]?.replace(/[\s-]+$/, '') ?? ''} ${one}`;
    const bright = isUnit(rest, one) ? undefined : BRIGHTNESS[one];
    const short = SHORT_COLOURS[one];
    let end = rest.length - one.length;
    if (brightness === null && bright !== undefined) brightness = bright;
    else if (!isCheck && one === 'check') isCheck = true;
    else if (colour !== null) break;
    else if (words[1] !== undefined && colourNamed(two) !== null) {
      colour = two;
      end = words.index;
    } else if (short !== undefined || colourNamed(one) !== null) colour = short ?? one;
    else break;
    rest = rest.slice(0, end).trimEnd();
  }
  return { rest, colour, brightness, isCheck };
}

/**
 * The record's reading made from typed parts; null while parts are missing or a scale reading is no number.
 * Texts stay as they were typed.
 */
export function readingOf(
  parts: readonly string[],
  shape: InstrumentShape,
  central: boolean,
): ReadingForm | null {
  if (parts.length !== readingParts(shape, central).length) return null;
  if (shape.circle === null) {
    const value = Number(parts[0]!.replace(',', '.'));
    return parts[0]!.trim() === '' || !Number.isFinite(value) ? null : value;
  }
  const [first, second, third, fourth] = parts as [string, string, string, string];
  if (shape.method !== 'both-sides' || central) return shape.windows === 2 ? [first, second] : first;
  return shape.windows === 2
    ? { left: [first, second], right: [third, fourth] }
    : { left: first, right: second };
}

/** A reading as text, the way it can be typed again. */
export function readingText(reading: ReadingForm): string {
  if (typeof reading === 'object' && 'left' in reading) {
    return `left ${readingText(reading.left)} right ${readingText(reading.right)}`;
  }
  return typeof reading === 'object' ? reading.map(String).join(' / ') : String(reading);
}
