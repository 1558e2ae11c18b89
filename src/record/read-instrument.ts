/** The instrument of a record as numbers. */
import { type Circle, circleOf, vernierDivisions } from '../angle/circle.ts';
import { formatCount } from '../angle/format-angle.ts';
import { parseSmallAngle } from '../angle/least-count.ts';
import { parseAngle } from '../angle/parse-angle.ts';
import { quoteText } from '../angle/quote-text.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import type { ApexAngle, Warning } from './bench.ts';
import { placeIn } from './place-in.ts';
import { type ReadingForm, readCentral } from './read-setting.ts';
import type { BenchRecord, InstrumentRecord } from './schema.ts';

export interface Instrument {
  readonly form: ReadingForm;
  /** Arc-minutes; scale units for the scale method. */
  readonly leastCount: number;
  readonly apexAngle: ApexAngle | null;
}

/** Scale units that the smallest step of a scale has (common practice, no source). */
const scaleSteps = { smallest: 0.000001, largest: 10_000 };
/** Prisms that a spectrometer takes, and how well their angle is known (common practice, no source). */
const apexAngles = { smallestDeg: 5, largestDeg: 120 };
const apexUncertainty = { smallestArcsec: 0.01, largestDeg: 10 };

/** Hears of everything wrong or odd, with its place in the file. */
export interface Listener {
  problem(place: string, message: string): void;
  warn(code: Warning['code'], place: string, message: string): void;
}

/** Null when the least count cannot be understood: then no reading can be either. */
export function readInstrument(record: BenchRecord, listener: Listener): Instrument | null {
  const { instrument } = record;
  if (instrument.setAtNm !== undefined && instrument.prism !== 'fixed') {
    listener.warn('set-at-ignored', 'instrument.setAtNm', 'means something only with "prism": "fixed"');
  }
  return instrument.method === 'scale'
    ? readScale(record, listener)
    : readCircleInstrument(instrument, listener);
}

function readScale({ instrument, central, unknown }: BenchRecord, listener: Listener): Instrument | null {
  const forbid = (place: string, what: string) =>
    listener.problem(place, `${what} cannot be with the method "scale", which has no angles`);
  if (central?.length) forbid('central', 'a central reading');
  for (const [index, tube] of unknown.entries()) {
    if (tube.central?.length) forbid(`${placeIn('unknown', unknown, index)}.central`, 'a central reading');
  }
  if (instrument.apexAngle !== undefined) forbid('instrument.apexAngle', 'an apex angle');
  if (instrument.windows === 2) forbid('instrument.windows', 'two windows');
  if (instrument.scaleDivision !== undefined) {
    const message = 'is not used with the method "scale"';
    listener.warn('scale-division-ignored', 'instrument.scaleDivision', message);
  }
  const { leastCount } = instrument;
  const { smallest, largest } = scaleSteps;
  if (typeof leastCount === 'number' && leastCount >= smallest && leastCount <= largest)
    return { form: { method: 'scale', windows: 1, circle: null }, leastCount, apexAngle: null };
  const message =
    typeof leastCount === 'number'
      ? `must be a step from ${smallest} to ${largest} scale units, not ${leastCount}`
      : `${quoteText(leastCount)} must be a plain number of scale units, such as 0.1, with the method "scale"`;
  listener.problem('instrument.leastCount', message);
  return null;
}

function readCircleInstrument(instrument: InstrumentRecord, listener: Listener): Instrument | null {
  const circle = readCircle(instrument, listener);
  if (circle === null) return null;
  const form: ReadingForm = { method: instrument.method, windows: instrument.windows ?? 1, circle };
  const { apexAngle: given } = instrument;
  const apexAngle = given === undefined ? null : readApexAngle(given, form, listener);
  return { form, leastCount: circle.leastCountArcmin, apexAngle };
}

/** The circle that a record describes; null for a scale, and where it cannot be understood. */
export function circleIn({ instrument }: Pick<BenchRecord, 'instrument'>): Circle | null {
  return instrument.method === 'scale' ? null : readCircle(instrument, { problem: () => {}, warn: () => {} });
}

function readCircle(instrument: InstrumentRecord, listener: Listener): Circle | null {
  const step = (place: string, value: string | number) => {
    const parsed = parseSmallAngle(String(value));
    if (!parsed.ok) listener.problem(place, parsed.problem);
    return parsed.ok ? parsed : null;
  };
  const { scaleDivision } = instrument;
  const leastCount = step('instrument.leastCount', instrument.leastCount);
  const division = scaleDivision === undefined ? undefined : step('instrument.scaleDivision', scaleDivision);
  if (leastCount === null || division === null) return null;
  const circle = circleOf(leastCount.arcmin, {
    ...(leastCount.decimal ? { decimal: true } : {}),
    ...(division === undefined ? {} : { scaleDivisionArcmin: division.arcmin }),
  });
  if (circle.scaleDivisionArcmin < circle.leastCountArcmin) {
    listener.problem(
      'instrument.scaleDivision',
      `is smaller than the least count (${formatCount(circle)}); it is the distance of two marks of the main scale, such as 30'`,
    );
  } else if (
    division !== undefined &&
    vernierDivisions(circle.scaleDivisionArcmin, circle.leastCountArcmin) === null
  ) {
    const message = `is no whole number of steps of ${formatCount(circle)}`;
    listener.warn('scale-division-unusual', 'instrument.scaleDivision', message);
  }
  return circle;
}

function readApexAngle(
  given: NonNullable<InstrumentRecord['apexAngle']>,
  form: ReadingForm,
  listener: Listener,
): ApexAngle | null {
  if (typeof given === 'object' && 'readings' in given) {
    return readReflections(given.readings, form, listener);
  }
  const place = 'instrument.apexAngle';
  const stated = typeof given === 'object' ? given : { value: given, u: undefined };
  const valuePlace = typeof given === 'object' ? `${place}.value` : place;
  const valueDeg = readAngle(stated.value, form, valuePlace, listener);
  const uDeg = stated.u === undefined ? null : readUncertainty(stated.u, `${place}.u`, listener);
  if (valueDeg === null) return null;
  return prismAngle({ valueDeg, uDeg }, valuePlace, listener);
}

/** A is half the angle between the two reflected images; their uncertainty is found with that of all readings. */
function readReflections(
  readings: Extract<NonNullable<InstrumentRecord['apexAngle']>, { readings: unknown }>['readings'],
  form: ReadingForm,
  listener: Listener,
): ApexAngle | null {
  const place = 'instrument.apexAngle.readings';
  const images = (['left', 'right'] as const).map((side) => {
    const read = readCentral(readings[side], form);
    if (!read.ok) listener.problem(`${place}.${side}`, read.problem);
    else for (const odd of read.odd) listener.warn(odd.code, `${place}.${side}`, odd.message);
    return read.ok && read.setting.kind === 'one-side' ? read.setting : null;
  });
  const [left, right] = images;
  if (!left || !right) return null;
  const angles = left.windows.map((degrees, window) =>
    Math.abs(wrapDegrees(degrees - (right.windows[window] ?? degrees))),
  );
  const valueDeg = angles.reduce((sum, angle) => sum + angle, 0) / angles.length / 2;
  return prismAngle({ valueDeg, uDeg: null, images: [left, right] }, place, listener);
}

/** Null: exact. */
function readUncertainty(value: string | number, place: string, listener: Listener): number | null {
  const uDeg = readAngle(value, null, place, listener);
  if (uDeg === null || uDeg === 0) return null;
  if (uDeg * 3600 >= apexUncertainty.smallestArcsec && uDeg <= apexUncertainty.largestDeg) return uDeg;
  const message = `${quoteText(String(value))} is no uncertainty of the angle of a prism; write for instance 2'`;
  listener.problem(place, message);
  return null;
}

function prismAngle(apex: ApexAngle, place: string, listener: Listener): ApexAngle | null {
  if (apex.valueDeg >= apexAngles.smallestDeg && apex.valueDeg < apexAngles.largestDeg) return apex;
  listener.problem(
    place,
    `${Number(apex.valueDeg.toFixed(3))}° is not the angle of a prism, which is mostly near 60°`,
  );
  return null;
}

function readAngle(
  value: string | number,
  form: ReadingForm | null,
  place: string,
  listener: Listener,
): number | null {
  if (typeof value === 'number') {
    if (value >= 0 && value <= 360) return value;
    listener.problem(place, `${value} is not an angle in degrees from 0 to 360`);
    return null;
  }
  const angle = parseAngle(value);
  if (!angle.ok) {
    listener.problem(place, angle.problem);
    return null;
  }
  if (form !== null && angle.parts.mainScale.degrees === null) {
    listener.warn('minutes-without-degrees', place, `${quoteText(value)} has minutes but no degrees`);
  }
  return angle.degrees;
}
