/** From a tube's lines to readings that can be compared with spectra. */
import type { BenchState } from '../../calibrate/calibrate.ts';
import { observe } from '../../observe/observation.ts';
import { type Origin, originVariance, tubeOrigin } from '../../observe/origin.ts';
import { readingVariance, varianceTerms } from '../../observe/reading-variance.ts';
import { readingAlternatives } from '../../observe/slip-hypotheses.ts';
import type { Bench, UnknownTube } from '../../record/bench.ts';
import type { UnknownReading } from './unknown-reading.ts';

export interface TubeReadings {
  /** In record order; lines left out or without a deviation are lacking. */
  readonly readings: readonly UnknownReading[];
  /** Where they count from. */
  readonly origin: Origin;
  /** Variance of a shift common to all readings against the calibration, unit². */
  readonly offsetVariance: number;
}

/** What of the state of the bench a reading rests on. */
type ReadingState = Pick<BenchState, 'origin' | 'constants' | 'settingVariance'>;

/** The tube's lines in use that give an ordinate, in the record's order, and what is common to them all. */
export function tubeReadings(bench: Bench, tube: UnknownTube, state: ReadingState): TubeReadings {
  const origin = tubeOrigin(bench, tube, state.origin);
  const readings = tube.lines
    .filter((line) => line.use)
    .flatMap((line): UnknownReading[] => {
      const observation = observe(bench, line.settings, origin.central);
      if (!observation) return [];
      const totalVariance = readingVariance(observation, state.settingVariance);
      const alone = observation.parts.length === 1;
      return [
        {
          line,
          observation,
          ordinate: observation.ordinate,
          halfCount: alone ? observation.step / 2 : 0,
          variance: totalVariance - (alone ? observation.resolutionVariance : 0),
          totalVariance,
          varianceTerms: varianceTerms(observation, state.settingVariance),
          alternatives: readingAlternatives(
            bench,
            line.settings,
            observation,
            state.constants,
            state.settingVariance,
          ),
        },
      ];
    });
  const offsetVariance = originVariance(bench, state.origin, origin, state.settingVariance);
  return { readings, origin, offsetVariance };
}
