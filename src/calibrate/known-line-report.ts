/** What the calibration says of each known line, and the sentences for what looks wrong. */
import { formatAngle } from '../angle/format-angle.ts';
import { readingVariance } from '../observe/reading-variance.ts';
import type { ReadingAlternative } from '../observe/slip-hypotheses.ts';
import type { Bench } from '../record/bench.ts';
import { amountText } from '../words/amount-text.ts';
import type { KnownReading, WeighedExplanation } from './assign/known-reading.ts';
import { isFault, type LineChoice } from './assign/line-hypotheses.ts';
import type { CalibrationCurve, CalibrationLine, Doubt, KnownLineStatus } from './types.ts';

const STATUS: Record<LineChoice['kind'], KnownLineStatus> = {
  'as-stated': 'used',
  assigned: 'used',
  slip: 'slip',
  neighbour: 'reassigned',
  'set-aside': 'set-aside',
};

export interface KnownLineReport {
  readonly lines: readonly CalibrationLine[];
  readonly doubts: readonly Doubt[];
}

/** `curve` is null when nothing could be calibrated: then every line is listed without a residual. */
export function knownLineReport(
  bench: Bench,
  readings: readonly KnownReading[],
  explanations: readonly WeighedExplanation[],
  curve: CalibrationCurve | null,
  settingVariance: number,
): KnownLineReport {
  const best = explanations[0];
  const byIndex = new Map(readings.map((reading, i) => [reading.line.index, { reading, i }]));
  const doubts: Doubt[] = best ? lampDoubts(bench, best, explanations) : [];
  const lines = bench.known
    .flatMap((lamp) => lamp.lines)
    .map((line): CalibrationLine => {
      const bare = {
        index: line.index,
        lampIndex: line.lampIndex,
        statedWavelengthNm: line.statedWavelengthNm,
      };
      const found = byIndex.get(line.index);
      if (!found) {
        const message = line.use
          ? 'No deviation can be computed for this line.'
          : `Known line ${line.index + 1} is left out by the record ("use": false).`;
        return {
          ...bare,
          wavelengthNm: line.statedWavelengthNm,
          deviationDeg: null,
          ordinate: null,
          standardUncertainty: null,
          residual: null,
          status: 'set-aside',
          message,
        };
      }
      const { observation } = found.reading;
      const choice = best?.choices[found.i];
      const wavelengthNm = choice
        ? (choice.wavelengthNm ?? line.statedWavelengthNm)
        : line.statedWavelengthNm;
      const residual =
        curve && wavelengthNm !== null ? observation.ordinate - curve.ordinateAt(wavelengthNm) : null;
      const uncertainty = Math.sqrt(readingVariance(observation, settingVariance));
      const trusted = best?.lampTakenFor[line.lampIndex] === null;
      const probability = probabilityThat(({ choices }) => isFault(choices[found.i]!), explanations);
      const doubt =
        choice && trusted && isFault(choice)
          ? lineDoubt(bench, found.reading, choice, residual, curve, probability)
          : null;
      if (doubt) doubts.push(doubt);
      return {
        ...bare,
        wavelengthNm,
        deviationDeg: bench.method === 'scale' ? null : observation.ordinate / 60,
        ordinate: observation.ordinate,
        standardUncertainty: uncertainty,
        residual,
        status: choice ? statusOf(choice, line.statedWavelengthNm) : 'used',
        message: doubt?.message ?? (trusted ? perhaps(bench, found.reading, found.i, explanations) : null),
      };
    });
  return { lines, doubts };
}

/** From this chance on a fault is mentioned at a line that is used as it stands. */
const MENTIONED = 0.25;

/** What may be wrong with a line that the likeliest explanation takes as it is: its likeliest fault, if any is likely. */
function perhaps(
  bench: Bench,
  { line }: KnownReading,
  i: number,
  explanations: readonly WeighedExplanation[],
): string | null {
  const faults = explanations.flatMap(({ choices }) => (isFault(choices[i]!) ? [choices[i]!] : []));
  const chanceOf = (fault: LineChoice): number =>
    probabilityThat(({ choices }) => isSameFault(choices[i]!, fault), explanations);
  const [first, ...others] = faults;
  if (first === undefined) return null;
  const fault = others.reduce((best, other) => (chanceOf(other) > chanceOf(best) ? other : best), first);
  const chance = chanceOf(fault);
  if (chance < MENTIONED) return null;
  const named = line.statedWavelengthNm === null ? '' : ` (named ${line.statedWavelengthNm})`;
  return `Known line ${line.index + 1}${named} ${perhapsText(bench, fault)}, with a chance of ${Math.round(100 * chance)} %: ${PERHAPS_DO[fault.kind]}.`;
}

function perhapsText(bench: Bench, { kind, slip, wavelengthNm }: LineChoice): string {
  if (slip) {
    const [read, meant] = readAndMeant(bench, slip);
    return `may be ${meant}, read as ${read} (${slip.words})`;
  }
  if (kind === 'neighbour') return `may be ${wavelengthNm!.toFixed(2)}, its neighbour`;
  return 'may be wrong for a reason that has no name';
}

const PERHAPS_DO: Record<LineChoice['kind'], string> = {
  'as-stated': '',
  assigned: 'read it again',
  slip: 'read it again',
  neighbour: "compare with the lamp's line table, and mark it confirmed if you are sure",
  'set-aside': 'read it again',
};

function isSameFault(one: LineChoice, other: LineChoice): boolean {
  return (
    one.kind === other.kind &&
    one.wavelengthNm === other.wavelengthNm &&
    one.slip?.readingCorrection === other.slip?.readingCorrection
  );
}

function statusOf(choice: LineChoice, statedNm: number | null): KnownLineStatus {
  if (choice.kind !== 'assigned') return STATUS[choice.kind];
  if (choice.slip) return 'slip';
  return statedNm !== null && choice.wavelengthNm !== statedNm ? 'reassigned' : 'used';
}

/** Sum over the explanations in which it is so; their rounding must not carry it above 1. */
function probabilityThat(
  isSo: (explanation: WeighedExplanation) => boolean,
  explanations: readonly WeighedExplanation[],
): number {
  return Math.min(
    1,
    explanations.filter(isSo).reduce((sum, { probability }) => sum + probability, 0),
  );
}

function lampDoubts(
  bench: Bench,
  best: WeighedExplanation,
  explanations: readonly WeighedExplanation[],
): Doubt[] {
  return best.lampTakenFor.flatMap((takenFor, lampIndex): Doubt[] => {
    const name = bench.known[lampIndex]!.name;
    if (takenFor === null || name === '') return [];
    const probability = probabilityThat(
      (explanation) => explanation.lampTakenFor[lampIndex] !== null,
      explanations,
    );
    const message = `These are ${takenFor} lines, not ${name}: was the wrong lamp in the holder? Look at the lamp's label, or name the lamp ${takenFor}.`;
    return [{ step: 'known', index: null, kind: 'wrong-lamp', probability, message }];
  });
}

function lineDoubt(
  bench: Bench,
  { line, observation }: KnownReading,
  choice: LineChoice,
  residual: number | null,
  curve: CalibrationCurve | null,
  probability: number,
): Doubt {
  const named =
    line.statedWavelengthNm === null ? `line ${line.index + 1}` : `the line named ${line.statedWavelengthNm}`;
  const reading = line.texts[0] ?? '';
  const base = { step: 'known' as const, index: line.index, probability };
  if (choice.slip) {
    const stated = line.statedWavelengthNm === null ? '' : `${named}, `;
    const message = `Known line ${line.index + 1} (${stated}read ${reading}): ${slipSentence(bench, choice.slip)}`;
    return { ...base, kind: 'slip', message };
  }
  if (choice.kind === 'neighbour') {
    const fits = curve ? Math.abs(observation.ordinate - curve.ordinateAt(choice.wavelengthNm!)) : null;
    const left = fits === null ? '' : ` (it fits to ${unitText(bench, Math.max(fits, leastFit(bench)))})`;
    const message = `Known line ${line.index + 1}: ${named} reads like ${choice.wavelengthNm!.toFixed(2)}: named for its neighbour?${left} Compare with the lamp's line table; mark it confirmed if you are sure.`;
    return { ...base, kind: 'neighbour', message };
  }
  const off = residual === null ? '' : ` by ${unitText(bench, Math.abs(residual))}`;
  const message = `Known line ${line.index + 1}: ${named} (read ${reading}) is off the curve${off} and no usual slip explains it; it is set aside. Read it again, or look whether its wavelength is a misprint.`;
  return { ...base, kind: 'set-aside', message };
}

/** "229°39' reads like 230°09': one 30' division of the main scale missed? Read it again." */
export function slipSentence(bench: Bench, slip: ReadingAlternative): string {
  const [read, meant] = readAndMeant(bench, slip);
  const side = slip.part.side === null ? '' : ` on the ${slip.part.side}`;
  return `${read}${side} reads like ${meant}: ${slip.words}? Read it again.`;
}

function readAndMeant(bench: Bench, { part, readingCorrection }: ReadingAlternative): [string, string] {
  const unit = bench.method === 'scale' ? 1 : 1 / 60;
  return [rawText(bench, part.reading), rawText(bench, part.reading + unit * readingCorrection)];
}

function rawText(bench: Bench, reading: number): string {
  return bench.method === 'scale'
    ? String(Number(reading.toFixed(6)))
    : formatAngle(reading, bench.leastCount);
}

function unitText(bench: Bench, amount: number): string {
  return amountText(amount, bench.method === 'scale' ? 'scale' : 'arcmin');
}

/** Nobody reads better than this: a fit said to be closer would promise too much. */
function leastFit(bench: Bench): number {
  return bench.method === 'scale' ? 0.1 * bench.leastCount : 0.1;
}
