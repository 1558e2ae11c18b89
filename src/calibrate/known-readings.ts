/** The known lines of a bench that can be computed with. */
import { centralVariance } from '../observe/central-image.ts';
import { knownObservations, lampOrigin } from '../observe/origin.ts';
import { usualScatter } from '../observe/setting-scatter.ts';
import type { Bench } from '../record/bench.ts';
import type { KnownReading } from './assign/known-reading.ts';

/** In the record's order, each counted from the central image that belongs to its lamp. */
export function knownReadings(bench: Bench): KnownReading[] {
  const readings = knownObservations(bench);
  const sides = new Set(readings.map(({ observation }) => observation.side));
  const { central } = lampOrigin(bench, 0);
  if (!central || sides.size < 2) return readings;
  // Lines on both sides of the central image: its error enters with opposite signs and no longer cancels.
  const usual = centralVariance(central, usualScatter(bench) ** 2);
  return readings.map(({ line, observation }) => ({
    line,
    observation: { ...observation, resolutionVariance: observation.resolutionVariance + usual },
  }));
}
