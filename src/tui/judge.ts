/** What was typed as a reading: refused, or taken with the questions that `analysis/query-reading.ts` has about it. */
import { type Meaning, queryReading, questionOf, type WrittenReading } from '../analysis/query-reading.ts';
import type { Setting } from '../record/bench.ts';
import { readCentral, readSetting } from '../record/read-setting.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';
import type { ReadingForm } from './form.ts';
import type { InstrumentShape } from './instrument.ts';
import { secondWindowDoubt, type WindowPair } from './second-window.ts';
import type { AnalysisOfForm } from './state.ts';
import { readingText } from './typed.ts';

export type Judgement =
  | { readonly ok: false; readonly problem: string }
  | {
      readonly ok: true;
      readonly setting: Setting;
      readonly odd: readonly string[];
      /** What was probably meant instead, as text: of a slip of the pen only, for a vernier is read again. */
      readonly suggestion: string | null;
    };

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
  const suggestion = read.odd.find((odd) => odd.suggestion !== null)?.suggestion ?? null;
  // A slip of the pen explains whatever else looks odd.
  const query =
    suggestion === null
      ? queryReading({ setting: read.setting, text: readingText(reading) }, meaning, {
          leastCountArcmin: shape.circle?.leastCountArcmin ?? null,
          analysis: result?.analysis ?? null,
          askCalibration: result?.computation.queryKnownLines ?? null,
        })
      : null;
  const odd = query === null ? own : [...own, query.message];
  const whole = typeof reading === 'string';
  return { ok: true, setting: read.setting, odd, suggestion: whole ? suggestion : null };
}

/** The questions about several new readings of a lamp at once, null where there is none. */
export function questionsOfKnownLines(
  readings: readonly (WrittenReading & { readonly wavelengthNm: number })[],
  lamp: number,
  result: AnalysisOfForm | null,
): readonly (string | null)[] {
  if (result?.analysis == null || readings.length === 0) return [];
  const { analysis, computation } = result;
  const asked = readings.map((reading) => ({ ...reading, lamp, replaces: null }));
  return computation
    .queryKnownLines(asked, analysis)
    .map((query) => questionOf(analysis.bench, query)?.message ?? null);
}

function settingOf(reading: ReadingForm, shape: InstrumentShape, central: boolean) {
  return central ? readCentral(reading as SideValue, shape) : readSetting(reading as ReadingValue, shape);
}

/** Those of the form's readings that can be read, as the questions compare them. */
export function writtenReadings(
  readings: readonly ReadingForm[],
  shape: InstrumentShape,
  central: boolean,
): readonly WrittenReading[] {
  return readings.flatMap((reading) => {
    const read = settingOf(reading, shape, central);
    return read.ok ? [{ setting: read.setting, text: readingText(reading) }] : [];
  });
}
