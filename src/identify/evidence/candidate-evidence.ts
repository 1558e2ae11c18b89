/** The evidence of all readings of a tube for one candidate: averaged over everything that is not known. */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { logSum } from '../../numeric/log-sum.ts';
import { remembered } from '../../numeric/remembered.ts';
import {
  COARSE_STEP,
  MIDDLE_WAY,
  NEGLIGIBLE_DETECTION,
  NEGLIGIBLE_NODE,
  NEGLIGIBLE_STRENGTH,
} from '../assumptions.ts';
import type { BenchView } from '../bench/bench-hypothesis.ts';
import type { LookedPlace } from '../bench/looked-places.ts';
import type { UnknownReading } from '../bench/unknown-reading.ts';
import type { ModelLine } from '../spectrum/expected-lines.ts';
import { logUnlistedCount } from '../spectrum/outlier-readings.ts';
import {
  type DetectionModel,
  type Resolution,
  type SeenThrough,
  SpectraThrough,
} from '../spectrum/spectra-through.ts';
import {
  alignmentLogRatio,
  alignmentWork,
  anyOrderLogGain,
  bestAlignment,
  keptPairings,
  PairingList,
  type Pairings,
} from './alignment.ts';
import { DensityTables } from './density-table.ts';
import { PairingsOfView } from './pairings.ts';
import { type ReadingLikelihoods, readingLikelihoods } from './reading-likelihood.ts';
import type { WorkAllowance } from './work-allowance.ts';

/** Everything about a tube's readings that does not depend on the candidate. */
export interface Evidence {
  /** Ascending in ordinate. */
  readonly readings: readonly UnknownReading[];
  /** The readings through each view of the bench, likeliest view first. */
  readonly allLikelihoods: readonly ReadingLikelihoods[];
  readonly resolutions: readonly Resolution[];
  readonly spectra: SpectraThrough;
  readonly densities: DensityTables;
  /** Space to collect pairs in. */
  readonly pairingList: PairingList;
  /** What was found already, kept where the same is asked again: with every way of looking, beside further views. */
  readonly kept: Map<ReadingLikelihoods, Map<SeenThrough, Kept>> | null;
  /** What may still be computed; shared with everything derived from this evidence. */
  readonly allowance: WorkAllowance;
}

/**
 * What tubes are weighed by. `readings` sorted by ordinate; `views` and `resolutions` likeliest first;
 * `complete`: all that could be seen is written down.
 */
export function gatherEvidence(
  readings: readonly UnknownReading[],
  views: readonly BenchView[],
  resolutions: readonly Resolution[],
  looked: readonly LookedPlace[],
  complete: boolean,
  allowance: WorkAllowance,
): Evidence {
  return {
    readings,
    allLikelihoods: views.map((view) => readingLikelihoods(view, readings)),
    resolutions,
    spectra: new SpectraThrough(looked, readings, complete),
    densities: new DensityTables(),
    pairingList: new PairingList(),
    kept: new Map(),
    allowance,
  };
}

/** The same evidence with further views of the bench. */
export function withViews(evidence: Evidence, views: readonly BenchView[]): Evidence {
  const further = views.map((view) => readingLikelihoods(view, evidence.readings));
  return { ...evidence, allLikelihoods: [...evidence.allLikelihoods, ...further] };
}

/** What the densities of a moved reading cost through one view, in steps of a sum over alignments (measured). */
const COST_OF_DENSITIES = 150;

/** The same evidence with one reading moved to another ordinate (a slip corrected). */
export function withReadingMoved(evidence: Evidence, position: number, correction: number): Evidence {
  const readings = evidence.readings
    .map((reading, i) => (i === position ? { ...reading, ordinate: reading.ordinate + correction } : reading))
    .sort((a, b) => a.ordinate - b.ordinate);
  const allLikelihoods = evidence.allLikelihoods.map(({ view, densities }) =>
    readingLikelihoods(view, readings, densities),
  );
  evidence.allowance.spend(allLikelihoods.length * (readings.length + COST_OF_DENSITIES));
  // By their names: a copy with parts put in place of others is several times as slow.
  const { resolutions, spectra, densities, pairingList, allowance } = evidence;
  return {
    readings,
    allLikelihoods,
    resolutions,
    spectra,
    densities,
    pairingList,
    kept: null,
    allowance,
  };
}

/** One set of assumptions under which an alignment was summed. */
export interface Assumption {
  readonly likelihoods: ReadingLikelihoods;
  readonly seen: SeenThrough;
  readonly node: readonly number[];
  readonly detection: DetectionModel;
}

export interface CandidateEvidence {
  /** ln of the evidence: density of all readings in the ordinate's unit. */
  readonly log: number;
  readonly best: Assumption | null;
  /** ln weight of each way of looking, for chances averaged over them. */
  readonly lookingLogs: readonly number[];
  /** Part of the evidence that a bench moved between lamp and tube accounts for, 0 to 1. */
  readonly movedShare: number;
}

/** Every way of looking, or a few of them that stand for all. */
export type Detail = 'full' | 'coarse';

const work = alignmentWork();

/** What the sum over all orders costs, in sums over alignments (measured). */
const COST_OF_ANY_ORDER = 20;

/** `allLikelihoods` and `resolutions`: all of the evidence's, or fewer for a quick look; `detail`: how many ways of looking. */
export function candidateEvidence(
  tube: TubeSpectrum,
  evidence: Evidence,
  allLikelihoods: readonly ReadingLikelihoods[] = evidence.allLikelihoods,
  resolutions: readonly Resolution[] = evidence.resolutions,
  detail: Detail = 'full',
): CandidateEvidence {
  const logs: number[][] = evidence.spectra.ways.map(() => []);
  let best: Assumption | null = null;
  let highest = Number.NEGATIVE_INFINITY;
  const moved: number[] = [];
  for (const likelihoods of allLikelihoods) {
    for (const resolution of resolutions) {
      const part = partialEvidence(tube, evidence, likelihoods, resolution, detail);
      const weight = likelihoods.logAllStray + likelihoods.view.logWeight + resolution.logWeight;
      part.lookingLogs.forEach((log, way) => {
        logs[way]!.push(weight + log);
        if (likelihoods.view.explanation === 'moved') moved.push(weight + log);
      });
      if (weight + part.highest > highest) {
        highest = weight + part.highest;
        best = part.best;
      }
    }
  }
  const lookingLogs = logs.map((list) => logSum(list));
  const log = logSum(lookingLogs);
  return { log, best, lookingLogs, movedShare: Math.min(1, Math.exp(logSum(moved) - log)) };
}

/**
 * The same for readings that may stand in another order than their lines: what that gains is found for the best
 * assumption and taken for all.
 */
export function inAnyOrder(found: CandidateEvidence, evidence: Evidence): CandidateEvidence {
  if (found.best === null) return found;
  const { likelihoods, seen, node, detection } = found.best;
  const pairings = new PairingsOfView(seen, likelihoods, evidence).at(node);
  evidence.allowance.spend(COST_OF_ANY_ORDER * stepsOf(pairings));
  const inOrder = alignmentLogRatio(pairings, detection.odds, work);
  return { ...found, log: found.log + anyOrderLogGain(pairings, detection.odds, inOrder) };
}

/** What the readings say of a tube under one view of the bench and one resolution. */
interface PartialEvidence {
  readonly lookingLogs: readonly number[];
  readonly best: Assumption | null;
  /** ln weight of the best assumption. */
  readonly highest: number;
}

interface Kept {
  readonly nodes: readonly LikelyNode[];
  readonly parts: Map<Detail, PartialEvidence>;
}

/** One summand of `candidateEvidence`. */
export function partialEvidence(
  tube: TubeSpectrum,
  evidence: Evidence,
  likelihoods: ReadingLikelihoods,
  resolution: Resolution,
  detail: Detail,
): PartialEvidence {
  const seen = evidence.spectra.through(tube, likelihoods.view, resolution);
  const { kept } = evidence;
  if (kept === null)
    return summedUp(likelyNodes(seen, evidence, likelihoods), seen, evidence, likelihoods, detail);
  const keptOfLikelihoods = remembered(kept, likelihoods, () => new Map<SeenThrough, Kept>());
  const { nodes, parts } = remembered(keptOfLikelihoods, seen, () => ({
    nodes: likelyNodes(seen, evidence, likelihoods),
    parts: new Map<Detail, PartialEvidence>(),
  }));
  return remembered(parts, detail, () => summedUp(nodes, seen, evidence, likelihoods, detail));
}

function summedUp(
  nodes: readonly LikelyNode[],
  seen: SeenThrough,
  evidence: Evidence,
  likelihoods: ReadingLikelihoods,
  detail: Detail,
): PartialEvidence {
  const logs: number[][] = evidence.spectra.ways.map(() => []);
  let best: Assumption | null = null;
  let highest = Number.NEGATIVE_INFINITY;
  const worth = detectionsWorth(seen, evidence, nodes[0]!.pairings, detail);
  const likely = likelyDetections(worth);
  for (const [place, { node, pairings }] of nodes.entries()) {
    const isFirst = place === 0;
    const detections = isFirst ? worth : likely;
    evidence.allowance.spend(stepsOf(pairings) * detections.length);
    for (const { detection, log: logAtFirst } of detections) {
      const log = node.logWeight + (isFirst ? logAtFirst : logWith(detection, pairings));
      logs[detection.way]!.push(log);
      if (log > highest) {
        highest = log;
        best = { likelihoods, seen, node: node.z, detection };
      }
    }
  }
  return { lookingLogs: logs.map((list) => logSum(list)), best, highest };
}

interface WeighedDetection {
  readonly detection: DetectionModel;
  readonly log: number;
}

const logWith = ({ logAllMissed, odds }: DetectionModel, pairings: Pairings): number =>
  logAllMissed + alignmentLogRatio(pairings, odds, work);

const weighed = (detection: DetectionModel, pairings: Pairings): WeighedDetection => ({
  detection,
  log: logWith(detection, pairings),
});

function likelyDetections(detections: readonly WeighedDetection[]): WeighedDetection[] {
  const best = detections.reduce((most, { log }) => Math.max(most, log), Number.NEGATIVE_INFINITY);
  return detections.filter(({ log }) => log > best - NEGLIGIBLE_DETECTION);
}

/** The middle way of looking for all strengths, and the others for those that it leaves likely; coarsely, not all of these. */
function detectionsWorth(
  { detections }: SeenThrough,
  { spectra }: Evidence,
  pairings: Pairings,
  detail: Detail,
): WeighedDetection[] {
  const found = Array.from({ length: detections.strengths }, (_, strength) =>
    weighed(detections.at(strength, MIDDLE_WAY), pairings),
  );
  const best = found.reduce((most, { log }) => Math.max(most, log), Number.NEGATIVE_INFINITY);
  const likely = [...found.keys()].filter((strength) => found[strength]!.log > best - NEGLIGIBLE_STRENGTH);
  const step = detail === 'coarse' ? COARSE_STEP : 1;
  for (const strength of likely)
    for (let way = 0; way < spectra.ways.length; way += step)
      if (way !== MIDDLE_WAY) found.push(weighed(detections.at(strength, way), pairings));
  return found;
}

const stepsOf = ({ readings, touched, pairs }: Pairings): number => readings + touched + pairs;

interface LikelyNode {
  readonly node: BenchView['common']['nodes'][number];
  readonly pairings: Pairings;
}

/** Ordinary strengths, and the middle way of looking. */
export function typicalDetection(seen: SeenThrough): DetectionModel {
  return seen.detections.at(0, MIDDLE_WAY);
}

/** The places of the common error that matter for a tube, judged by the middle way of looking, likeliest first. */
function likelyNodes(seen: SeenThrough, evidence: Evidence, likelihoods: ReadingLikelihoods): LikelyNode[] {
  const { odds } = typicalDetection(seen);
  const pairingsOfView = new PairingsOfView(seen, likelihoods, evidence);
  const judged: (LikelyNode & { readonly log: number })[] = [];
  let best = Number.NEGATIVE_INFINITY;
  for (const node of likelihoods.view.common.nodes) {
    const pairings = pairingsOfView.at(node.z);
    const log = node.logWeight + alignmentLogRatio(pairings, odds, work);
    if (log <= best - NEGLIGIBLE_NODE) continue;
    judged.push({ node, pairings: keptPairings(pairings), log });
    best = Math.max(best, log);
  }
  return judged.filter(({ log }) => log > best - NEGLIGIBLE_NODE).sort((a, b) => b.log - a.log);
}

/** For each reading (ascending ordinate) the line of the best alignment under an assumption, or null. */
export function matchedLines(
  evidence: Evidence,
  { likelihoods, seen, node, detection }: Assumption,
): (ModelLine | null)[] {
  const pairings = new PairingsOfView(seen, likelihoods, evidence).at(node);
  return bestAlignment(pairings, detection.odds).map((line) => (line === null ? null : seen.lines[line]!));
}

/** ln evidence of a tube that is not listed: lines anywhere in the visible. */
export function unlistedEvidence(evidence: Evidence): number {
  const count = evidence.readings.length;
  let logOrders = 0;
  for (let k = 2; k <= count; k += 1) logOrders += Math.log(k);
  return logSum(
    evidence.allLikelihoods.map(
      ({ view, logAllAnywhere }) => view.logWeight + logAllAnywhere + logOrders + logUnlistedCount(count),
    ),
  );
}
