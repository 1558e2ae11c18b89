/** What the calibration finds of each known line. */
import { sumOf } from '../numeric/sum.ts';
import { tubesThatShowTheMove } from '../observe/moved-centrals.ts';
import { readingVariance } from '../observe/reading-variance.ts';
import { usualScatter } from '../observe/setting-scatter.ts';
import type { Bench, KnownBenchLine } from '../record/bench.ts';
import type { KnownReading } from './assign/known-reading.ts';
import { isFault, type LineChoice } from './assign/line-hypotheses.ts';
import { LARGE_SCATTER, MENTIONED } from './assumptions.ts';
import type { CalibrationFinding, KnownLineFinding } from './findings.ts';
import type { BenchExplanation } from './moved-lamps.ts';
import type { CalibrationCurve, CalibrationLine, KnownLineStatus } from './types.ts';

export interface KnownLineReport {
  readonly lines: readonly CalibrationLine[];
  /** A moved bench and wrong lamps first, then the lines that look wrong. */
  readonly findings: readonly CalibrationFinding[];
}

/**
 * `readings`: counted as the first explanation takes them. `curve` is null when nothing could be calibrated: then every line is listed
 * without a residual.
 */
export function knownLineReport(
  bench: Bench,
  readings: readonly KnownReading[],
  explanations: readonly BenchExplanation[],
  curve: CalibrationCurve | null,
  settingVariance: number,
): KnownLineReport {
  const best = explanations[0];
  const positionOf = new Map(readings.map(({ line }, i) => [line.index, i]));
  const lines = bench.known
    .flatMap((lamp) => lamp.lines)
    .map((line): CalibrationLine => {
      const { index, lampIndex, statedWavelengthNm } = line;
      const i = positionOf.get(index);
      if (i === undefined) return notComputed(line);
      const { observation } = readings[i]!;
      const choice = best?.choices[i];
      const wavelengthNm = choice?.wavelengthNm ?? statedWavelengthNm;
      return {
        index,
        lampIndex,
        statedWavelengthNm,
        wavelengthNm,
        deviationDeg: bench.method === 'scale' ? null : observation.ordinate / 60,
        ordinate: observation.ordinate,
        standardUncertainty: Math.sqrt(readingVariance(observation, settingVariance)),
        residual:
          curve && wavelengthNm !== null ? observation.ordinate - curve.ordinateAt(wavelengthNm) : null,
        status: choice ? statusOf(choice, statedWavelengthNm) : 'used',
        finding:
          best?.lampTakenFor[lampIndex] === null ? lineFinding(readings[i]!, i, explanations, curve) : null,
      };
    });
  const ofLines = lines.flatMap(({ index, finding }): CalibrationFinding[] =>
    finding !== null && looksWrong(finding) ? [{ what: 'known-line', index, finding }] : [],
  );
  return {
    lines,
    findings: [
      ...movedLamps(bench, explanations, settingVariance),
      ...wrongLamps(bench, explanations),
      ...ofLines,
    ],
  };
}

function looksWrong({ what }: KnownLineFinding): boolean {
  return what === 'slip' || what === 'neighbour' || what === 'set-aside';
}

function notComputed({ index, lampIndex, statedWavelengthNm, use }: KnownBenchLine): CalibrationLine {
  return {
    index,
    lampIndex,
    statedWavelengthNm,
    wavelengthNm: statedWavelengthNm,
    deviationDeg: null,
    ordinate: null,
    standardUncertainty: null,
    residual: null,
    status: 'set-aside',
    finding: { what: use ? 'no-deviation' : 'left-out' },
  };
}

function statusOf({ kind, slip, wavelengthNm }: LineChoice, statedNm: number | null): KnownLineStatus {
  if (slip !== null) return 'slip';
  if (kind === 'set-aside') return 'set-aside';
  if (kind === 'neighbour') return 'reassigned';
  return kind === 'assigned' && statedNm !== null && wavelengthNm !== statedNm ? 'reassigned' : 'used';
}

/** What the likeliest explanation, or else the others together, say of a line. */
function lineFinding(
  { line, observation: { ordinate } }: KnownReading,
  i: number,
  explanations: readonly BenchExplanation[],
  curve: CalibrationCurve | null,
): KnownLineFinding | null {
  const choice = explanations[0]!.choices[i]!;
  if (!isFault(choice)) return perhaps(i, explanations);
  const probability = probabilityThat(({ choices }) => isFault(choices[i]!), explanations);
  if (choice.slip !== null) return { what: 'slip', probability, slip: choice.slip };
  const off = (nm: number | null): number | null =>
    curve === null || nm === null ? null : Math.abs(ordinate - curve.ordinateAt(nm));
  const { wavelengthNm } = choice;
  if (wavelengthNm !== null) return { what: 'neighbour', probability, wavelengthNm, fit: off(wavelengthNm) };
  return { what: 'set-aside', probability, off: off(line.statedWavelengthNm) };
}

/** What may be wrong with a line that the likeliest explanation takes as it is: its likeliest fault, if any is likely. */
function perhaps(i: number, explanations: readonly BenchExplanation[]): KnownLineFinding | null {
  const faults = explanations.flatMap(({ choices }) => (isFault(choices[i]!) ? [choices[i]!] : []));
  const chanceOf = (fault: LineChoice): number =>
    probabilityThat(({ choices }) => isSameFault(choices[i]!, fault), explanations);
  const [first, ...others] = faults;
  if (first === undefined) return null;
  const fault = others.reduce((best, other) => (chanceOf(other) > chanceOf(best) ? other : best), first);
  const probability = chanceOf(fault);
  if (probability < MENTIONED) return null;
  const kind = fault.kind === 'as-stated' ? 'slip' : fault.kind;
  return { what: 'perhaps', probability, fault: kind, slip: fault.slip, wavelengthNm: fault.wavelengthNm };
}

function isSameFault(one: LineChoice, other: LineChoice): boolean {
  return (
    one.kind === other.kind &&
    one.wavelengthNm === other.wavelengthNm &&
    one.slip?.readingCorrection === other.slip?.readingCorrection
  );
}

/** Sum over the explanations in which it is so; their rounding must not carry it above 1. */
function probabilityThat(
  isSo: (explanation: BenchExplanation) => boolean,
  explanations: readonly BenchExplanation[],
): number {
  const sum = sumOf(explanations.filter(isSo), ({ probability }) => probability);
  return Math.min(1, sum);
}

function movedLamps(
  bench: Bench,
  explanations: readonly BenchExplanation[],
  settingVariance: number,
): CalibrationFinding[] {
  const move = explanations[0]?.move ?? null;
  if (move === null) return [];
  const probability = probabilityThat(
    (other) => other.move?.lampIndex === move.lampIndex && other.move.until === move.until,
    explanations,
  );
  const times = Math.sqrt(settingVariance) / usualScatter(bench);
  const leftScatter = bench.known.length > 2 && times >= LARGE_SCATTER.times ? times : null;
  const shownBy = tubesThatShowTheMove(bench, settingVariance);
  return [{ what: 'lamp-moved', probability, move, shownBy, leftScatter }];
}

function wrongLamps(bench: Bench, explanations: readonly BenchExplanation[]): CalibrationFinding[] {
  return (explanations[0]?.lampTakenFor ?? []).flatMap((takenFor, lampIndex): CalibrationFinding[] => {
    if (takenFor === null || bench.known[lampIndex]!.name === '') return [];
    const probability = probabilityThat(
      (explanation) => explanation.lampTakenFor[lampIndex] !== null,
      explanations,
    );
    return [{ what: 'wrong-lamp', probability, lampIndex, takenFor }];
  });
}
