/**
 * THE place from which the readings of a lamp or a tube count: the central image that serves it, and the side of it on
 * which its lines lie. Whoever turns a reading into a deviation, or a deviation into a reading, asks here.
 */
import { sum } from '../numeric/sum.ts';
import type { Bench, BenchLine, Setting, UnknownTube } from '../record/bench.ts';
import { SCALE_ORIGIN_COUNTS } from './assumptions.ts';
import { apartArcmin, type CentralImage, centralImage, centralVariance } from './central-image.ts';
import { observe } from './observation.ts';
import { finestStep } from './reading-step.ts';

/** +1: readings grow with the deviation, -1: they fall, 0: on both sides alike, or nothing has been read. */
export type Side = -1 | 0 | 1;

export interface Origin {
  /** Null where it was not read, and for the methods that have none. */
  readonly central: CentralImage | null;
  /** The readings of which it is the mean. */
  readonly settings: readonly Setting[];
  /** Of most lines in use. */
  readonly side: Side;
  /** Read for this tube, not for the calibration. */
  readonly isOwn: boolean;
}

/** Where the known lines of a bench count from. */
export function lampOrigin(bench: Bench): Origin {
  const central = bench.method === 'central' ? centralImage(bench, bench.central) : null;
  const lines = bench.known.flatMap((lamp) => lamp.lines);
  return { central, settings: bench.central, side: sideOf(bench, lines, central), isOwn: false };
}

/** Where a tube counts from: its own central readings where it has some, else `lamp`, that of the calibration. */
export function tubeOrigin(bench: Bench, tube: UnknownTube, lamp: Origin = lampOrigin(bench)): Origin {
  const own = bench.method === 'central' && tube.central !== null ? centralImage(bench, tube.central) : null;
  const central = own ?? lamp.central;
  return {
    central,
    settings: own === null ? lamp.settings : tube.central!,
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
  if (!tube.isOwn || !tube.central || !lamp.central) return null;
  const variance =
    centralVariance(tube.central, settingVariance) + centralVariance(lamp.central, settingVariance);
  return {
    shiftArcmin: apartArcmin(lamp.central.windowsDeg, tube.central.windowsDeg),
    u: Math.sqrt(variance),
    stepArcmin: Math.max(tube.central.step, lamp.central.step),
  };
}

/**
 * Variance of what all readings of a tube share against the calibration, unit²: two readings of the central image
 * where there are two; of one that is shared nothing on the same side of it, and twice its error on the other; on a
 * scale, which has no central image to be read again, what another lamp before the slit and the play of the drum make.
 */
export function originVariance(bench: Bench, lamp: Origin, tube: Origin, settingVariance: number): number {
  if (bench.method === 'scale') return (SCALE_ORIGIN_COUNTS * finestStep(bench)) ** 2;
  const shift = originShift(lamp, tube, settingVariance);
  if (shift !== null) return shift.u ** 2;
  if (lamp.central === null || lamp.side === 0 || tube.side === 0 || lamp.side === tube.side) return 0;
  return 4 * centralVariance(lamp.central, settingVariance);
}
