/**
 * A bench that was moved between two of its known lamps. The lines of the later ones are shifted against the central
 * image of the earlier; counted from the central image as it then stood, all of them lie on one curve.
 */
import { inverse, Matrix } from 'ml-matrix';
import { logSum, normalised } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import { sumOf } from '../numeric/sum.ts';
import { bilinear } from '../numeric/symmetric.ts';
import { PUT_BACK } from '../observe/assumptions.ts';
import type { BenchConstants } from '../observe/bench-constants.ts';
import { lampMoveLog, type MoveSize, moveSize } from '../observe/bench-move.ts';
import { moveAmongCentrals } from '../observe/moved-centrals.ts';
import { apartOrigins, isMoved, lampOrigin, withMove } from '../observe/origin.ts';
import { readingVariance } from '../observe/reading-variance.ts';
import { type ScatterPrior, usualScatter } from '../observe/setting-scatter.ts';
import type { Bench, LampMove } from '../record/bench.ts';
import { explainKnownLines } from './assign/assign-lines.ts';
import type { KnownReading, WeighedExplanation } from './assign/known-reading.ts';
import { isFault } from './assign/line-hypotheses.ts';
import { type Explained, everythingFits, explained } from './assign/weigh-assignment.ts';
import { MOVED_LAMPS, NEGLIGIBLE_EXPLANATION, OTHER_LAMPS } from './assumptions.ts';
import { calibrationCurve } from './curve/calibration-curve.ts';
import { type GaussianConstants, predicted } from './curve/gaussian-curve.ts';
import { type CurvePosterior, mixedConstants } from './curve/posterior.ts';
import { spectrumLength } from './curve/spectrum-length.ts';
import { knownReadings } from './known-readings.ts';

/** One way to understand the known lines, with the move of the bench that it takes for granted. */
export interface BenchExplanation extends WeighedExplanation {
  readonly move: LampMove | null;
  /**
   * The same curve for readings that were made after the move and share the record's central image: what they share
   * with the later lamps is no error of theirs, and the uncertainty of the move may be.
   */
  readonly now: GaussianConstants;
}

/** What all hypotheses of one bench have in common. */
interface Task {
  /** Without a move. */
  readonly bench: Bench;
  readonly readings: readonly KnownReading[];
  readonly constants: BenchConstants;
  readonly scatter: ScatterPrior;
  /** How many of the central readings were made before the move; null: as they say themselves. */
  readonly centralsBefore: number | null;
}

/**
 * `still`: explanations of the readings as they stand, best first; `centralsBefore`: see `Task`. With them those that
 * take a move between two lamps for granted where one is to be seen; best first again, probabilities summing to 1.
 */
export function withLampMoves(
  bench: Bench,
  readings: readonly KnownReading[],
  constants: BenchConstants,
  scatter: ScatterPrior,
  still: readonly WeighedExplanation[],
  centralsBefore: number | null = null,
): BenchExplanation[] {
  const task = { bench, readings, constants, scatter, centralsBefore };
  const asRead = still.map((each) => ({ ...each, move: null, now: each.posterior.constants }));
  if (!isWorthALook(task, still)) return asRead;
  const last = bench.known.length - 1;
  const moved = bench.known.slice(1).flatMap((_, before) => {
    const lampIndex = before + 1;
    // The bench stayed where it was moved to, or was put back for the next lamp.
    const places =
      lampIndex === last ? [{ lampIndex }] : [{ lampIndex }, { lampIndex, until: lampIndex + 1 }];
    return places.flatMap((place) => {
      const found = moveAt(task, place);
      return found === null ? [] : explainedWith(task, found);
    });
  });
  if (moved.length === 0) return asRead;
  const sorted = [...asRead, ...moved].sort((a, b) => b.log - a.log);
  const kept = sorted.filter(({ log }) => log > sorted[0]!.log + Math.log(NEGLIGIBLE_EXPLANATION));
  const weights = normalised(kept.map(({ log }) => log));
  return kept.map((explanation, i) => ({ ...explanation, probability: weights[i]! }));
}

/** Each lamp more is a search more: beyond some no move is looked for. */
export function areTooMany({ known }: Bench, readings: number): boolean {
  return known.length > MOVED_LAMPS.mostLamps || readings > OTHER_LAMPS.mostReadings;
}

function isWorthALook({ bench, readings }: Task, [best]: readonly WeighedExplanation[]): boolean {
  if (areTooMany(bench, readings.length)) return false;
  const isSound =
    best !== undefined &&
    !best.choices.some(isFault) &&
    best.lampTakenFor.every((lamp) => lamp === null) &&
    everythingFits(readings, best, usualScatter(bench) ** 2);
  return !isSound;
}

/** Between which lamps. */
type Place = Pick<LampMove, 'lampIndex' | 'until'>;

/** A move of the readings, as the stated lines show it. */
interface FoundMove extends Place, Pick<LampMove, 'shift' | 'u'> {
  readonly size: MoveSize;
}

/** The move there that suits the stated lines best; null where none is to be seen. */
function moveAt({ bench, readings, constants, scatter }: Task, place: Place): FoundMove | null {
  const earlier = readings.filter(({ line }) => !isMoved(place, line.lampIndex));
  const later = readings.filter(({ line }) => isMoved(place, line.lampIndex));
  // The curve is learned from the richer part, but not from lines that a move throws apart.
  const areAlike = new Set(later.map(({ observation }) => observation.side)).size < 2;
  const isOfLater = areAlike && later.length >= earlier.length;
  const [rich, poor] = isOfLater ? [later, earlier] : [earlier, later];
  const posterior = explainKnownLines(bench, rich, constants, scatter)[0]?.posterior;
  const stated = poor.filter(({ line }) => line.statedWavelengthNm !== null);
  // With a curve that is moved as the later lines are, the earlier ones lie off it by what those are moved.
  const [ofLater] = later;
  const movedAlike = isOfLater && ofLater !== undefined ? -gainOf(ofLater) : null;
  const offset = posterior === undefined ? null : commonOffset(stated, posterior, movedAlike);
  if (posterior === undefined || offset === null) return null;
  if (Math.abs(offset.value) < MOVED_LAMPS.smallest * offset.u) return null;
  const nm = rich.flatMap(({ line }) => line.statedWavelengthNm ?? []);
  const curve = calibrationCurve(
    posterior.basis,
    posterior.constants,
    [Math.min(...nm), Math.max(...nm)],
    'arcmin',
  );
  if (nm.length === 0 || curve === null) return null;
  return { ...place, shift: offset.value, u: offset.u, size: moveSize(bench, spectrumLength(curve)) };
}

/** How the ordinate of a reading changes where all its raw readings are moved by one unit: 0 where both sides are read. */
const gainOf = ({ observation }: KnownReading): number => sumOf(observation.parts, ({ weight }) => weight);

/**
 * The move of the raw readings that puts some lines off a curve that knows nothing of them: generalized least squares,
 * without lines far off the others. `movedAlike`: how much of it each of them shows; null: as much as it feels itself.
 * Null where too few show any.
 */
function commonOffset(
  readings: readonly KnownReading[],
  { basis, constants, settingVariance }: CurvePosterior,
  movedAlike: number | null,
): { value: number; u: number } | null {
  const places = readings.flatMap((reading) => {
    const gain = movedAlike ?? gainOf(reading);
    if (Math.abs(gain) < MOVED_LAMPS.leastGain) return [];
    const f = basis.at(reading.line.statedWavelengthNm!);
    const off = (reading.observation.ordinate - predicted(constants, f).ordinate) / gain;
    return [
      {
        f: f.map((value) => value / gain),
        off,
        own: readingVariance(reading.observation, settingVariance) / gain ** 2,
      },
    ];
  });
  if (places.length < MOVED_LAMPS.fewest) return null;
  const sorted = places.map(({ off }) => off).sort((a, b) => a - b);
  const median = sorted[sorted.length >> 1]!;
  const covarianceOf = (one: readonly number[], other: readonly number[]): number =>
    bilinear(one, constants.covariance, other, basis.size);
  const kept = places.filter(
    ({ f, off, own }) => Math.abs(off - median) < MOVED_LAMPS.alike * Math.sqrt(own + covarianceOf(f, f)),
  );
  if (kept.length < MOVED_LAMPS.fewest) return null;
  const covariance = kept.map((one, i) =>
    kept.map((other, j) => (i === j ? one.own : 0) + covarianceOf(one.f, other.f)),
  );
  const weights = inverse(new Matrix(covariance))
    .to2DArray()
    .map((row) => sumOf(row, (value) => value));
  const total = sumOf(weights, (value) => value);
  return { value: sumOf(kept, ({ off }, i) => weights[i]! * off) / total, u: Math.sqrt(1 / total) };
}

/** The explanations of the readings with the move allowed for, its size integrated over. */
function explainedWith(task: Task, found: FoundMove): BenchExplanation[] {
  const { bench, constants, scatter } = task;
  const { size, ...what } = found;
  const settingVariance = usualScatter(bench) ** 2;
  const knowledge = { constants, settingVariance };
  const putBack = found.until === undefined ? 0 : Math.log(PUT_BACK);
  const { log, ...among } = moveAmongCentrals(bench, found, knowledge, task.centralsBefore);
  const move = { ...what, ...among };
  // A move and another lamp at once: one of the two is asked for to make up for what the other is not.
  return explainKnownLines(bench, knownReadings(withMove(bench, move)), constants, scatter)
    .filter(({ lampTakenFor }) => lampTakenFor.every((lamp) => lamp === null))
    .slice(0, MOVED_LAMPS.mostExplanations)
    .flatMap((explanation) => integrated(task, explanation, move, size) ?? [])
    .map((explanation) => ({ ...explanation, log: explanation.log + log + putBack }));
}

/** Nodes and weights of the Gauss-Hermite formula of three points, in standard deviations of a normal distribution. */
const NODES = [
  { z: 0, weight: 2 / 3 },
  { z: -Math.sqrt(3), weight: 1 / 6 },
  { z: Math.sqrt(3), weight: 1 / 6 },
];

/** One assignment of the lines, averaged over how large the move may be; null where it does not hold for all of that. */
function integrated(
  { bench, scatter }: Task,
  explanation: WeighedExplanation,
  move: LampMove,
  size: MoveSize,
): BenchExplanation | null {
  const { choices, lampTakenFor } = explanation;
  const at = (shift: number): Explained | null => {
    const readings = knownReadings(withMove(bench, { ...move, shift }));
    return explained(bench, readings, { choices, lampTakenFor, logPrior: 0 }, scatter);
  };
  const place = bestPlace(at, move);
  if (place === null) return null;
  const nodes = NODES.flatMap(({ z, weight }) => {
    const shift = place.shift + z * place.u;
    const found = at(shift);
    const logDensity = logNormalDensity(shift - place.shift, place.u ** 2);
    return found === null
      ? []
      : [{ shift, found, log: found.log + Math.log(weight) - logDensity + lampMoveLog(shift, size) }];
  });
  if (nodes.length < NODES.length) return null;
  const weights = normalised(nodes.map(({ log }) => log));
  // Heaviest at an end: there is no such hill, and value and u would be those of the formula.
  if (weights[0]! < Math.max(weights[1]!, weights[2]!)) return null;
  const shift = sumOf(nodes, (node, i) => weights[i]! * node.shift);
  const u = Math.sqrt(sumOf(nodes, (node, i) => weights[i]! * (node.shift - shift) ** 2));
  const middle = at(shift);
  if (middle === null) return null;
  const moved = { ...move, shift, u };
  const constantsOf = nodes.map(({ found }) => found.posterior.constants);
  return {
    choices,
    lampTakenFor,
    points: middle.points,
    posterior: {
      ...middle.posterior,
      constants: mixedConstants(constantsOf, weights),
      settingVariance: sumOf(nodes, ({ found }, i) => weights[i]! * found.posterior.settingVariance),
    },
    now: mixedConstants(
      constantsOf.map((each, i) => countedFrom(bench, moved, { ...move, shift: nodes[i]!.shift }, each)),
      weights,
    ),
    move: moved,
    probability: explanation.probability,
    // What does not depend on the move stands in the explanation that was searched for.
    log: explanation.log - place.log + logSum(nodes.map(({ log }) => log)),
  };
}

/** Where the evidence is largest and how wide it is, from three places of a parabola; `log`: at the move that was found. */
function bestPlace(
  at: (shift: number) => Explained | null,
  { shift, u }: LampMove,
): { shift: number; u: number; log: number } | null {
  const [low, middle, high] = [shift - u, shift, shift + u].map((each) => at(each)?.log);
  if (low === undefined || middle === undefined || high === undefined) return null;
  const bend = (2 * middle - low - high) / u ** 2;
  if (!(bend > 0)) return { shift, u, log: middle };
  const step = (high - low) / (2 * u * bend);
  const most = MOVED_LAMPS.farthest * u;
  return {
    shift: shift + Math.max(-most, Math.min(most, step)),
    u: 1 / Math.sqrt(bend),
    log: middle,
  };
}

/**
 * The curve of what is read now, its ordinates counted from where one move has the central image, as another move makes it
 * with deviations that have `constants`. The first function of the basis is 1.
 */
export function countedFrom(
  bench: Bench,
  move: LampMove | null,
  other: LampMove | null,
  { mean, covariance }: GaussianConstants,
): GaussianConstants {
  const from = lampOrigin(withMove(bench, move));
  const by = from.side * apartOrigins(from, lampOrigin(withMove(bench, other)));
  return { mean: mean.with(0, mean[0]! + by), covariance };
}
