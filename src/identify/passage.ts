/** A tube's readings through one view of the bench: how dense each would be as a stray, or as a line of any wavelength. */
import { type BenchView, nearestWavelength } from './bench-view.ts';
import { colourLog, strayDensityPerNm, visibleDensityPerNm } from './strays.ts';
import type { UnknownReading } from './unknown-reading.ts';

/** Densities of one reading, per unit of the ordinate. */
export interface ReadingDensities {
  readonly stray: number;
  /** As a line of any wavelength. */
  readonly anywhere: number;
}

export interface Passage {
  readonly view: BenchView;
  readonly densities: ReadonlyMap<UnknownReading, ReadingDensities>;
  /** ln density of all readings being strays. */
  readonly logAllStray: number;
  /** ln density of all readings being lines of any wavelength. */
  readonly logAllAnywhere: number;
}

/** Densities keep logarithms finite for a reading far off the spectrum. */
const SMALLEST = 1e-12;

/** `known`: densities already computed for readings that have not moved. */
export function passageOf(
  view: BenchView,
  readings: readonly UnknownReading[],
  known: ReadonlyMap<UnknownReading, ReadingDensities> = new Map(),
): Passage {
  const densities = new Map<UnknownReading, ReadingDensities>();
  let logAllStray = 0;
  let logAllAnywhere = 0;
  for (const reading of readings) {
    const own = known.get(reading) ?? densitiesOf(view, reading);
    densities.set(reading, own);
    logAllStray += Math.log(own.stray);
    logAllAnywhere += Math.log(own.anywhere);
  }
  return { view, densities, logAllStray, logAllAnywhere };
}

function densitiesOf(view: BenchView, reading: UnknownReading): ReadingDensities {
  const nm = nearestWavelength(view.curve, reading.ordinate - view.shift);
  const slope = Math.abs(view.curve.slopeAt(nm));
  const colour = Math.exp(colourLog(reading.line, nm));
  const uNm = Math.sqrt(reading.totalVariance) / slope;
  return {
    stray: Math.max((strayDensityPerNm(nm, uNm) / slope) * colour, SMALLEST),
    anywhere: Math.max((visibleDensityPerNm(nm) / slope) * colour, SMALLEST),
  };
}
