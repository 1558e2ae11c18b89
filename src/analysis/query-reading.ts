/**
 * Is this reading odd, and what was probably meant? Nothing odd is refused, it is asked about once. What a reading may
 * have been, and how likely, is asked of the slip hypotheses and of the calibration that the analysis itself uses.
 */
import { repeatToleranceArcmin } from '../angle/least-count.ts';
import { wrapDegrees } from '../angle/wrap.ts';
import { MENTIONED } from '../calibrate/assumptions.ts';
import type { WavelengthEstimate } from '../calibrate/types.ts';
import { isReadable } from '../lines/visible.ts';
import { benchConstants } from '../observe/bench-constants.ts';
import { observe } from '../observe/observation.ts';
import { lampOrigin, type Origin, tubeOrigin } from '../observe/origin.ts';
import { expectedStep, settingWritten, stepOf } from '../observe/reading-step.ts';
import { type ReadingAlternative, readingAlternatives } from '../observe/slip-hypotheses.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { type BenchQuery, querySentence, type RepeatQuery, repeatSentence } from '../words/reading-query.ts';
import { SURELY_OUTSIDE } from './assumptions.ts';
import type { queryKnownLines } from './query-known-lines.ts';
import type { Analysis } from './types.ts';

/** A reading as it was read, and as it is written. */
export interface WrittenReading {
  readonly setting: Setting;
  readonly text: string;
}

/** What the reading is meant to be; it decides with what it is compared. */
export type Meaning =
  | { readonly kind: 'central'; readonly others: readonly WrittenReading[] }
  | {
      readonly kind: 'known';
      /** Null: any line of the lamp. */
      readonly wavelengthNm: number | null;
      readonly repeatsOf: readonly WrittenReading[];
      /** Position of the lamp. */
      readonly lamp: number;
      /** Position of the line whose reading is being edited. */
      readonly edits: number | null;
    }
  | {
      readonly kind: 'unknown';
      readonly repeatsOf: readonly WrittenReading[];
      /** The first readings of the tube's other lines, by position. */
      readonly others: readonly (WrittenReading & { readonly line: number })[];
      /** Position of the tube. */
      readonly tube: number;
    }
  /** A place on the circle, no line. */
  | { readonly kind: 'place' };

/** What is known of the bench so far. */
export interface Asked {
  /** Least count of the circle, arc-minutes; null on a scale. */
  readonly leastCountArcmin: number | null;
  /** Null as long as there is none. */
  readonly analysis: Analysis | null;
  /** `queryKnownLines`, once the computation is loaded. */
  readonly askCalibration: typeof queryKnownLines | null;
}

/** What should be asked, in words. */
export interface Question {
  readonly what: (RepeatQuery | BenchQuery)['what'];
  readonly message: string;
}

/** The one thing that should be asked about this reading, or null. */
export function queryReading(reading: WrittenReading, meaning: Meaning, asked: Asked): Question | null {
  const repeat = repeatQuery(reading, meaning, asked);
  if (repeat !== null) return { what: repeat.what, message: repeatSentence(repeat) };
  const { analysis } = asked;
  const query = analysis === null ? null : benchQuery(reading, meaning, analysis, asked.askCalibration);
  return analysis === null ? null : questionOf(analysis.bench, query);
}

/** The question in words; null where nothing is asked. */
export function questionOf(bench: Bench, query: BenchQuery | null): Question | null {
  return query === null ? null : { what: query.what, message: querySentence(bench, query) };
}

function repeatQuery(
  reading: WrittenReading,
  meaning: Meaning,
  { leastCountArcmin, analysis }: Asked,
): RepeatQuery | null {
  if (meaning.kind === 'place') return null;
  const repeated = meaning.kind === 'central' ? meaning.others : meaning.repeatsOf;
  if (meaning.kind !== 'unknown' || repeated.length > 0)
    return leastCountArcmin === null
      ? null
      : apartFrom(reading, repeated, (setting) =>
          analysis === null
            ? leastCountArcmin
            : stepOf(analysis.bench, [written(setting, meaning, analysis)]),
        );
  const twin = meaning.others.find((other) => isSamePlace(reading.setting, other.setting));
  return twin === undefined ? null : { what: 'same-place', line: twin.line };
}

/** A repeat is compared with what it repeats, and asked no more. */
function benchQuery(
  reading: WrittenReading,
  meaning: Meaning,
  analysis: Analysis,
  askCalibration: Asked['askCalibration'],
): BenchQuery | null {
  if (meaning.kind === 'place' || meaning.kind === 'central' || meaning.repeatsOf.length > 0) return null;
  const setting = written(reading.setting, meaning, analysis);
  if (meaning.kind === 'unknown') return ofItself(setting, analysis, originOf(analysis, meaning.tube));
  const { wavelengthNm, lamp, edits: replaces } = meaning;
  if (wavelengthNm === null) return ofItself(setting, analysis, lampOrigin(analysis.bench, lamp));
  return askCalibration?.([{ ...reading, wavelengthNm, lamp, replaces }], analysis)[0] ?? null;
}

/** With the step that readings of this kind are rounded to on the bench, if it is a multiple of it. */
function written(setting: Setting, meaning: Meaning, { bench }: Analysis): Setting {
  if (meaning.kind === 'place') return setting;
  if (meaning.kind === 'central') {
    const centrals = [...bench.central, ...bench.tubes.flatMap(({ central }) => central ?? [])];
    return settingWritten(bench, setting, stepOf(bench, centrals));
  }
  const list = meaning.kind === 'known' ? bench.known[meaning.lamp] : bench.tubes[meaning.tube];
  return settingWritten(bench, setting, expectedStep(bench, list?.lines));
}

/** One that agrees with any of the others is as it should be, whatever the rest are. */
function apartFrom(
  { setting }: WrittenReading,
  others: readonly WrittenReading[],
  stepArcmin: (setting: Setting) => number,
): RepeatQuery | null {
  const [nearest] = others
    .flatMap((other) => {
      const apart = differenceOf(setting, other.setting);
      return apart === null
        ? []
        : [{ query: { what: 'apart' as const, apartArcmin: apart, from: other.text }, other }];
    })
    .sort((a, b) => a.query.apartArcmin - b.query.apartArcmin);
  if (nearest === undefined) return null;
  const step = Math.max(stepArcmin(setting), stepArcmin(nearest.other.setting));
  return nearest.query.apartArcmin <= repeatToleranceArcmin(step) ? null : nearest.query;
}

const windowsOf = (setting: Setting): readonly number[] =>
  setting.kind === 'one-side' ? setting.windows : [...setting.left, ...setting.right];

/** Degrees of what is typed in minutes are no exact numbers. */
const ROUNDING_DEG = 1e-8;

function isSamePlace(first: Setting, second: Setting): boolean {
  const others = windowsOf(second);
  return windowsOf(first).every((reading, i) => Math.abs(reading - (others[i] ?? Infinity)) < ROUNDING_DEG);
}

/** The largest difference of what was read on any side and in any window, arc-minutes; null where nothing compares. */
function differenceOf(first: Setting, second: Setting): number | null {
  const others = windowsOf(second);
  const differences = windowsOf(first).flatMap((reading, i) => {
    const other = others[i];
    return other === undefined ? [] : [60 * Math.abs(wrapDegrees(reading - other))];
  });
  return differences.length === 0 ? null : Math.max(...differences);
}

function originOf({ bench }: Analysis, tube: number): Origin {
  const own = bench.tubes[tube];
  return own === undefined ? lampOrigin(bench) : tubeOrigin(bench, own);
}

/** Of a line that may have any wavelength: do its sides and windows agree, and is it visible there? */
function ofItself(
  setting: Setting,
  { bench, calibration: { curve, settingScatter } }: Analysis,
  { central }: Origin,
): BenchQuery | null {
  const observation = observe(bench, [setting], central);
  if (curve === null || observation === null) return null;
  const variance = (settingScatter ?? 0) ** 2;
  const slips = readingAlternatives(bench, [setting], observation, benchConstants(bench), variance);
  const estimateAt = (correction: number) => curve.wavelengthAt(observation.ordinate + correction, 0);
  const isInSight = (correction: number): boolean => {
    const estimate = estimateAt(correction);
    return estimate !== null && isReadable(estimate.wavelengthNm);
  };
  const seen = slips.filter(({ correction }) => isInSight(correction));
  const here = estimateAt(0);
  if (here === null || !mayBeReadable(here))
    return { what: 'out-of-sight', wavelengthNm: here?.wavelengthNm ?? null, slip: likeliestOf(seen, 0) };
  const slip = likeliestOf(seen, 1);
  return slip === null ? null : { what: 'misread-part', slip };
}

function mayBeReadable({ wavelengthNm, standardUncertaintyNm }: WavelengthEstimate): boolean {
  const margin = SURELY_OUTSIDE * standardUncertaintyNm;
  return [wavelengthNm - margin, wavelengthNm, wavelengthNm + margin].some(isReadable);
}

/** The likeliest slip where one is likely enough to be mentioned; `asRead`: odds that there is none. */
function likeliestOf(slips: readonly ReadingAlternative[], asRead: number): ReadingAlternative | null {
  const total = slips.reduce((sum, { logOdds }) => sum + Math.exp(logOdds), asRead);
  const [best] = [...slips].sort((a, b) => b.logOdds - a.logOdds);
  return best !== undefined && Math.exp(best.logOdds) >= MENTIONED * total ? best : null;
}
