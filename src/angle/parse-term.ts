/** One angle text without a plus sign, already with unified signs: `232°41'30"`, `232 41`, `232:41`, `28'`. */
import { printable, quoteText } from './quote-text.ts';

/** The numbers as they were typed; null where one was left out. */
export interface Sexagesimal {
  readonly degrees: number | null;
  readonly minutes: number | null;
  readonly seconds: number | null;
  /** Digits typed behind the decimal mark of the last number. */
  readonly decimals: number;
  /** True when no unit sign and no second number said what the only number is: `232.41`, `28`. */
  readonly bare: boolean;
}

export type TermResult =
  | { readonly ok: true; readonly term: Sexagesimal }
  | {
      readonly ok: false;
      /** To follow the text: `has 75 minutes`. */
      readonly problem: string;
      /** What would be right, where that is more than an example. */
      readonly cure?: string | undefined;
    };

type Unit = 'degrees' | 'minutes' | 'seconds';

const units: readonly Unit[] = ['degrees', 'minutes', 'seconds'];
const unitOfSign: Readonly<Record<string, Unit>> = { '°': 'degrees', "'": 'minutes', '"': 'seconds' };
const component = /(\d+(?:\.\d*)?|\.\d+)\s*([°'"]?)(\s*:\s*|\s*)/y;

/** Value in degrees. */
export function termDegrees(term: Sexagesimal): number {
  return ((term.degrees ?? 0) * 3600 + (term.minutes ?? 0) * 60 + (term.seconds ?? 0)) / 3600;
}

/** Half a unit of the last digit typed behind a decimal mark, in arc-minutes; 0 for whole numbers. */
export function roundingArcmin(term: Sexagesimal): number {
  if (term.decimals === 0) return 0;
  const unitArcmin = term.seconds !== null ? 1 / 60 : term.minutes !== null ? 1 : 60;
  return 0.5 * 10 ** -term.decimals * unitArcmin;
}

const refuse = (problem: string, cure?: string): TermResult => ({ ok: false, problem, cure });

const named = (sign: string): string =>
  printable(sign).trim() === '' ? 'a sign that cannot be shown' : quoteText(sign);

/** `firstUnit`: what a number without a sign means when it comes first. */
export function parseTerm(text: string, firstUnit: Unit = 'degrees'): TermResult {
  const numbers: Partial<Record<Unit, number>> = {};
  let next: Unit | undefined = firstUnit;
  let decimals: number | null = null;
  let signed = false;
  let position = 0;
  while (position < text.length) {
    component.lastIndex = position;
    const match = component.exec(text);
    if (match === null)
      return refuse(`has ${named([...text.slice(position)][0] ?? '')} where no such sign can be`);
    const [whole, digits = '', sign = '', separator = ''] = match;
    const unit: Unit | undefined = unitOfSign[sign] ?? next;
    if (unit === undefined) return refuse('has more numbers than degrees, minutes and seconds');
    if (numbers[unit] !== undefined) return refuse(`has the ${unit} twice`);
    if (units.slice(units.indexOf(unit)).some((smaller) => numbers[smaller] !== undefined)) {
      return refuse(`has its ${unit} after a smaller unit`);
    }
    if (decimals !== null && decimals > 0) {
      return refuse('has decimals before its last number', 'with a vernier write 231.5 + 28');
    }
    position += whole.length;
    if (separator.includes(':') && (sign !== '' || position >= text.length)) {
      return refuse('has ":" where it does not part two numbers');
    }
    numbers[unit] = Number(digits);
    decimals = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
    signed ||= sign !== '';
    next = units[units.indexOf(unit) + 1];
  }
  if (decimals === null) return refuse('has no number');
  for (const unit of ['minutes', 'seconds'] as const) {
    const value = numbers[unit];
    if (value !== undefined && value >= 60) return refuse(`has ${value} ${unit}`, `${unit} go from 0 to 59`);
  }
  const { degrees = null, minutes = null, seconds = null } = numbers;
  const bare = !signed && Object.keys(numbers).length === 1;
  return { ok: true, term: { degrees, minutes, seconds, decimals, bare } };
}
