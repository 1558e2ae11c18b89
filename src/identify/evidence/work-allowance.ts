/**
 * How much may be computed for one tube. Wild readings fit nothing, so that nearly everything is weighed for nothing:
 * the search ends when its allowance is spent, the likeliest having come first. Counted, not timed, so that a record
 * gives the same answer on every machine.
 */
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

/** Of one tube, and of all tubes of a record together: some two seconds of a slow machine each (common practice, no source). */
const MOST_UNITS = { ofOneTube: 60e6, inAll: 120e6 };

/** Each of a record's tubes gets the same, whatever the others are. */
export function allowanceOfEach(tubes: number): number {
  return Math.min(MOST_UNITS.ofOneTube, MOST_UNITS.inAll / Math.max(1, tubes));
}
