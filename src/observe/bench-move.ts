/** A bench that is moved between two readings of the same thing: by how much, and how probable that is. */
import { logSum } from '../numeric/log-sum.ts';
import { logNormalDensity } from '../numeric/normal.ts';
import type { Bench } from '../record/bench.ts';
import { BETWEEN_TWO_LAMPS, BETWEEN_TWO_READINGS, MOVED_BENCH } from './assumptions.ts';

/** In the ordinate's unit: standard deviation where it is knocked, farthest either way where it is turned. */
export interface MoveSize {
  readonly sd: number;
  readonly reach: number;
}

/** `spectrum`: length of the visible spectrum on this bench, in the ordinate's unit; asked for on a scale. */
export function moveSize({ method }: Pick<Bench, 'method'>, spectrum: number): MoveSize {
  const { sdArcmin, reachArcmin, sdOfSpectrum, reachInSpectra } = MOVED_BENCH;
  return method === 'scale'
    ? { sd: sdOfSpectrum * spectrum, reach: reachInSpectra * spectrum }
    : { sd: sdArcmin, reach: reachArcmin };
}

/** ln densities of a difference (in the ordinate's unit, with this variance) of two readings of the same thing. */
export function moveLogs(apart: number, variance: number, { sd, reach }: MoveSize) {
  const { knocked, turned } = BETWEEN_TWO_READINGS;
  return {
    still: Math.log(1 - knocked - turned) + logNormalDensity(apart, variance),
    moved: logSum([
      Math.log(knocked) + logNormalDensity(apart, variance + sd ** 2),
      Math.log(turned / (2 * reach)),
    ]),
  };
}

/** Probability that something was moved between two readings of the same thing that differ so. */
export function movedProbability(apart: number, variance: number, size: MoveSize): number {
  const { still, moved } = moveLogs(apart, variance, size);
  return 1 - Math.exp(still - logSum([still, moved]));
}

/** ln density of a move by `shift` between two lamps, in the ordinate's unit, with the chance that there is one. */
export function lampMoveLog(shift: number, { sd, reach }: MoveSize): number {
  const { knocked, turned } = BETWEEN_TWO_LAMPS;
  const ofTurning = Math.abs(shift) < reach ? Math.log(turned / (2 * reach)) : Number.NEGATIVE_INFINITY;
  return logSum([Math.log(knocked) + logNormalDensity(shift, sd ** 2), ofTurning]);
}
