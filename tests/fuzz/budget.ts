/** How much of each kind is tried: a little in `npm test`, much in `npm run test:soak`. */
import { expect } from 'vitest';

export interface Budget {
  /** Cheap inputs: texts, command lines. */
  readonly inputs: number;
  /** Whole benches through the analysis and all presenters. */
  readonly benches: number;
}

export const quick: Budget = { inputs: 200, benches: 12 };
export const soak: Budget = { inputs: 10_000, benches: 200 };

/**
 * Runs a step and holds it to two seconds of a quiet machine's processor: twice that here, where the clock of the
 * processor also runs on while others push its caches about.
 */
export async function inTime<Result>(step: () => Result | Promise<Result>): Promise<Result> {
  const before = process.cpuUsage();
  const result = await step();
  const { user, system } = process.cpuUsage(before);
  expect((user + system) / 1e6).toBeLessThan(4);
  return result;
}
