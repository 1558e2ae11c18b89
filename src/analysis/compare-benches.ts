/**
 * Two records side by side: the station then and now, known lines read in both, and two partners' readings of one
 * tube with the wavelengths that follow from both.
 */
import { isSameLine } from '../lines/same-line.ts';
import { plainLabel } from '../record/plain-label.ts';
import { SIGNIFICANT } from './assumptions.ts';
import { checkStation, type Difference, isSignificant, type StationCheck } from './station-check.ts';
import type { Analysis, ToldCalibrationLine, TubeAnalysis, TubeLineResult } from './types.ts';

/** Which of two readings is the one that is off; null where neither is, or nothing tells. */
export type Off = 'before' | 'now' | null;

export interface KnownDifference {
  readonly wavelengthNm: number;
  /** Ordinates: arc-minutes of deviation, or scale units. */
  readonly before: number;
  readonly now: number;
  /** Now minus before, in that unit; the uncertainty is of the two readings alone. */
  readonly difference: Difference;
  readonly off: Off;
}

export interface JointLine {
  /** Indexes of the readings in their tubes; null where only the other has the line. */
  readonly before: number | null;
  readonly now: number | null;
  /** Now minus before, nm; null where one is missing. */
  readonly differenceNm: Difference | null;
  /** Weighted mean of both, or the one there is, or that is no slip. */
  readonly wavelengthNm: number;
  readonly standardUncertaintyNm: number;
  readonly off: Off;
}

export interface TubeComparison {
  readonly before: string;
  readonly now: string;
  /** From red to violet. */
  readonly lines: readonly JointLine[];
}

export interface Comparison {
  readonly station: StationCheck;
  readonly known: readonly KnownDifference[];
  readonly tubes: readonly TubeComparison[];
}

/**
 * Compares `now` with `before`. Tubes are the same where their labels are.
 * Throws RangeError when one reads angles and the other a scale.
 */
export function compareBenches(before: Analysis, now: Analysis): Comparison {
  return {
    station: checkStation(before, now),
    known: knownDifferences(before.calibration.lines, now.calibration.lines),
    tubes: now.tubes.flatMap((tube) => {
      const partner = partnerOf(tube, before.tubes);
      return partner === undefined ? [] : [compareTubes(partner, tube)];
    }),
  };
}

/** The tube of the same label, as it stands there or in other words. */
function partnerOf({ label }: TubeAnalysis, tubes: readonly TubeAnalysis[]): TubeAnalysis | undefined {
  return (
    tubes.find((tube) => tube.label === label) ??
    tubes.find((tube) => plainLabel(tube.label) === plainLabel(label))
  );
}

function knownDifferences(
  before: readonly ToldCalibrationLine[],
  now: readonly ToldCalibrationLine[],
): KnownDifference[] {
  const found = now.flatMap((line): KnownDifference[] => {
    const { wavelengthNm } = line;
    if (wavelengthNm === null) return [];
    const other = before.find(
      (each) => each.wavelengthNm !== null && isSameLine(each.wavelengthNm, wavelengthNm),
    );
    const difference = other === undefined ? null : differenceOf(other, line);
    if (other === undefined || difference === null) return [];
    const off = offOne(sigmasOf(other), sigmasOf(line));
    return [{ wavelengthNm, before: other.ordinate!, now: line.ordinate!, difference, off }];
  });
  return found.sort((a, b) => b.wavelengthNm - a.wavelengthNm);
}

function differenceOf(before: ToldCalibrationLine, now: ToldCalibrationLine): Difference | null {
  if (before.ordinate === null || now.ordinate === null) return null;
  const standardUncertainty = Math.hypot(before.standardUncertainty ?? 0, now.standardUncertainty ?? 0);
  return { value: now.ordinate - before.ordinate, standardUncertainty };
}

function sigmasOf({ residual, standardUncertainty }: ToldCalibrationLine): number {
  return Math.abs(residual ?? 0) / (standardUncertainty ?? Number.POSITIVE_INFINITY);
}

/** The one further off its line, if it is off at all. */
function offOne(before: number, now: number): Off {
  if (Math.max(before, now) < SIGNIFICANT) return null;
  return before > now ? 'before' : 'now';
}

interface Measured {
  readonly line: TubeLineResult;
  readonly nm: number;
  readonly u: number;
  /** Where it belongs: of a slip the line that it is taken for once undone, nm. */
  readonly place: number;
  /** How far it lies from its line, in standard uncertainties: of a slip surely, of a reading without a line enough to be seen. */
  readonly sigmas: number;
}

function compareTubes(before: TubeAnalysis, now: TubeAnalysis): TubeComparison {
  const [olds, news] = [measuredLines(before), measuredLines(now)];
  const pairs = samePairs(olds, news);
  const paired = new Set(pairs.flat());
  const lines = [
    ...pairs.map(([old, fresh]) => joint(old, fresh)),
    ...olds.filter((old) => !paired.has(old)).map((old) => alone(old, 'before')),
    ...news.filter((fresh) => !paired.has(fresh)).map((fresh) => alone(fresh, 'now')),
  ];
  lines.sort((a, b) => b.wavelengthNm - a.wavelengthNm);
  return { before: before.label, now: now.label, lines };
}

/** Readings of one and the same line: the nearest first, as far as the uncertainties, and a slip, allow. */
function samePairs(olds: readonly Measured[], news: readonly Measured[]): (readonly [Measured, Measured])[] {
  const near = olds
    .flatMap((old) =>
      news.map((fresh) => ({
        old,
        fresh,
        off: Math.abs(old.place - fresh.place) / Math.hypot(old.u, fresh.u),
      })),
    )
    .filter(({ off }) => off < 2 * SIGNIFICANT)
    .sort((a, b) => a.off - b.off);
  const pairs: (readonly [Measured, Measured])[] = [];
  for (const { old, fresh } of near) {
    if (!pairs.some((pair) => pair[0] === old || pair[1] === fresh)) pairs.push([old, fresh]);
  }
  return pairs;
}

function measuredLines(tube: TubeAnalysis): Measured[] {
  return tube.lines.flatMap((line) => {
    const { wavelengthNm: nm, standardUncertaintyNm: u } = line;
    if (nm === null || u === null) return [];
    const match = tube.candidates[0]?.matches.find(({ index }) => index === line.index);
    if (line.status === 'slip')
      return [{ line, nm, u, place: match?.wavelengthNm ?? nm, sigmas: Number.POSITIVE_INFINITY }];
    return [{ line, nm, u, place: nm, sigmas: Math.abs(match?.residualSigma ?? SIGNIFICANT) }];
  });
}

function alone({ line, nm, u }: Measured, whose: 'before' | 'now'): JointLine {
  return {
    before: whose === 'before' ? line.index : null,
    now: whose === 'now' ? line.index : null,
    differenceNm: null,
    wavelengthNm: nm,
    standardUncertaintyNm: u,
    off: line.status === 'slip' ? whose : null,
  };
}

/** Weighted by 1/u² (GUM 5.1; the two calibrations are independent of each other). */
function joint(before: Measured, now: Measured): JointLine {
  const weights = [1 / before.u ** 2, 1 / now.u ** 2] as const;
  const total = weights[0] + weights[1];
  const difference = { value: now.nm - before.nm, standardUncertainty: Math.hypot(before.u, now.u) };
  const further = before.sigmas > now.sigmas ? 'before' : 'now';
  const off = isSignificant(difference) && before.sigmas !== now.sigmas ? further : null;
  // A slip has no say in the wavelength of the line.
  const slipped = [before, now].filter(({ line }) => line.status === 'slip');
  const [good] = slipped.length === 1 ? [before, now].filter((each) => !slipped.includes(each)) : [];
  return {
    before: before.line.index,
    now: now.line.index,
    differenceNm: difference,
    wavelengthNm: good?.nm ?? (weights[0] * before.nm + weights[1] * now.nm) / total,
    standardUncertaintyNm: good?.u ?? 1 / Math.sqrt(total),
    off,
  };
}
