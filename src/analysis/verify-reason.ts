/** What decides the instructor's check of a tube, as data and in one sentence. */
import { fitIsAcceptable } from '../identify/rank/acceptable-fit.ts';
import type { Doubt } from '../words/doubt.ts';
import { capital, percent, placeAndUse, rowName } from '../words/verdict.ts';
import { FEW_READINGS, SUPPORTED_FROM } from './assumptions.ts';
import type { Analysis, Candidate, NextLook, TubeAnalysis } from './types.ts';
import type { Outcome } from './verify.ts';

export type VerifyReason =
  | { readonly what: 'no-calibration'; readonly doubt: Place }
  | { readonly what: 'no-readings' }
  | { readonly what: 'few-readings'; readonly look: NextLook | null }
  /**
   * `fitting` of `readings` lie on lines of the tube, `corrected` of them only with a slip undone; `besides`: how many of
   * them on lines of what shows beside it.
   */
  | {
      readonly what: 'supported';
      readonly probability: number;
      readonly fitting: number;
      readonly besides: { readonly count: number; readonly substances: readonly string[] };
      readonly readings: number;
      readonly corrected: number;
      /** So many of the others read like one that lies on a line. */
      readonly twice: number;
    }
  /** The readings are another tube's; `doubt`: where something is not sound about them. */
  | { readonly what: 'another-tube'; readonly best: Candidate; readonly doubt: Place | null }
  | { readonly what: 'no-tube'; readonly probability: number; readonly doubt: Place | null }
  /** The tube leads, and its fit is not acceptable. Indexes count from 0. */
  | {
      readonly what: 'poor-fit';
      readonly probability: number;
      readonly leftOver: readonly number[];
      readonly corrected: readonly number[];
      readonly worst: number | null;
      readonly readings: number;
    }
  | {
      readonly what: 'undecided';
      readonly probability: number | null;
      readonly rival: Candidate | null;
      readonly rivalLeads: boolean;
      readonly look: NextLook | null;
      /** What is wrong with the bench as a whole: to be cleared up before any further line is read. */
      readonly doubt: Place | null;
    };

/** Where a doubt is: what it is stands beside, among what is to blame, and is not said twice. */
type Place = Pick<Doubt, 'step' | 'index'>;

/** Does a row fit the readings by itself? What was written down twice does not speak against it. */
export function rowIsAcceptable(tube: TubeAnalysis, row: Candidate): boolean {
  const twice = new Set(readTwice(tube, row));
  return fitIsAcceptable({ ...row, unexplained: row.unexplained.filter((index) => !twice.has(index)) });
}

/** Only of the leading row it is known. */
const readTwice = ({ candidates, readTwice: indexes }: TubeAnalysis, row: Candidate): readonly number[] =>
  row === candidates[0] ? indexes : [];

/** `row`: of the expected tube, the leading one where it has several; null where it is not ranked. */
export function verifyReason(
  { calibration }: Analysis,
  tube: TubeAnalysis,
  { outcome, probability, row }: { outcome: Outcome; probability: number | null; row: Candidate | null },
): VerifyReason {
  const usable = tube.lines.filter(({ wavelengthNm }) => wavelengthNm !== null).length;
  const [best = null] = tube.candidates;
  const { nextLook: look } = tube.verdict;
  // The step that comes first at the bench spoils those after it.
  const doubts = [...calibration.doubts, ...tube.doubts];
  const doubt = doubts[0] ?? null;
  // A move that explains the known lines is taken off, and the tube's readings are as good as ever.
  const isTakenOff = !calibration.warnings.some(({ code }) => code === 'large-scatter');
  const left = isTakenOff ? doubts.filter(({ kind }) => kind !== 'moved-lamp') : doubts;
  if (outcome === 'supported' && row !== null) {
    const corrected = row.matches.filter(({ asRead }) => !asRead).length;
    const fitting = row.matches.length;
    const readings = fitting + row.unexplained.length;
    const count = row.matches.filter(({ substance }) => row.with.includes(substance)).length;
    const besides = { count, substances: row.with };
    const twice = readTwice(tube, row).length;
    return { what: 'supported', probability: probability ?? 0, fitting, besides, readings, corrected, twice };
  }
  if (outcome === 'contradicted') {
    const isTubes =
      best !== null &&
      best.symbol !== null &&
      best.probability >= SUPPORTED_FROM &&
      rowIsAcceptable(tube, best);
    return isTubes
      ? { what: 'another-tube', best, doubt: left[0] ?? null }
      : { what: 'no-tube', probability: probability ?? 0, doubt };
  }
  if (calibration.curve === null) {
    const isCentral = calibration.warnings.some(({ code }) => code === 'central-missing');
    return { what: 'no-calibration', doubt: { step: isCentral ? 'central' : 'known', index: null } };
  }
  if (tube.lines.length === 0) return { what: 'no-readings' };
  if (usable <= FEW_READINGS) return { what: 'few-readings', look };
  if (row !== null && row === best && probability !== null && probability >= SUPPORTED_FROM) {
    const worst = [...row.matches].sort((a, b) => Math.abs(b.residualSigma) - Math.abs(a.residualSigma))[0];
    return {
      what: 'poor-fit',
      probability,
      leftOver: row.unexplained.filter((index) => !readTwice(tube, row).includes(index)),
      corrected: row.matches.flatMap(({ index, asRead }) => (asRead ? [] : [index])),
      worst: worst?.index ?? null,
      readings: row.matches.length + row.unexplained.length,
    };
  }
  const rival = tube.candidates.find((candidate) => candidate !== row) ?? null;
  const ofBench = doubts.find(({ step, index }) => step === 'central' || index === null) ?? null;
  return { what: 'undecided', probability, rival, rivalLeads: rival === best, look, doubt: ofBench };
}

/** The reason in one sentence; never empty. */
export function reasonSentence(reason: VerifyReason, expected: string): string {
  switch (reason.what) {
    case 'no-calibration':
      return `No tube can be told without a calibration: ${clearUp(reason.doubt)}`;
    case 'no-readings':
      return 'There is nothing to judge yet: read the brightest lines first.';
    case 'few-readings':
      return `Too few lines to name a tube: read more${reason.look === null ? '' : `, the next at ${lookPlace(reason.look)}`}.`;
    case 'supported':
      return `The readings support ${expected} (${percent(reason.probability)}): ${ownText(reason)}${correctedText(reason)}.`;
    case 'another-tube': {
      const those = `those of ${rowName(reason.best)} (${percent(reason.best.probability)}), not of ${expected}`;
      return reason.doubt === null
        ? `The readings are good and are ${those}: check key and label.`
        : `The readings are ${those}, but not all of them are sound: ${clearUp(reason.doubt)}`;
    }
    case 'no-tube':
      return `The readings do not fit ${expected} (${percent(reason.probability)}), nor any other tube well: ${reason.doubt === null ? 'read the lines again, and the central image and the known lamp.' : clearUp(reason.doubt)}`;
    case 'poor-fit':
      return `${capital(expected)} comes first (${percent(reason.probability)}), but ${poorFitText(reason)}.`;
    case 'undecided':
      return undecidedSentence(reason, expected);
  }
}

type Of<What extends VerifyReason['what']> = Extract<VerifyReason, { what: What }>;

/** `5 of 5 lie on its lines`, `3 of 6 lie on its lines and 2 on those of mercury`. */
function ownText({ fitting, besides: { count, substances }, readings, twice }: Of<'supported'>): string {
  const own = `${fitting - count} of ${readings} lie on its lines`;
  const fit = count === 0 ? own : `${own} and ${count} on those of ${substances.join(' and ')}`;
  return twice === 0 ? fit : `${fit}, ${twice} read${twice === 1 ? 's' : ''} like one of these`;
}

/** What all readings need alike is an error that they share. */
function correctedText({ fitting, corrected }: Of<'supported'>): string {
  if (corrected === 0) return '';
  return corrected === fitting && fitting > 1
    ? ', once an error that all of them share is taken off'
    : `, ${corrected} of them only with a slip undone`;
}

function poorFitText({ leftOver, corrected, worst, readings }: Of<'poor-fit'>): string {
  if (leftOver.length > 0)
    return `${leftOver.length} of ${readings} readings fit none of its lines: read again ${numbered(leftOver)}`;
  if (corrected.length > 0)
    return `${corrected.length} of ${readings} readings fit only with a slip undone: read again ${numbered(corrected)}`;
  return `the readings lie further from its lines than their uncertainty allows: read again ${worst === null ? 'all of them' : `${numbered([worst])} first`}`;
}

function undecidedSentence(
  { probability, rival, rivalLeads, look, doubt }: Of<'undecided'>,
  expected: string,
): string {
  const then =
    doubt !== null
      ? clearUp(doubt)
      : look === null
        ? 'read each line again, and those not yet read.'
        : `look at ${placeAndUse(look, ';')}`;
  if (probability === null || rival === null)
    return `The readings cannot be compared with ${expected}: ${then}`;
  const own = percent(probability);
  const others = `${rowName(rival)} ${rivalLeads ? 'comes first' : 'is still possible'} (${percent(rival.probability)})`;
  return rivalLeads
    ? `${capital(others)}, and ${expected} is not excluded (${own}): ${then}`
    : `${capital(expected)} comes first (${own}), but ${others}: ${then}`;
}

const lookPlace = ({ reading, wavelengthNm }: NextLook): string =>
  `${reading} (${wavelengthNm.toFixed(1)} nm)`;

/** `readings 2, 5 and 7`; few enough to be read. */
function numbered(indexes: readonly number[]): string {
  const shown = indexes.slice(0, 5).map((index) => String(index + 1));
  const more = indexes.length - shown.length;
  const all = more > 0 ? [...shown, `${more} more`] : shown;
  const last = all.pop();
  return `${indexes.length === 1 ? 'reading' : 'readings'} ${all.length === 0 ? '' : `${all.join(', ')} and `}${last}`;
}

/** `clear up known line 6 first.`, to end a sentence. */
function clearUp({ step, index }: Place): string {
  const whole =
    index === null ? WHOLE[step] : `${step === 'unknown' ? 'reading' : 'known line'} ${index + 1}`;
  return `clear up ${whole} first.`;
}

const WHOLE: Readonly<Record<Place['step'], string>> = {
  central: 'the central image',
  known: 'the known lamp',
  unknown: 'the readings of this tube',
  answer: 'the answer',
};
