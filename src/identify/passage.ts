/** A tube's readings through one view of the bench: how dense each would be as a stray, or as a line of any wavelength. */
import { type BenchView, nearestWavelength } from './bench-view.ts';
import { colourLog, strayDensityPerNm, visibleDensityPerNm } from './strays.ts';
import type { UnknownReading } from './unknown-reading.ts';

export interface Passage {
  readonly view: BenchView;
  /** Density of each reading as a stray, per unit of the ordinate. */
  readonly densities: ReadonlyMap<UnknownReading, number>;
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
  known: ReadonlyMap<UnknownReading, number> = new Map(),
): Passage {
  const densities = new Map<UnknownReading, number>();
  let logAllStray = 0;
  let logAllAnywhere = 0;
  for (const reading of readings) {
    const before = known.get(reading);
    const { stray, anywhere } =
      before === undefined ? densitiesOf(view, reading) : { stray: before, anywhere: 1 };
    densities.set(reading, stray);
    logAllStray += Math.log(stray);
    logAllAnywhere += Math.log(anywhere);
  }
  return { view, densities, logAllStray, logAllAnywhere };
}

/** Densities of one reading, per unit of the ordinate. */
export function densitiesOf(view: BenchView, reading: UnknownReading): { stray: number; anywhere: number } {
  const nm = nearestWavelength(view.curve, reading.ordinate - view.shift);
  const slope = Math.abs(view.curve.slopeAt(nm));
  const colour = Math.exp(colourLog(reading.line, nm));
  const uNm = Math.sqrt(reading.totalVariance) / slope;
  return {
    stray: Math.max((strayDensityPerNm(nm, uNm) / slope) * colour, SMALLEST),
    anywhere: Math.max((visibleDensityPerNm(nm) / slope) * colour, SMALLEST),
  };
}
