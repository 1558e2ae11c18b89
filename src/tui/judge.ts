/** Is what was typed possible, and is it odd? Nothing odd is refused, it is asked about once. */
import type { Analysis } from '../analysis/types.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import { observe } from '../observe/observation.ts';
import { lampOrigin, type Origin, tubeOrigin } from '../observe/origin.ts';
import type { Setting } from '../record/bench.ts';
import { readCentral, readSetting, repeatsDisagree } from '../record/read-setting.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';
import type { ReadingForm } from './form.ts';
import type { InstrumentShape } from './instrument.ts';
import { arcminText, offTheCurve } from './off-the-curve.ts';
import { secondWindowDoubt, type WindowPair } from './second-window.ts';
import type { AnalysisOfForm } from './state.ts';
import { readingText } from './typed.ts';

/** What the reading is meant to be; it decides with what it is compared. */
export type Meaning =
  | { readonly kind: 'central'; readonly others: readonly ReadingForm[] }
  | {
      readonly kind: 'known';
      readonly wavelengthNm: number | null;
      readonly repeatsOf: readonly ReadingForm[];
      /** Position of the lamp. */
      readonly lamp: number;
      /** Position of the line whose reading is being edited. */
      readonly edits: number | null;
    }
  | {
      readonly kind: 'unknown';
      readonly repeatsOf: readonly ReadingForm[];
      readonly others: readonly OtherLine[];
      /** Position of the tube. */
      readonly tube: number;
    }
  | { readonly kind: 'place' };

/** Another line of the same tube, by position, with its first reading. */
export interface OtherLine {
  readonly line: number;
  readonly reading: ReadingForm;
}

export type Judgement =
  | { readonly ok: false; readonly problem: string }
  | {
      readonly ok: true;
      readonly setting: Setting;
      readonly odd: readonly string[];
      /** What was probably meant instead, as text. */
      readonly suggestion: string | null;
    };

/** The eye's range with some to spare, nm. */
const SEEN_NM: readonly [number, number] = [375, 770];

/** `before`: what the windows showed in the readings there are. */
export function judge(
  reading: ReadingForm,
  meaning: Meaning,
  shape: InstrumentShape,
  result: AnalysisOfForm | null,
  before: readonly WindowPair[] = [],
): Judgement {
  const read = settingOf(reading, shape, meaning.kind === 'central');
  if (!read.ok) return read;
  const useless = secondWindowDoubt(read.setting, before, shape.circle);
  const own =
    useless === null
      ? read.odd.map(({ message }) => message)
      : [useless, ...read.odd.flatMap(({ code, message }) => (code === 'windows-disagree' ? [] : [message]))];
  const suggestion = read.odd.find((odd) => odd.suggestion !== null)?.suggestion?.text ?? null;
  // A slip of the pen explains whatever else looks odd.
  const odd =
    suggestion !== null
      ? own
      : [...own, ...oddAmongOthers(read.setting, readingText(reading), meaning, shape, result)];
  const whole = typeof reading === 'string';
  return { ok: true, setting: read.setting, odd, suggestion: whole ? suggestion : null };
}

function settingOf(reading: ReadingForm, shape: InstrumentShape, central: boolean) {
  return central ? readCentral(reading as SideValue, shape) : readSetting(reading as ReadingValue, shape);
}

function oddAmongOthers(
  setting: Setting,
  text: string,
  meaning: Meaning,
  shape: InstrumentShape,
  result: AnalysisOfForm | null,
): readonly string[] {
  switch (meaning.kind) {
    case 'place':
      return [];
    case 'central':
      return apartFrom(setting, meaning.others, shape, true);
    case 'known': {
      const apart = apartFrom(setting, meaning.repeatsOf, shape, false);
      if (apart.length > 0 || meaning.repeatsOf.length > 0) return apart;
      if (result?.analysis == null) return [];
      const { wavelengthNm, lamp, edits: replaces } = meaning;
      return wavelengthNm === null
        ? outOfSight(setting, result.analysis, lampOrigin(result.analysis.bench))
        : offTheCurve({ setting, text, wavelengthNm, lamp, replaces }, result.analysis, result.computation);
    }
    case 'unknown': {
      if (meaning.repeatsOf.length > 0) return apartFrom(setting, meaning.repeatsOf, shape, false);
      const twin = meaning.others.find((other) => isSamePlace(setting, other.reading, shape));
      if (twin !== undefined)
        return [
          `That is the place of line ${twin.line + 1} again; a repeat of it is typed on its own row (the up arrow, while nothing is typed).`,
        ];
      if (result?.analysis == null) return [];
      return outOfSight(setting, result.analysis, originOf(result.analysis, meaning.tube));
    }
  }
}

/** One that agrees with any of the others is as it should be, whatever the rest are. */
function apartFrom(
  setting: Setting,
  others: readonly ReadingForm[],
  shape: InstrumentShape,
  central: boolean,
): readonly string[] {
  const read = others.flatMap((other) => {
    const understood = settingOf(other, shape, central);
    return understood.ok ? [{ other, setting: understood.setting }] : [];
  });
  if (read.some((each) => repeatsDisagree([each.setting, setting], shape.circle).length === 0)) return [];
  const [nearest] = read
    .flatMap(({ other, setting: before }) => {
      const apart = differenceArcmin(setting, before);
      return apart === null ? [] : [{ other, apart }];
    })
    .sort((a, b) => a.apart - b.apart);
  if (nearest === undefined) return [];
  return [`That is ${arcminText(nearest.apart)} from ${readingText(nearest.other)}, read before.`];
}

/** The largest difference of what was read on any side and in any window; null where there is nothing to compare. */
function differenceArcmin(first: Setting, second: Setting | undefined): number | null {
  if (second === undefined) return null;
  const windows = (setting: Setting): readonly number[] =>
    setting.kind === 'one-side' ? setting.windows : [...setting.left, ...setting.right];
  const others = windows(second);
  const differences = windows(first).flatMap((reading, i) => {
    const other = others[i];
    return other === undefined ? [] : [60 * Math.abs(wrapDegrees(reading - other))];
  });
  return differences.length === 0 ? null : Math.max(...differences);
}

function isSamePlace(setting: Setting, other: ReadingForm, shape: InstrumentShape): boolean {
  const read = settingOf(other, shape, false);
  const apart = read.ok ? differenceArcmin(setting, read.setting) : null;
  return apart !== null && apart < 1e-6;
}

function originOf({ bench }: Analysis, tube: number): Origin {
  const own = bench.tubes[tube];
  return own === undefined ? lampOrigin(bench) : tubeOrigin(bench, own);
}

function outOfSight(setting: Setting, analysis: Analysis, { central }: Origin): readonly string[] {
  const { curve } = analysis.calibration;
  const ordinate = observe(analysis.bench, [setting], central)?.ordinate;
  if (curve === null || ordinate === undefined) return [];
  const estimate = curve.wavelengthAt(ordinate, 0);
  const wavelengthNm = estimate?.wavelengthNm;
  if (wavelengthNm === undefined) return ['No visible light falls there on this bench.'];
  const margin = 3 * estimate!.standardUncertaintyNm;
  if (wavelengthNm > SEEN_NM[0] - margin && wavelengthNm < SEEN_NM[1] + margin) return [];
  return [`That would be ${wavelengthNm.toFixed(0)} nm, which no eye sees.`];
}
