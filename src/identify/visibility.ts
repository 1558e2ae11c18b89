/** How likely a line is seen and written down, given how prominent it is and how faint a line may be. */
import { normalCdf } from '../numeric/normal.ts';

/**
 * Tubes of one gas differ: ln scatter of a line's prominence from tube to tube (common practice, no source;
 * with the scatter of the line table's own grades).
 */
const TUBE_SCATTER = 0.9;
/** Even the brightest line is passed over now and then, and a faint one is seen in an odd tube. */
const OVERLOOKED = 0.06;
const OVERLOOKED_WHEN_COMPLETE = 0.03;
const SEEN_ALL_THE_SAME = 0.008;
/** Lines below this prominence are never counted on. */
export const FAINTEST_PROMINENCE = -5;
/** A line that an ordinary tube may lack, where it is lacking. */
const LACKING = 0.03;

/** One possible faintness limit with its prior weight. */
export interface FaintnessLimit {
  readonly prominence: number;
  readonly weight: number;
}

/**
 * Prior of the faintest line a pair of students writes down: anywhere from the bright lines only to well into the
 * faint ones. Above 0 they stopped before the bright lines were all written down.
 */
export function faintnessLimits(complete: boolean): FaintnessLimit[] {
  const steps = [-4, -3.2, -2.5, -1.8, -1.1, -0.4, 0.4];
  const weights = complete ? [1.5, 2, 2, 1.5, 1, 0.5, 0.1] : [0.7, 1.6, 2, 2, 2, 1.3, 0.7];
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return steps.map((prominence, i) => ({ prominence, weight: weights[i]! / total }));
}

/** Chance that a line of this prominence is seen and written down. `shown`: does this tube have such lines at all? */
export function chanceSeen(prominence: number, limit: number, complete: boolean, shown: boolean): number {
  const overlooked = complete ? OVERLOOKED_WHEN_COMPLETE : OVERLOOKED;
  const bright = normalCdf((prominence - limit) / TUBE_SCATTER);
  const floor = prominence > FAINTEST_PROMINENCE + 1 ? SEEN_ALL_THE_SAME : SEEN_ALL_THE_SAME / 4;
  const chance = floor + (1 - overlooked - floor) * bright;
  return shown ? chance : chance * LACKING;
}

/** Chance that a line is seen by someone who looks for it at its place. */
export function chanceSeenLooking(prominence: number, limit: number): number {
  return 0.9 * normalCdf((prominence - limit + 0.8) / TUBE_SCATTER);
}
