/**
 * How much may be computed for one tube. Wild readings fit nothing, so that nearly everything is weighed for nothing:
 * the search ends when its allowance is spent, the likeliest having come first. Counted, not timed, so that a record
 * gives the same answer on every machine.
 */
import { MANY_READINGS, MOST_UNITS } from '../assumptions.ts';

/** Spent by all that is computed for one tube. */
export class WorkAllowance {
  #left: number;

  /** `units`: pairs of a reading and a line that may be weighed, each under one set of assumptions. */
  constructor(units: number) {
    this.#left = units;
  }

  spend(units: number): void {
    this.#left -= units;
  }

  get isSpent(): boolean {
    return this.#left <= 0;
  }
}

/** Each of a record's tubes gets the same, whatever the others are; one of more readings than anyone takes, a part of it. */
export function allowanceOfEach(tubes: number, readings = 0): number {
  const units = Math.min(MOST_UNITS.ofOneTube, MOST_UNITS.inAll / Math.max(1, tubes));
  return readings > MANY_READINGS ? MOST_UNITS.shareOfMany * units : units;
}
