/** Known lines as the search for explanations sees them. */
import type { Observation } from '../../observe/observation.ts';
import type { KnownBenchLine } from '../../record/bench.ts';
import type { CurvePoint, CurvePosterior } from '../curve/posterior.ts';
import type { LineChoice } from './line-hypotheses.ts';

/** A known line that can be computed with. */
export interface KnownReading {
  readonly line: KnownBenchLine;
  readonly observation: Observation;
}

/** One way to understand all known lines, and the curve that follows from it. */
export interface WeighedExplanation {
  /** One choice for each reading, in order. */
  readonly choices: readonly LineChoice[];
  /** For each lamp of the record: the lamp it is taken for, or null where its name is believed. */
  readonly lampTakenFor: readonly (string | null)[];
  readonly points: readonly CurvePoint[];
  readonly posterior: CurvePosterior;
  readonly probability: number;
  /** ln of its prior times its evidence; of benches with the same lines in the same unit they can be compared. */
  readonly log: number;
}
