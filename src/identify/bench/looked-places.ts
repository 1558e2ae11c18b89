/** Places where someone looked and saw nothing, and how much of the spectrum one look covers. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import { observe } from '../../observe/observation.ts';
import type { Bench, UnknownTube } from '../../record/bench.ts';
import { LOOKED_REACH, READ_WITHIN } from '../assumptions.ts';
import { nearestWavelength } from './bench-hypothesis.ts';
import type { TubeReadings } from './tube-readings.ts';
import type { UnknownReading } from './unknown-reading.ts';

/** A place where someone looked and saw nothing, in the ordinate. */
export interface LookedPlace {
  readonly ordinate: number;
  readonly reach: number;
  /** Told as a wavelength: it is where the bench shows that wavelength, wherever all lines are shifted to. */
  readonly goesWithLines: boolean;
}

/** How far from an ordinate one look reaches, either way. */
export function lookReach(
  readings: readonly UnknownReading[],
  curve: CalibrationCurve,
  ordinate: number,
): number {
  const u = Math.sqrt(Math.max(...readings.map(({ totalVariance }) => totalVariance)));
  const slope = Math.abs(curve.slopeAt(nearestWavelength(curve, ordinate)));
  return LOOKED_REACH.uncertainties * u + LOOKED_REACH.nm * slope;
}

/** Is there a reading at this ordinate? */
export function isRead(readings: readonly UnknownReading[], ordinate: number): boolean {
  return readings.some(
    (reading) => Math.abs(reading.ordinate - ordinate) < READ_WITHIN * Math.sqrt(reading.totalVariance),
  );
}

/** Does one of the looks cover a line at this ordinate, all lines being shifted by `shift`? */
export function isLookedAt(looked: readonly LookedPlace[], ordinate: number, shift: number): boolean {
  return looked.some(
    (place) => Math.abs(place.ordinate + (place.goesWithLines ? shift : 0) - ordinate) < place.reach,
  );
}

/**
 * A place within reach of another counts as that one, and one within reach of a reading says nothing: a line is there,
 * and it was read.
 */
export function lookedPlaces(
  bench: Bench,
  tube: UnknownTube,
  { origin, readings }: TubeReadings,
  curve: CalibrationCurve,
): LookedPlace[] {
  const places: LookedPlace[] = [];
  for (const place of tube.notSeen) {
    const ordinate =
      place.kind === 'wavelength'
        ? curve.ordinateAt(place.wavelengthNm)
        : observe(bench, place.settings, origin.central)?.ordinate;
    if (ordinate === undefined || !Number.isFinite(ordinate)) continue;
    const reach = lookReach(readings, curve, ordinate);
    const isNear = (other: { readonly ordinate: number }): boolean =>
      Math.abs(other.ordinate - ordinate) < reach;
    if (places.some(isNear) || readings.some(isNear)) continue;
    places.push({ ordinate, reach, goesWithLines: place.kind === 'wavelength' });
  }
  return places;
}
