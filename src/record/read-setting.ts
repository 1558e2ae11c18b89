/** A reading of the record turned into numbers, and a record's reading made from what was typed. */
import type { Circle } from '../angle/circle.ts';
import { formatAngle, formatCount } from '../angle/format-angle.ts';
import { repeatToleranceArcmin } from '../angle/least-count.ts';
import { type OddReading, parseAngle } from '../angle/parse-angle.ts';
import { quoteText } from '../angle/quote-text.ts';
import { wrapDegrees, wrapDirection } from '../angle/wrap.ts';
import { FURTHEST_ON_SCALE, WINDOWS_TOLERANCE_ARCMIN } from './assumptions.ts';
import type { Method, Setting } from './bench.ts';
import type { ReadingValue, SideValue } from './schema.ts';

/** What a reading must look like on this instrument. */
export interface ReadingForm {
  readonly method: Method;
  readonly windows: 1 | 2;
  /** Null for the scale method. */
  readonly circle: Circle | null;
}

/** What was read; `text`: as it was written, `229°39'`, `231°04' / 51°05'`, `left 308°58' right 212°18'`. */
type Read<What> = What & { readonly ok: true; readonly text: string; readonly odd: readonly OddReading[] };
type Refusal = { readonly ok: false; readonly problem: string };
type SideResult = Read<{ readonly windows: readonly number[] }> | Refusal;
export type SettingResult = Read<{ readonly setting: Setting }> | Refusal;

/** One reading of a line: both sides where the method asks for them. */
export function readSetting(value: ReadingValue, form: ReadingForm): SettingResult {
  const sides = typeof value === 'object' && !Array.isArray(value) ? value : null;
  if (form.method !== 'both-sides') {
    if (sides !== null) return refuse('a left and a right reading belong to the method "both-sides" only');
    return readCentral(value as SideValue, form);
  }
  if (sides === null) {
    return refuse('the method "both-sides" needs a left and a right reading: { "left": ..., "right": ... }');
  }
  const left = readSide(sides.left, form);
  const right = readSide(sides.right, form);
  if (!left.ok) return refuse(`left: ${left.problem}`);
  if (!right.ok) return refuse(`right: ${right.problem}`);
  return {
    ok: true,
    setting: { kind: 'both-sides', left: left.windows, right: right.windows },
    text: `left ${left.text} right ${right.text}`,
    odd: [...left.odd, ...right.odd],
  };
}

/** One reading of a thing that has one place only: the central image. */
export function readCentral(value: SideValue, form: ReadingForm): SettingResult {
  const side = readSide(value, form);
  if (!side.ok) return side;
  return { ok: true, setting: { kind: 'one-side', windows: side.windows }, text: side.text, odd: side.odd };
}

function readSide(value: SideValue, form: ReadingForm): SideResult {
  if (!Array.isArray(value)) {
    if (form.windows === 2) return refuse('with two windows a reading is a pair: [A, B], typed A / B');
    return readWindow(value, form);
  }
  if (form.windows === 1) return refuse('a pair of readings needs an instrument with "windows": 2');
  const first = readWindow(value[0], form);
  const second = readWindow(value[1], form);
  if (!first.ok) return refuse(`first window: ${first.problem}`);
  if (!second.ok) return refuse(`second window: ${second.problem}`);
  const windows = [...first.windows, ...second.windows];
  const text = `${first.text} / ${second.text}`;
  const odd = [...first.odd, ...second.odd, ...windowsDisagree(windows, text, form)];
  return { ok: true, windows, text, odd };
}

function windowsDisagree(windows: readonly number[], text: string, form: ReadingForm): OddReading[] {
  const [first = 0, second = 0] = windows;
  const toleranceArcmin = Math.max(WINDOWS_TOLERANCE_ARCMIN, 2 * (form.circle?.leastCountArcmin ?? 0));
  const off = wrapDegrees(second - first - 180);
  if (Math.abs(off) * 60 <= toleranceArcmin || form.circle === null) return [];
  const apart = formatAngle(second - first, form.circle);
  const message = `${text}: the two windows are ${apart} apart; opposite windows are about 180° apart`;
  return [{ code: 'windows-disagree', message, suggestion: null }];
}

function readWindow(value: string | number, form: ReadingForm): SideResult {
  if (form.circle === null) {
    if (typeof value === 'string') {
      return refuse(`${quoteText(value)} must be a plain number: on a scale there are no angles`);
    }
    if (!(Math.abs(value) <= FURTHEST_ON_SCALE)) {
      const bounds = `scales reach from -${FURTHEST_ON_SCALE} to ${FURTHEST_ON_SCALE}`;
      return refuse(`${value} is on no scale that an instrument has; ${bounds}`);
    }
    return { ok: true, windows: [value], text: String(value), odd: [] };
  }
  if (typeof value === 'number') return readDegrees(value);
  const angle = parseAngle(value, form.circle);
  if (!angle.ok) return angle;
  return { ok: true, windows: [angle.degrees], text: value.trim(), odd: angle.odd };
}

/** A plain number of degrees, often the mean of several takes or carried on past the zero of the circle. */
function readDegrees(degrees: number): SideResult {
  const text = `${degrees}°`;
  if (degrees >= 0 && degrees <= 360) return { ok: true, windows: [degrees], text, odd: [] };
  if (degrees < -360 || degrees > 720)
    return refuse(`${text} is not on a circle, which goes from 0° to 360°`);
  const wrapped = wrapDirection(degrees);
  const message = `${text} is outside 0° to 360°; taken as ${Number(wrapped.toFixed(6))}°`;
  return { ok: true, windows: [wrapped], text, odd: [{ code: 'outside-circle', message, suggestion: null }] };
}

/**
 * Repeats of one setting that lie further apart than repeats do: more than 10′ and four steps of the vernier.
 * `central`: the image from which they are measured, where there is one.
 */
export function repeatsDisagree(
  settings: readonly Setting[],
  circle: Circle | null,
  central: Setting | null = null,
): OddReading[] {
  if (circle === null || settings.length < 2) return [];
  const toleranceArcmin = repeatToleranceArcmin(circle.leastCountArcmin);
  const spread = Math.max(
    ...['left', 'right'].flatMap((side) =>
      [0, 1].map((window) => spreadDeg(settings.map((setting) => windowsOf(setting, side)[window] ?? null))),
    ),
  );
  if (spread * 60 <= toleranceArcmin) return [];
  const apart = `repeats of one reading lie ${formatAngle(spread, circle)} apart`;
  const message = onBothSides(settings, central)
    ? `${apart}, on both sides of the central image; each one's own deviation counts. Such readings belong in a record with "method": "both-sides", as { "left": ..., "right": ... }`
    : `${apart}, on a vernier with steps of ${formatCount(circle)}`;
  return [{ code: 'repeats-disagree', message, suggestion: null }];
}

function onBothSides(settings: readonly Setting[], central: Setting | null): boolean {
  if (central === null) return false;
  const direction = (setting: Setting): number => windowsOf(setting, 'left')[0] ?? 0;
  const sides = settings.map((setting) => Math.sign(wrapDegrees(direction(setting) - direction(central))));
  return sides.includes(1) && sides.includes(-1);
}

const windowsOf = (setting: Setting, side: string): readonly number[] =>
  setting.kind === 'one-side' ? setting.windows : side === 'left' ? setting.left : setting.right;

function spreadDeg(directions: readonly (number | null)[]): number {
  const given = directions.filter((direction) => direction !== null);
  const offsets = given.map((direction) => wrapDegrees(direction - (given[0] ?? 0)));
  return offsets.length === 0 ? 0 : Math.max(...offsets) - Math.min(...offsets);
}

const refuse = (problem: string): Refusal => ({ ok: false, problem });
