/** The evidence of all readings of a tube for one candidate: averaged over everything that is not known. */
import type { TubeSpectrum } from '../lines/spectrum.ts';
import { logSum } from '../numeric/log-sum.ts';
import {
  alignmentLogRatio,
  alignmentWork,
  bestAlignment,
  compactPairings,
  type Pairings,
} from './alignment.ts';
import type { BenchView } from './bench-view.ts';
import { DensityTables } from './density-table.ts';
import type { ModelLine } from './model-lines.ts';
import { type Passage, passageOf } from './passage.ts';
import {
  type Care,
  type Resolution,
  type Scene,
  type SeenThrough,
  SpectraThrough,
} from './spectra-through.ts';
import { brightnessLog, colourLog, logUnlistedCount } from './strays.ts';
import type { UnknownReading } from './unknown-reading.ts';

/** A place where someone looked and saw nothing, in the ordinate. */
export interface LookedPlace {
  readonly ordinate: number;
  readonly reach: number;
}

/** Everything about a tube's readings that does not depend on the candidate. */
export interface Evidence {
  /** Ascending in ordinate. */
  readonly readings: readonly UnknownReading[];
  /** The readings through each view of the bench, likeliest view first. */
  readonly passages: readonly Passage[];
  readonly resolutions: readonly Resolution[];
  readonly spectra: SpectraThrough;
  readonly densities: DensityTables;
}

export function gatherEvidence(
  readings: readonly UnknownReading[],
  views: readonly BenchView[],
  resolutions: readonly Resolution[],
  looked: readonly LookedPlace[],
  complete: boolean,
): Evidence {
  return {
    readings,
    passages: views.map((view) => passageOf(view, readings)),
    resolutions,
    spectra: new SpectraThrough(looked, complete),
    densities: new DensityTables(),
  };
}

/** The same evidence with one reading moved to another ordinate (a slip mended). */
export function withReadingMoved(evidence: Evidence, position: number, correction: number): Evidence {
  const readings = evidence.readings
    .map((reading, i) => (i === position ? { ...reading, ordinate: reading.ordinate + correction } : reading))
    .sort((a, b) => a.ordinate - b.ordinate);
  const passages = evidence.passages.map(({ view, densities }) => passageOf(view, readings, densities));
  return { ...evidence, readings, passages };
}

/** One set of assumptions under which an alignment was summed. */
export interface Assumption {
  readonly passage: Passage;
  readonly seen: SeenThrough;
  readonly node: readonly number[];
  readonly scene: Scene;
}

export interface CandidateEvidence {
  /** ln of the evidence: density of all readings in the ordinate's unit. */
  readonly log: number;
  readonly best: Assumption | null;
  /** ln weight of each way of looking, for chances averaged over them. */
  readonly lookingLogs: readonly number[];
}

const work = alignmentWork();

/** `passages` and `resolutions`: all of the evidence's, or fewer for a quick look; `care`: how many ways of looking. */
export function candidateEvidence(
  tube: TubeSpectrum,
  evidence: Evidence,
  passages: readonly Passage[] = evidence.passages,
  resolutions: readonly Resolution[] = evidence.resolutions,
  care: Care = 'full',
): CandidateEvidence {
  const ways = evidence.spectra.ways;
  const logs: number[][] = ways.map(() => []);
  let best: Assumption | null = null;
  let highest = Number.NEGATIVE_INFINITY;
  for (const passage of passages) {
    for (const resolution of resolutions) {
      const seen = evidence.spectra.through(tube, passage.view, resolution);
      for (const { node, pairings } of likelyNodes(seen, evidence, passage)) {
        const base = passage.logAllStray + passage.view.logWeight + resolution.logWeight + node.logWeight;
        for (const scene of seen.scenes(care)) {
          const log = base + scene.logAllMissed + alignmentLogRatio(pairings, scene.odds, work);
          logs[scene.way]!.push(log);
          if (log > highest) {
            highest = log;
            best = { passage, seen, node: node.z, scene };
          }
        }
      }
    }
  }
  const lookingLogs = logs.map((list) => logSum(list));
  return { log: logSum(lookingLogs), best, lookingLogs };
}

/** Nodes this far behind the best one, in ln, are left out. */
const NEGLIGIBLE_NODE = 7;
/** Of the scenes of a glance, the one of ordinary tubes down to lines of middling brightness. */
const MIDDLE_OF_GLANCE = 1;

/** The places of the common error that matter for a tube, judged by one way of looking that is in the middle of all. */
function likelyNodes(
  { lines, scenes }: SeenThrough,
  evidence: Evidence,
  passage: Passage,
): { node: BenchView['common']['nodes'][number]; pairings: Pairings }[] {
  const typical = scenes('glance')[MIDDLE_OF_GLANCE]!;
  const judged = passage.view.common.nodes.map((node) => {
    const pairings = pairingsAt(lines, evidence, passage, node.z);
    return { node, pairings, log: node.logWeight + alignmentLogRatio(pairings, typical.odds, work) };
  });
  const best = judged.reduce((most, { log }) => Math.max(most, log), Number.NEGATIVE_INFINITY);
  return judged.filter(({ log }) => log > best - NEGLIGIBLE_NODE);
}

/** The place of a line at a node of the common error. */
export function placeAt(line: ModelLine, node: readonly number[]): number {
  let place = line.ordinate;
  for (let k = 0; k < node.length; k += 1) place += node[k]! * line.modes[k]!;
  return place;
}

/** Buffers of one pass, used again and again: this is the innermost loop of the program. */
const buffers = { line: new Int32Array(1024), ratio: new Float64Array(1024), place: new Float64Array(256) };

function pairingsAt(
  lines: readonly ModelLine[],
  evidence: Evidence,
  passage: Passage,
  node: readonly number[],
): Pairings {
  const { readings, densities, spectra } = evidence;
  if (buffers.place.length < lines.length) buffers.place = new Float64Array(2 * lines.length);
  const { place } = buffers;
  for (let j = 0; j < lines.length; j += 1) place[j] = placeAt(lines[j]!, node);
  const widest = spectra.widest(lines);
  const start = new Int32Array(readings.length + 1);
  let first = 0;
  let count = 0;
  for (let i = 0; i < readings.length; i += 1) {
    const reading = readings[i]!;
    const stray = passage.densities.get(reading)!;
    const row = densities.row(reading);
    const { reach } = row.table(widest);
    while (first < lines.length && place[first]! < reading.ordinate - reach) first += 1;
    for (let j = first; j < lines.length && place[j]! - reading.ordinate <= reach; j += 1) {
      const line = lines[j]!;
      const density = row.table(line.varianceClass).at(reading.ordinate - place[j]!);
      if (density <= 0) continue;
      if (count === buffers.line.length) growBuffers();
      buffers.line[count] = j;
      buffers.ratio[count] = (density * notesFactor(reading, line)) / stray;
      count += 1;
    }
    start[i + 1] = count;
  }
  return compactPairings(start, buffers.line.slice(0, count), buffers.ratio.slice(0, count));
}

function growBuffers(): void {
  const line = new Int32Array(2 * buffers.line.length);
  line.set(buffers.line);
  const ratio = new Float64Array(2 * buffers.ratio.length);
  ratio.set(buffers.ratio);
  buffers.line = line;
  buffers.ratio = ratio;
}

function notesFactor({ line }: UnknownReading, { wavelengthNm, prominence }: ModelLine): number {
  if (line.colour === null && line.brightness === null) return 1;
  return Math.exp(colourLog(line, wavelengthNm) + brightnessLog(line, prominence));
}

/** For each reading (ascending ordinate) the line of the best alignment under an assumption, or null. */
export function matchedLines(
  evidence: Evidence,
  { passage, seen, node, scene }: Assumption,
): (ModelLine | null)[] {
  const pairings = pairingsAt(seen.lines, evidence, passage, node);
  return bestAlignment(pairings, scene.odds).map((line) => (line === null ? null : seen.lines[line]!));
}

/** ln evidence of a tube that is not listed: lines anywhere in the visible. */
export function unlistedEvidence(evidence: Evidence): number {
  const count = evidence.readings.length;
  let logOrders = 0;
  for (let k = 2; k <= count; k += 1) logOrders += Math.log(k);
  return logSum(
    evidence.passages.map(
      ({ view, logAllAnywhere }) => view.logWeight + logAllAnywhere + logOrders + logUnlistedCount(count),
    ),
  );
}
