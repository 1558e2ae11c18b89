/** Benches measured and published by others, and what the program makes of them against our judgement of their faults. */
import { readdirSync, readFileSync } from 'node:fs';
import { analyseBench } from '../../src/analysis/analyse.ts';
import type { Analysis, ToldCalibrationLine, TubeAnalysis } from '../../src/analysis/types.ts';
import { observe } from '../../src/observe/observation.ts';
import { readingVariance } from '../../src/observe/reading-variance.ts';
import type { Bench, KnownBenchLine } from '../../src/record/bench.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';

const folder = new URL('../reference/benches/', import.meta.url);

/** A published bench; the numbers of `record` are as published, the rest is our judgement from fits of the whole set. */
export interface MeasuredBench {
  readonly id: string;
  readonly source: string;
  readonly what: string;
  /** The gas where it is certain. */
  readonly tube: string | null;
  readonly plausibleTubes: readonly string[];
  /** A (clean) to D. */
  readonly quality: 'A' | 'B' | 'C' | 'D';
  /** False: its known lines are too bad to judge a program by. */
  readonly usableCalibration: boolean;
  /** Known lines that are wrong, by their stated wavelength; `meantNm`: what they are, where that is known. */
  readonly faults: readonly {
    readonly wavelengthNm: number;
    readonly what: string;
    readonly meantNm: number | null;
  }[];
  /** Stated wavelengths that count neither as sound nor as wrong. */
  readonly doubtful: readonly number[];
  readonly judgement: string;
  readonly record: unknown;
}

/** All of them, in the order of their names. */
export function measuredBenches(): MeasuredBench[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => ({
      id: name.replace(/\.json$/, ''),
      ...JSON.parse(readFileSync(new URL(name, folder), 'utf8')),
    }));
}

export interface MeasuredResult {
  readonly measured: MeasuredBench;
  /** Null where the record has no tube. */
  readonly tube: TubeAnalysis | null;
  /** Null where the gas is not certain. */
  readonly isFirstRight: boolean | null;
  /** Identified as another gas than the certain one or, where none is certain, than the plausible ones. */
  readonly isIdentifiedWrongly: boolean;
  /** How many known lines are neither faulty nor doubtful; 0 without a usable calibration. */
  readonly sound: number;
  /** Stated wavelengths of the sound lines that are accused. */
  readonly accused: readonly number[];
  /** Stated wavelengths of the faults that are noticed, and that are not. */
  readonly noticed: readonly number[];
  readonly missed: readonly number[];
  /** Of the noticed ones whose right wavelength is known: how many are used with it. */
  readonly mended: number;
  /** Distances of measured wavelengths from true ones in their standard uncertainty u. */
  readonly tubeMisses: readonly number[];
  readonly heldOutMisses: readonly number[];
}

/**
 * THE definition of an accusation: the program does not use the line as it is stated, or names it among what is
 * wrong with the record (`verify` prints these doubts as blame; a fault that is only likely is among them).
 * A sound line is accused wrongly; a faulty one is noticed.
 */
export function isAccused({ calibration }: Analysis, { index, status }: ToldCalibrationLine): boolean {
  return (
    status !== 'used' || calibration.doubts.some((doubt) => doubt.step === 'known' && doubt.index === index)
  );
}

/** A reassigned line has the wavelength that was meant when it is this close (labels are rounded to 0.1 nm or 1 nm). */
const MEANT_NM = 0.6;

function judgeMeasured(measured: MeasuredBench, isShared: boolean): MeasuredResult {
  const bench = benchOf(measured);
  const analysis = analyseBench(bench);
  const tube = analysis.tubes[0] ?? null;
  const { lines } = analysis.calibration;
  const faultOf = ({ statedWavelengthNm: nm }: ToldCalibrationLine) =>
    measured.faults.find(({ wavelengthNm }) => wavelengthNm === nm) ?? null;
  const soundLines = measured.usableCalibration
    ? lines.filter((line) => faultOf(line) === null && !measured.doubtful.includes(line.statedWavelengthNm!))
    : [];
  const faulty = lines.filter((line) => faultOf(line) !== null);
  const stated = (chosen: readonly ToldCalibrationLine[]) => chosen.map((line) => line.statedWavelengthNm!);
  const accused = (line: ToldCalibrationLine) => isAccused(analysis, line);
  return {
    measured,
    tube,
    isFirstRight: measured.tube === null || tube === null ? null : isRow(tube, 0, [measured.tube]),
    isIdentifiedWrongly: identifiedWrongly(measured, tube),
    sound: soundLines.length,
    accused: stated(soundLines.filter(accused)),
    noticed: stated(faulty.filter(accused)),
    missed: stated(faulty.filter((line) => !accused(line))),
    mended: faulty.filter((line) => {
      const meantNm = faultOf(line)!.meantNm;
      return (
        meantNm !== null && line.wavelengthNm !== null && Math.abs(line.wavelengthNm - meantNm) < MEANT_NM
      );
    }).length,
    tubeMisses: measured.tube === null || tube === null ? [] : missesOfTube(tube, measured.tube),
    heldOutMisses: isShared ? [] : missesOfHeldOut(bench, new Set(stated(soundLines))),
  };
}

/** All of them judged. Tubes that share a calibration share its held-out lines, which are then counted once. */
export function judgedBenches(chosen: readonly MeasuredBench[] = measuredBenches()): MeasuredResult[] {
  const seen = new Set<string>();
  return chosen.map((measured) => {
    const known = JSON.stringify((measured.record as { known: unknown }).known);
    const isShared = seen.has(known);
    seen.add(known);
    return judgeMeasured(measured, isShared);
  });
}

function benchOf({ id, record }: MeasuredBench): Bench {
  const result = readRecord(JSON.stringify(record));
  if (!result.ok)
    throw new Error(
      `${id}: ${result.problems.map(({ place, message }) => `${place}: ${message}`).join('\n')}`,
    );
  return result.bench;
}

/** Is that row of the ranking one of `substances`, or a tube that the bench cannot tell from it? */
function isRow(tube: TubeAnalysis, at: number, substances: readonly string[]): boolean {
  const row = tube.candidates[at];
  if (row === undefined || row.with.length > 0) return false;
  return [row.substance, ...row.indistinguishable].some((name) => substances.includes(name));
}

/** Where the gas is not certain only what is plausible may be named. */
function identifiedWrongly(
  { tube: certain, plausibleTubes }: MeasuredBench,
  tube: TubeAnalysis | null,
): boolean {
  if (tube === null || tube.verdict.kind !== 'identified') return false;
  return !isRow(tube, 0, certain === null ? plausibleTubes : [certain]);
}

/** The readings that are lines of the certain gas, as its own row matches them. */
function missesOfTube(tube: TubeAnalysis, substance: string): number[] {
  const row = tube.candidates.findIndex((_, at) => isRow(tube, at, [substance]));
  const matches = row < 0 ? [] : tube.candidates[row]!.matches;
  return matches.flatMap(({ index, wavelengthNm }) => {
    const { wavelengthNm: measuredNm, standardUncertaintyNm } = tube.lines[index]!;
    return measuredNm === null ? [] : [(measuredNm - wavelengthNm) / standardUncertaintyNm!];
  });
}

const FOLDS = 3;

/**
 * Every sound line measured as if it belonged to a tube: every third known line is left out, the others make the curve,
 * and what it says of those left out is compared with their wavelengths. Lines beyond the others are left alone: how
 * far a curve may be carried on is another question.
 */
function missesOfHeldOut(bench: Bench, sound: ReadonlySet<number>): number[] {
  const all = bench.known.flatMap(({ lines }) => lines).sort(byWavelength);
  const [first, last] = [all[0], all.at(-1)];
  const inner = all.filter((line) => line !== first && line !== last);
  const folds = Array.from({ length: Math.min(FOLDS, inner.length) }, (_, fold) =>
    inner.filter((_, k) => k % FOLDS === fold),
  );
  return folds.flatMap((fold) => {
    const without = {
      ...bench,
      tubes: [],
      known: bench.known.map((lamp) => ({
        ...lamp,
        lines: lamp.lines.map((line) => (fold.includes(line) ? { ...line, use: false } : line)),
      })),
    };
    const { calibration, state } = calibrate(without);
    const { origin, settingVariance } = state;
    return fold
      .filter((line) => sound.has(line.statedWavelengthNm!))
      .flatMap((line) => {
        const observation = observe(without, line.settings, origin.central);
        if (observation === null || calibration.curve === null) return [];
        const variance = readingVariance(observation, settingVariance);
        const estimate = calibration.curve.wavelengthAt(observation.ordinate, variance);
        if (estimate === null) return [];
        return [(estimate.wavelengthNm - line.statedWavelengthNm!) / estimate.standardUncertaintyNm];
      });
  });
}

function byWavelength(one: KnownBenchLine, other: KnownBenchLine): number {
  return one.statedWavelengthNm! - other.statedWavelengthNm!;
}

export interface Totals {
  readonly certain: number;
  readonly firstRight: number;
  readonly identifiedWrongly: number;
  readonly sound: number;
  readonly accused: number;
  readonly faults: number;
  readonly noticed: number;
  readonly mendable: number;
  readonly mended: number;
}

export function totalsOf(results: readonly MeasuredResult[]): Totals {
  const sum = (value: (result: MeasuredResult) => number) =>
    results.reduce((total, result) => total + value(result), 0);
  return {
    certain: sum(({ isFirstRight }) => (isFirstRight === null ? 0 : 1)),
    firstRight: sum(({ isFirstRight }) => (isFirstRight === true ? 1 : 0)),
    identifiedWrongly: sum(({ isIdentifiedWrongly }) => (isIdentifiedWrongly ? 1 : 0)),
    sound: sum(({ sound }) => sound),
    accused: sum(({ accused }) => accused.length),
    faults: sum(({ measured }) => measured.faults.length),
    noticed: sum(({ noticed }) => noticed.length),
    mendable: sum(({ measured }) => measured.faults.filter(({ meantNm }) => meantNm !== null).length),
    mended: sum(({ mended }) => mended),
  };
}

/** How many misses are within `limit` standard uncertainties. */
export function within(misses: readonly number[], limit: number): number {
  return misses.filter((miss) => Math.abs(miss) <= limit).length;
}
