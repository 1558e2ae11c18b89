/** What was typed as a reading: refused, or taken with the questions that `analysis/query-reading.ts` has about it. */
import {
  type Meaning as AskedMeaning,
  queryReading,
  questionOf,
  type WrittenReading,
} from '../analysis/query-reading.ts';
import type { Setting } from '../record/bench.ts';
import { readCentral, readSetting } from '../record/read-setting.ts';
import type { ReadingValue, SideValue } from '../record/schema.ts';
import type { ReadingForm } from './form.ts';
import type { InstrumentShape } from './instrument.ts';
import { secondWindowDoubt, type WindowPair } from './second-window.ts';
import type { AnalysisOfForm } from './state.ts';
import { readingText } from './typed.ts';

/** What the reading is meant to be, with other readings as the form has them. */
export type Meaning =
  | { readonly kind: 'central'; readonly others: readonly ReadingForm[] }
  | (Omit<Extract<AskedMeaning, { kind: 'known' }>, 'repeatsOf'> & {
      readonly repeatsOf: readonly ReadingForm[];
    })
  | (Omit<Extract<AskedMeaning, { kind: 'unknown' }>, 'repeatsOf' | 'others'> & {
      readonly repeatsOf: readonly ReadingForm[];
      readonly others: readonly OtherLine[];
    })
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
      ? queryReading({ setting: read.setting, text: readingText(reading) }, asked(meaning, shape), {
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

/** The same with every other reading as far as it can be read. */
function asked(meaning: Meaning, shape: InstrumentShape): AskedMeaning {
  const written = (reading: ReadingForm): WrittenReading[] => {
    const read = settingOf(reading, shape, meaning.kind === 'central');
    return read.ok ? [{ setting: read.setting, text: readingText(reading) }] : [];
  };
  switch (meaning.kind) {
    case 'place':
      return meaning;
    case 'central':
      return { kind: 'central', others: meaning.others.flatMap(written) };
    case 'known':
      return { ...meaning, repeatsOf: meaning.repeatsOf.flatMap(written) };
    case 'unknown': {
      const others = meaning.others.flatMap(({ line, reading }) =>
        written(reading).map((read) => ({ ...read, line })),
      );
      return { ...meaning, repeatsOf: meaning.repeatsOf.flatMap(written), others };
    }
  }
}
