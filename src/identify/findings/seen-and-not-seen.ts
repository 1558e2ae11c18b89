/** Places where nothing was seen, by the record, and where it has a reading too. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import { observe } from '../../observe/observation.ts';
import type { Bench, UnknownTube } from '../../record/bench.ts';
import type { TubeReadings } from '../bench/tube-readings.ts';
import type { TubeFinding } from './tube-finding.ts';

type SeenAndNotSeen = Extract<TubeFinding, { what: 'seen-and-not-seen' }>;

/** One for each place that is no further from a reading than the standard uncertainty of the two; a line beside is another. */
export function seenAndNotSeen(
  bench: Bench,
  tube: UnknownTube,
  { origin, readings }: TubeReadings,
  curve: CalibrationCurve,
): SeenAndNotSeen[] {
  return tube.notSeen.flatMap((place): SeenAndNotSeen[] => {
    const isNamed = place.kind === 'wavelength';
    const ordinate = isNamed
      ? curve.ordinateAt(place.wavelengthNm)
      : (observe(bench, place.settings, origin.central)?.ordinate ?? Number.NaN);
    const curveVariance = isNamed ? curve.covariance(place.wavelengthNm, place.wavelengthNm) : 0;
    const [nearest] = readings
      .map((reading) => ({ reading, off: Math.abs(reading.ordinate - ordinate) }))
      .filter(({ reading, off }) => off <= Math.sqrt(reading.totalVariance + curveVariance))
      .sort((a, b) => a.off - b.off);
    return nearest === undefined
      ? []
      : [{ what: 'seen-and-not-seen', index: nearest.reading.line.index, place }];
  });
}
