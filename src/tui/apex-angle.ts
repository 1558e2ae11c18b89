/** The prism's apex angle as typed: the angle itself, with or without its uncertainty, or the two reflected images. */
import type { DecimalReading } from '../angle/decimal-meaning.ts';
import { formatDeviation } from '../angle/format-angle.ts';
import { readInstrument } from '../record/read-instrument.ts';
import type { BenchRecord } from '../record/schema.ts';
import { UNCERTAINTY, type UnderstoodParts, understandParts, withParts } from './decimals.ts';
import type { BenchForm, InstrumentForm } from './form.ts';
import { type InstrumentShape, instrumentShape } from './instrument.ts';
import { readingOf, readingText, readTypedLine } from './typed.ts';

type ApexForm = NonNullable<InstrumentForm['apexAngle']>;

type ApexTyped =
  | { readonly ok: true; readonly apex: ApexForm; readonly odd: readonly string[] }
  | { readonly ok: false; readonly problem: string };

/** `60°00'`, `60°00' ± 2'`, `left 121°04' right 1°02'`; whether it can be is the record's own judgement. */
export function readApex(text: string, form: BenchForm): ApexTyped {
  const apex = typedApex(text, instrumentShape(form));
  if (apex === null) return { ok: false, problem: imagesProblem(form) };
  const problems: string[] = [];
  const odd: string[] = [];
  const isAbout = (place: string): boolean => place.startsWith('instrument.apexAngle');
  readInstrument(withApex(form, apex), {
    problem: (place, message) => isAbout(place) && problems.push(message),
    warn: (_code, place, message) => isAbout(place) && odd.push(message),
  });
  const [problem] = problems;
  if (problem === undefined) return { ok: true, apex, odd };
  const isOneAngle = typeof apex !== 'object';
  return { ok: false, problem: isOneAngle ? `${problem}. ${imagesProblem(form)}` : problem };
}

/** What the angle, or the images, as typed are understood to be; `text`: in that meaning, to be read. */
export function understandApex(
  text: string,
  form: BenchForm,
  first: DecimalReading,
): UnderstoodParts & { readonly text: string } {
  const [angles = ''] = text.split(UNCERTAINTY);
  const { parts } = readTypedLine(angles);
  const understood = understandParts(parts, instrumentShape(form).circle, first);
  const meant = new Map(parts.map((part, at) => [part, understood.texts[at]!]));
  return { ...understood, text: withParts(text, meant) };
}

/** Null where the parts are not those of two images. */
function typedApex(text: string, shape: InstrumentShape): ApexForm | null {
  const [value, u, ...more] = text.split(UNCERTAINTY);
  if (value !== undefined && u !== undefined && more.length === 0) return { value, u };
  const { parts } = readTypedLine(text);
  if (parts.length === 1) return text;
  const images = readingOf(parts, { ...shape, method: 'both-sides' }, false);
  return images !== null && typeof images === 'object' && 'left' in images ? { readings: images } : null;
}

function imagesProblem({ instrument }: BenchForm): string {
  const example =
    instrument.windows === 2 ? 'left 121 04 / 301 05 right 1 02 / 181 02' : 'left 121 04 right 1 02';
  return `The two reflected images are typed in one line: ${example}`;
}

/** As it can be typed again. */
export function apexText(apex: ApexForm): string {
  if (typeof apex !== 'object') return String(apex);
  if ('readings' in apex) return readingText(apex.readings);
  return apex.u === undefined ? String(apex.value) : `${apex.value} ± ${apex.u}`;
}

/** For the list: images with the angle that they give. */
export function apexShown(form: BenchForm): string {
  const apex = form.instrument.apexAngle;
  if (apex === undefined) return 'not measured (needed for indices only)';
  const text = apexText(apex);
  if (typeof apex !== 'object' || !('readings' in apex)) return text;
  const read = readInstrument(withApex(form, apex), { problem: () => {}, warn: () => {} });
  if (read === null || read.apexAngle === null) return text;
  const { leastCount, form: shape } = read;
  const fineness = { leastCountArcmin: leastCount, decimal: shape.circle?.decimal ?? false };
  return `${formatDeviation(read.apexAngle.valueDeg, fineness)} from ${text}`;
}

function withApex(form: BenchForm, apex: ApexForm): BenchRecord {
  return { ...form, instrument: { ...form.instrument, apexAngle: apex } } as BenchRecord;
}
