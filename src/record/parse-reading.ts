/** A whole reading as it is typed: windows `A / B`, sides `left A right B`, repeats parted by `;`. */

import { exampleAngle, type OddReading } from '../angle/parse-angle.ts';
import { quoteText } from '../angle/quote-text.ts';
import type { Setting } from './bench.ts';
import { type ReadingForm, readCentral, readSetting, repeatsDisagree } from './read-setting.ts';
import type { ReadingValue, SideValue } from './schema.ts';

export interface TypedReading {
  /** As the record keeps it. */
  readonly value: ReadingValue;
  readonly setting: Setting;
  /** As messages show it. */
  readonly text: string;
}

export type TypedReadings =
  | { readonly ok: true; readonly readings: readonly TypedReading[]; readonly odd: readonly OddReading[] }
  | { readonly ok: false; readonly problem: string };

/** What is being read: a line (both sides where the method asks for them) or the central image, which has one place. */
export type ReadingTarget = 'line' | 'central';

const sideWord = /(?<![\p{L}])(left|right|l|r)(?![\p{L}])\s*[:=]?/giu;
const longestText = 2000;

/** Reads what was typed for one line: at least one reading, several parted by semicolons. */
export function parseReadings(
  text: string,
  form: ReadingForm,
  target: ReadingTarget = 'line',
): TypedReadings {
  if (text.length > longestText) return refuse(`${quoteText(text)} is too long; part it into lines`);
  const pieces = text.replace(/;\s*$/, '').split(';');
  const readings: TypedReading[] = [];
  const odd: OddReading[] = [];
  for (const piece of pieces) {
    const typed = typedValue(piece.trim(), form, target);
    if (!typed.ok) return typed;
    const read =
      target === 'central' ? readCentral(typed.value as SideValue, form) : readSetting(typed.value, form);
    if (!read.ok) return read;
    readings.push({ value: typed.value, setting: read.setting, text: read.text });
    odd.push(...read.odd);
  }
  const settings = readings.map(({ setting }) => setting);
  return { ok: true, readings, odd: [...odd, ...repeatsDisagree(settings, form.circle)] };
}

type Typed<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problem: string };

function typedValue(text: string, form: ReadingForm, target: ReadingTarget): Typed<ReadingValue> {
  const words = [...text.matchAll(sideWord)];
  if (form.method !== 'both-sides' || target === 'central') {
    const word = words[0]?.[1];
    if (word !== undefined) return refuse(`"${word}" is for readings on both sides; here there is one side`);
    return typedSide(text, form);
  }
  const [first, second, third] = words;
  if (first === undefined || second === undefined || third !== undefined || first.index !== 0) {
    return refuse(
      `${quoteText(text)} needs both sides; write left ${exampleSide(form)} right ${exampleSide(form)}`,
    );
  }
  const sideOf = (match: RegExpExecArray) => (/^l/i.test(match[0]) ? 'left' : 'right');
  if (sideOf(first) === sideOf(second))
    return refuse(`${quoteText(text)} has the ${sideOf(first)} side twice`);
  const trim = (part: string) => part.trim().replace(/\s*[,|]$/, '');
  const firstSide = typedSide(trim(text.slice(first[0].length, second.index)), form);
  const secondSide = typedSide(trim(text.slice(second.index + second[0].length)), form);
  if (!firstSide.ok) return firstSide;
  if (!secondSide.ok) return secondSide;
  const [left, right] =
    sideOf(first) === 'left' ? [firstSide.value, secondSide.value] : [secondSide.value, firstSide.value];
  return { ok: true, value: { left, right } };
}

function typedSide(text: string, form: ReadingForm): Typed<SideValue> {
  if (form.circle === null) return typedNumber(text);
  const windows = text.split('/').map((part) => part.trim());
  const [first = '', second] = windows;
  if (windows.length !== form.windows || windows.includes('')) {
    if (text === '') return refuse(`there is no reading; write for instance ${exampleSide(form)}`);
    const wanted = form.windows === 2 ? 'two windows' : 'one window';
    return refuse(
      `${quoteText(text)}: the circle is read in ${wanted}; write for instance ${exampleSide(form)}`,
    );
  }
  return { ok: true, value: second === undefined ? first : [first, second] };
}

/** A reading of a linear scale: a plain number with a point or a comma. */
function typedNumber(text: string): Typed<number> {
  const plain = text.normalize('NFKC').replace(/[−–]/g, '-').replace(',', '.');
  if (plain.length < 30 && /^[-+]?(?:\d+\.?\d*|\.\d+)$/.test(plain))
    return { ok: true, value: Number(plain) };
  if (text === '') return refuse('there is no reading; write for instance 12.35');
  return refuse(`${quoteText(text)} is not a reading of the scale; write a plain number such as 12.35`);
}

function exampleSide(form: ReadingForm): string {
  if (form.circle === null) return '12.35';
  return form.windows === 2 ? "231°04' / 51°05'" : exampleAngle(form.circle);
}

const refuse = (problem: string): { readonly ok: false; readonly problem: string } => ({
  ok: false,
  problem,
});
