/** From a tube's lines to readings that can be compared with spectra. */

import type { BenchState } from '../../calibrate/calibrate.ts';
import { centralShift } from '../../calibrate/central-doubts.ts';
import type { CalibrationCurve } from '../../calibrate/types.ts';
import { type CentralImage, centralImage, observe } from '../../observe/observation.ts';
import { readingAlternatives } from '../../observe/slip-hypotheses.ts';
import type { Bench, UnknownTube } from '../../record/bench.ts';
import type { LookedPlace } from '../evidence/candidate-evidence.ts';
import { nearestWavelength } from './bench-hypothesis.ts';
import type { UnknownReading } from './unknown-reading.ts';

export interface TubeReadings {
  /** In record order; lines left out or without a deviation are lacking. */
  readonly readings: readonly UnknownReading[];
  /** The central image that serves this tube. */
  readonly central: CentralImage | null;
  /** Variance of a shift common to all readings against the calibration, unit². */
  readonly offsetVariance: number;
  /** The central image was read anew for this tube. */
  readonly reread: boolean;
}

/** What of the state of the bench a reading rests on. */
type ReadingState = Pick<BenchState, 'central' | 'constants' | 'settingVariance'>;

export function tubeReadings(bench: Bench, tube: UnknownTube, state: ReadingState): TubeReadings {
  const again =
    bench.method === 'central' && tube.central !== null ? centralImage(bench, tube.central) : null;
  const central = again ?? state.central;
  const readings = tube.lines
    .filter((line) => line.use)
    .flatMap((line): UnknownReading[] => {
      const observation = observe(bench, line.settings, central);
      if (!observation) return [];
      const setting = observation.settingShare * state.settingVariance;
      const alone = observation.parts.length === 1;
      return [
        {
          line,
          observation,
          ordinate: observation.ordinate,
          halfCount: alone ? bench.leastCount / 2 : 0,
          variance: alone ? setting : setting + observation.resolutionVariance,
          totalVariance: setting + observation.resolutionVariance,
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
  const shift = centralShift(bench, state, again ? tube.central : null);
  return {
    readings,
    central,
    offsetVariance: (shift?.u ?? 0) ** 2 + otherSide(bench, readings, state),
    reread: again !== null,
  };
}

/** A shared central reading cancels on one side of it; on the other its error counts twice. */
function otherSide(bench: Bench, readings: readonly UnknownReading[], state: ReadingState): number {
  const { central } = state;
  if (!central) return 0;
  const known = bench.known
    .flatMap((lamp) => lamp.lines)
    .flatMap((line) => observe(bench, line.settings, central) ?? []);
  const side = (observations: readonly { side: number }[]) =>
    Math.sign(observations.reduce((sum, observation) => sum + observation.side, 0));
  const knownSide = side(known);
  const tubeSide = side(readings.map(({ observation }) => observation));
  if (knownSide === 0 || tubeSide === 0 || knownSide === tubeSide) return 0;
  return 4 * (central.resolutionVariance + central.settingShare * state.settingVariance);
}

/** Places where someone looked and saw nothing, in the ordinate. */
export function lookedPlaces(
  bench: Bench,
  tube: UnknownTube,
  { central, readings }: TubeReadings,
  curve: CalibrationCurve,
): LookedPlace[] {
  const u = Math.sqrt(
    readings.reduce((sum, reading) => Math.max(sum, reading.totalVariance), bench.leastCount ** 2 / 12),
  );
  return tube.notSeen.flatMap((place) => {
    const observation = place.kind === 'reading' ? observe(bench, place.settings, central) : null;
    const ordinate =
      place.kind === 'wavelength' ? curve.ordinateAt(place.wavelengthNm) : observation?.ordinate;
    if (ordinate === undefined || !Number.isFinite(ordinate)) return [];
    // One looks along the field of view, not at a point.
    const slope = Math.abs(curve.slopeAt(nearestWavelength(curve, ordinate)));
    return [{ ordinate, reach: 3 * u + 1.5 * slope }];
  });
}
