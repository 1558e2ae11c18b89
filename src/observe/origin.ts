/**
 * THE place from which the readings of a lamp or a tube count: the central image that serves it, and the side of it on
 * which its lines lie. Whoever turns a reading into a deviation, or a deviation into a reading, asks here.
 */
import { sum } from '../numeric/sum.ts';
import type { Bench, BenchLine, KnownBenchLine, LampMove, Setting, UnknownTube } from '../record/bench.ts';
import { SCALE_ORIGIN_COUNTS } from './assumptions.ts';
import { apartArcmin, type CentralImage, centralImage, centralVariance } from './central-image.ts';
import { type Observation, observe } from './observation.ts';
import { finestStep } from './reading-step.ts';

/** +1: readings grow with the deviation, -1: they fall, 0: on both sides alike, or nothing has been read. */
export type Side = -1 | 0 | 1;

export interface Origin {
  /** Null where it was not read, and for the methods that have none. */
  readonly central: CentralImage | null;
  /** The readings that say where it is, as they were made. */
  readonly settings: readonly Setting[];
  /**
   * By how much the bench was moved after those, arc-minutes: the central image is carried along by it. `u`: what the u of
   * the move adds to the image, also by readings that were carried to where these stand.
   */
  readonly carried: { readonly arcmin: number; readonly u: number } | null;
  /** Of most lines in use. */
  readonly side: Side;
  /** Read for this tube, not for the calibration. */
  readonly isOwn: boolean;
}

/**
 * Where the known lines of a lamp count from, by its position: the central image as it stood when that lamp was read.
 * Without one, of the last lamp: where everything counts from that is read now and shares the record's central image.
 */
export function lampOrigin(bench: Bench, lampIndex = bench.known.length): Origin {
  const { moved } = bench;
  const isAfter = moved !== undefined && isMoved(moved, lampIndex);
  const central = bench.method === 'central' ? carriedCentral(bench, isAfter) : null;
  const lines = bench.known.flatMap((lamp) => lamp.lines);
  const of = { central, side: sideOf(bench, lines, central), isOwn: false };
  if (moved === undefined) return { ...of, settings: bench.central, carried: null };
  const before = bench.central.slice(0, moved.centralsBefore);
  const after = bench.central.slice(moved.centralsBefore);
  const [own, others] = isAfter ? [after, before] : [before, after];
  if (own.length > 0) {
    // The others are in the mean too, each with the error of the move.
    const part = others.length / bench.central.length;
    return { ...of, settings: own, carried: part === 0 ? null : { arcmin: 0, u: part * moved.u } };
  }
  return { ...of, settings: others, carried: { arcmin: isAfter ? moved.shift : -moved.shift, u: moved.u } };
}

/** The central image as it stood before or after the move of the bench: the readings of the other time are carried along. */
function carriedCentral(bench: Bench, isAfter: boolean): CentralImage | null {
  const { moved, central } = bench;
  if (moved === undefined) return centralImage(bench, central);
  const image = centralImage(bench, standingStill(central, moved));
  if (image === null || !isAfter) return image;
  return { ...image, windowsDeg: image.windowsDeg.map((direction) => direction + moved.shift / 60) };
}

/** Was a lamp read on the bench as it stood when it was moved? By its position; beyond the last: what is read now. */
export function isMoved(
  { lampIndex, until = Number.POSITIVE_INFINITY }: Pick<LampMove, 'lampIndex' | 'until'>,
  at: number,
): boolean {
  return at >= lampIndex && at < until;
}

/** Central readings as they would have been made before the move. */
export function standingStill(
  central: readonly Setting[],
  { shift, centralsBefore }: LampMove,
): readonly Setting[] {
  return central.map((setting, i) =>
    i < centralsBefore || setting.kind !== 'one-side'
      ? setting
      : { ...setting, windows: setting.windows.map((reading) => reading - shift / 60) },
  );
}

/** The bench with the move that its known lines show, or with none. */
export function withMove(bench: Bench, move: LampMove | null): Bench {
  if (move !== null) return { ...bench, moved: move };
  const { moved, ...still } = bench;
  return moved === undefined ? bench : still;
}

/**
 * What was read of a line when this lamp was in front of the slit (without one: after the last), from the central image as
 * it then stood; of a scale that was moved between two lamps as the scale stands after the last. Null as by `observe`.
 */
export function observeWithLamp(
  bench: Bench,
  settings: readonly Setting[],
  lampIndex = bench.known.length,
  { central }: Origin = lampOrigin(bench, lampIndex),
): Observation | null {
  const { method, moved } = bench;
  const observation = observe(bench, settings, central);
  if (observation === null || method !== 'scale' || moved === undefined) return observation;
  const [then, now] = [isMoved(moved, lampIndex), isMoved(moved, bench.known.length)];
  const by = then === now ? 0 : now ? moved.shift : -moved.shift;
  return by === 0 ? observation : { ...observation, ordinate: observation.ordinate + by };
}

/** The readings in use of a bench's known lines, each as its lamp was read; lines without an ordinate are lacking. */
export function knownObservations(bench: Bench): { line: KnownBenchLine; observation: Observation }[] {
  return bench.known.flatMap(({ lines }, lampIndex) => {
    const origin = lampOrigin(bench, lampIndex);
    return lines.flatMap((line) => {
      const observation = line.use ? observeWithLamp(bench, line.settings, lampIndex, origin) : null;
      return observation === null ? [] : [{ line, observation }];
    });
  });
}

/** Where a tube counts from: its own central readings where it has some, else `lamp`, that of the calibration. */
export function tubeOrigin(
  bench: Bench,
  tube: Pick<UnknownTube, 'lines' | 'central'>,
  lamp: Origin = lampOrigin(bench),
): Origin {
  const own = bench.method === 'central' && tube.central !== null ? centralImage(bench, tube.central) : null;
  const central = own ?? lamp.central;
  return {
    central,
    settings: own === null ? lamp.settings : tube.central!,
    carried: own === null ? lamp.carried : null,
    side: sideOf(bench, tube.lines, central),
    isOwn: own !== null,
  };
}

/** The side on which most of these lines lie, as far as they are in use. */
function sideOf(bench: Bench, lines: readonly BenchLine[], central: CentralImage | null): Side {
  if (central === null) return 0;
  return majority(
    lines.filter(({ use }) => use).map(({ settings }) => observe(bench, settings, central)?.side ?? 0),
  );
}

/** The sign that most of these have. */
function majority(sides: readonly Side[]): Side {
  return Math.sign(sum(sides)) as Side;
}

/** Which way readings go as the deviation grows: where the origin has no line yet, as others of the bench go, else upwards. */
export function directionFrom(bench: Bench, { side }: Origin): 1 | -1 {
  if (side !== 0) return side;
  const lamp = lampOrigin(bench);
  const others = [lamp, ...bench.tubes.map((tube) => tubeOrigin(bench, tube, lamp))];
  return majority(others.map((origin) => origin.side)) || 1;
}

export interface OriginShift {
  readonly shiftArcmin: number;
  readonly u: number;
  /** One count of the coarser of the two readings, as they were written down. */
  readonly stepArcmin: number;
}

/** By how much a tube's own central image differs from the calibration's, arc-minutes, with its u; null without both. */
export function originShift(lamp: Origin, tube: Origin, settingVariance: number): OriginShift | null {
  const variance = centralsVariance(lamp, tube, settingVariance);
  if (variance === null || !tube.central || !lamp.central) return null;
  return {
    shiftArcmin: apartOrigins(lamp, tube),
    u: Math.hypot(Math.sqrt(variance), lamp.carried?.u ?? 0),
    stepArcmin: Math.max(tube.central.step, lamp.central.step),
  };
}

/** By how much the central image stands further on in the one than in the other, arc-minutes; 0 where either has none. */
export function apartOrigins(from: Origin, to: Origin): number {
  return from.central && to.central ? apartArcmin(from.central.windowsDeg, to.central.windowsDeg) : 0;
}

/** Of the two readings together, arcmin²; null where the tube has none of its own. */
function centralsVariance(lamp: Origin, tube: Origin, settingVariance: number): number | null {
  if (!tube.isOwn || !tube.central || !lamp.central) return null;
  return centralVariance(tube.central, settingVariance) + centralVariance(lamp.central, settingVariance);
}

/**
 * Variance of what all readings of a tube share against the calibration, unit²: two readings of the central image
 * where there are two; of one that is shared nothing on the same side of it, and twice its error on the other; on a
 * scale, which has no central image to be read again, what another lamp before the slit and the play of the drum make.
 */
export function originVariance(bench: Bench, lamp: Origin, tube: Origin, settingVariance: number): number {
  if (bench.method === 'scale') return (SCALE_ORIGIN_COUNTS * finestStep(bench)) ** 2;
  const ofTwo = centralsVariance(lamp, tube, settingVariance);
  if (ofTwo !== null) return ofTwo;
  // Of known lines on both sides the move is no error that a tube shares.
  if (lamp.side === 0) return (lamp.carried?.u ?? 0) ** 2;
  if (lamp.central === null || tube.side === 0 || lamp.side === tube.side) return 0;
  return 4 * (centralVariance(lamp.central, settingVariance) + (lamp.carried?.u ?? 0) ** 2);
}
