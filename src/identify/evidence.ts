/** The evidence of all readings of a tube for one candidate: averaged over everything that is not known. */
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { logSum } from '../numeric/log-sum.ts';
import { alignmentLogRatio, bestAlignment, type Pairing } from './alignment.ts';
import { type BenchView, nearestWavelength } from './bench-view.ts';
import { type ModelLine, mergedLines, placedLines } from './model-lines.ts';
import {
  brightnessLog,
  colourLog,
  logUnlistedCount,
  strayDensityPerNm,
  visibleDensityPerNm,
} from './strays.ts';
import { readingDensity, readingReach, type UnknownReading } from './unknown-reading.ts';
import { chanceSeen, chanceSeenLooking, type FaintnessLimit, faintnessLimits } from './visibility.ts';

/** A place where someone looked and saw nothing, in the ordinate. */
export interface LookedPlace {
  readonly ordinate: number;
  readonly reach: number;
}

export interface Resolution {
  /** Lines closer than this are read as one; unit of the ordinate. */
  readonly size: number;
  readonly logWeight: number;
}

/** Everything about a tube's readings that does not depend on the candidate. */
export interface Evidence {
  readonly readings: readonly UnknownReading[];
  readonly looked: readonly LookedPlace[];
  readonly complete: boolean;
  readonly views: readonly BenchView[];
  readonly resolutions: readonly Resolution[];
}

/** One set of assumptions under which an alignment was summed, and its weight. */
export interface Assumption {
  readonly view: BenchView;
  readonly lines: readonly ModelLine[];
  readonly node: readonly number[];
  readonly limit: FaintnessLimit;
  readonly shown: boolean;
  /** ln weight, alignment included. */
  readonly log: number;
}

export interface CandidateEvidence {
  /** ln of the evidence: density of all readings in the ordinate's unit. */
  readonly log: number;
  readonly best: Assumption | null;
  /** ln weights of the faintness limits, for chances averaged over them. */
  readonly limitLogs: ReadonlyMap<number, number>;
}

/** Chance that a tube shows the lines which an ordinary one may well lack. */
const SHOWN = 0.35;

/** `readings` in ascending order of ordinate. */
export function candidateEvidence(
  tube: TubeSpectrum,
  evidence: Evidence,
  views: readonly BenchView[] = evidence.views,
  resolutions: readonly Resolution[] = evidence.resolutions,
): CandidateEvidence {
  const limits = faintnessLimits(evidence.complete);
  const logs: number[] = [];
  const limitLogs = new Map<number, number[]>();
  let best: Assumption | null = null;
  for (const view of views) {
    const strays = evidence.readings.map((reading) => strayDensity(view, reading));
    const logAllStray = strays.reduce((sum, density) => sum + Math.log(density), 0);
    const placed = placedLines(tube, view);
    const optional = placed.some((line) => !line.expected && line.prominence > -3);
    for (const resolution of resolutions) {
      const lines = mergedLines(placed, resolution.size);
      const scenes = (optional ? [true, false] : [true]).flatMap((shown) =>
        limits.map((limit) => scene(lines, evidence, limit, shown, optional)),
      );
      const work = new Float64Array(lines.length);
      for (const node of view.common.nodes) {
        const pairings = pairingsAt(lines, evidence.readings, strays, node.z);
        for (const { odds, logAllMissed, limit, shown } of scenes) {
          const log =
            logAllStray +
            view.logWeight +
            resolution.logWeight +
            node.logWeight +
            logAllMissed +
            alignmentLogRatio(pairings, odds, work);
          logs.push(log);
          const list = limitLogs.get(limit.prominence);
          if (list) list.push(log);
          else limitLogs.set(limit.prominence, [log]);
          if (best === null || log > best.log) best = { view, lines, node: node.z, limit, shown, log };
        }
      }
    }
  }
  return {
    log: logSum(logs),
    best,
    limitLogs: new Map([...limitLogs].map(([limit, list]) => [limit, logSum(list)])),
  };
}

interface Scene {
  readonly odds: Float64Array;
  readonly logAllMissed: number;
  readonly limit: FaintnessLimit;
  readonly shown: boolean;
}

/** Chances of all lines for one faintness limit; `logAllMissed` carries the prior weight too. */
function scene(
  lines: readonly ModelLine[],
  evidence: Evidence,
  limit: FaintnessLimit,
  shown: boolean,
  optional: boolean,
): Scene {
  const odds = new Float64Array(lines.length);
  let logAllMissed = Math.log(limit.weight) + (optional ? Math.log(shown ? SHOWN : 1 - SHOWN) : 0);
  lines.forEach((line, j) => {
    const present = shown || line.expected;
    let seen = chanceSeen(line.prominence, limit.prominence, evidence.complete, present);
    let missed = 1 - seen;
    for (const place of evidence.looked) {
      if (Math.abs(place.ordinate - line.ordinate) > place.reach) continue;
      // Someone looked here on purpose and saw nothing.
      missed *= 1 - (present ? chanceSeenLooking(line.prominence, limit.prominence) : 0);
      seen *= 0.1;
    }
    odds[j] = seen / missed;
    logAllMissed += Math.log(missed);
  });
  return { odds, logAllMissed, limit, shown };
}

function strayDensity(view: BenchView, reading: UnknownReading): number {
  const nm = nearestWavelength(view.curve, reading.ordinate - view.shift);
  const slope = Math.abs(view.curve.slopeAt(nm));
  const uNm = Math.sqrt(reading.totalVariance) / slope;
  return Math.max((strayDensityPerNm(nm, uNm) / slope) * Math.exp(colourLog(reading.line, nm)), 1e-12);
}

/** ln evidence of a tube that is not listed: lines anywhere in the visible. */
export function unlistedEvidence(evidence: Evidence): number {
  const count = evidence.readings.length;
  let logOrders = 0;
  for (let k = 2; k <= count; k += 1) logOrders += Math.log(k);
  return logSum(
    evidence.views.map((view) =>
      evidence.readings.reduce(
        (sum, reading) => {
          const nm = nearestWavelength(view.curve, reading.ordinate - view.shift);
          const density = visibleDensityPerNm(nm) / Math.abs(view.curve.slopeAt(nm));
          return sum + Math.log(Math.max(density, 1e-12)) + colourLog(reading.line, nm);
        },
        view.logWeight + logOrders + logUnlistedCount(count),
      ),
    ),
  );
}

function pairingsAt(
  lines: readonly ModelLine[],
  readings: readonly UnknownReading[],
  strays: readonly number[],
  node: readonly number[],
): Pairing[][] {
  return readings.map((reading, i) => {
    const pairs: Pairing[] = [];
    for (let j = 0; j < lines.length; j += 1) {
      const line = lines[j]!;
      let place = line.ordinate;
      for (let k = 0; k < node.length; k += 1) place += node[k]! * line.modes[k]!;
      const off = reading.ordinate - place;
      if (Math.abs(off) > readingReach(reading, line.variance)) continue;
      const density = readingDensity(reading, off, line.variance);
      const notes = colourLog(reading.line, line.wavelengthNm) + brightnessLog(reading.line, line.prominence);
      pairs.push({ line: j, ratio: (density * Math.exp(notes)) / strays[i]! });
    }
    return pairs;
  });
}

/** For each reading (ascending ordinate) the line of the best alignment under an assumption, or null. */
export function matchedLines(evidence: Evidence, assumption: Assumption): (ModelLine | null)[] {
  const { view, lines, node, limit, shown } = assumption;
  const strays = evidence.readings.map((reading) => strayDensity(view, reading));
  const pairings = pairingsAt(lines, evidence.readings, strays, node);
  const { odds } = scene(lines, evidence, limit, shown, false);
  return bestAlignment(pairings, odds).map((line) => (line === null ? null : lines[line]!));
}
