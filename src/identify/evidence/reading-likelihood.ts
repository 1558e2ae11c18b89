/** A tube's readings through one view of the bench: how dense each would be as a stray, or as a line of any wavelength. */
import type { CalibrationCurve } from '../../calibrate/types.ts';
import { colourLogLikelihood } from '../../lines/colour-likelihood.ts';
import { isVisible } from '../../lines/visible.ts';
import { LIKELY_SLIP, UNNAMED_SLIP } from '../assumptions.ts';
import type { BenchView } from '../bench/bench-hypothesis.ts';
import type { UnknownReading } from '../bench/unknown-reading.ts';
import { strayDensityPerNm, visibleDensityPerNm } from '../spectrum/outlier-readings.ts';

/** Densities of one reading, per unit of the ordinate. */
export interface ReadingDensities {
  readonly stray: number;
  /** As a line of any wavelength. */
  readonly anywhere: number;
}

export interface ReadingLikelihoods {
  readonly view: BenchView;
  readonly densities: ReadonlyMap<UnknownReading, ReadingDensities>;
  /** ln density of all readings being strays. */
  readonly logAllStray: number;
  /** ln density of all readings being lines of any wavelength. */
  readonly logAllAnywhere: number;
}

/** Densities keep logarithms finite. */
const SMALLEST = 1e-12;
const NOTHING: ReadingDensities = { stray: 0, anywhere: 0 };

/** `known`: densities already computed for readings that have not moved. */
export function readingLikelihoods(
  view: BenchView,
  readings: readonly UnknownReading[],
  known: ReadonlyMap<UnknownReading, ReadingDensities> = new Map(),
): ReadingLikelihoods {
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
  const { curve } = view;
  const wavelengthAt = (ordinate: number): number | null =>
    curve.wavelengthAt(ordinate - view.shift, 0)?.wavelengthNm ?? null;
  const here = wavelengthAt(reading.ordinate);
  const isSeen = here !== null && isVisible(here);
  const asRead = here === null ? NOTHING : densitiesAt(view, reading, here);
  // Where no eye sees a line the reading is a slip, whatever it is a reading of; so it is where its repeats say so.
  const slips = reading.alternatives.filter(({ logOdds }) => !isSeen || logOdds > LIKELY_SLIP);
  const unnamed = isSeen ? 0 : unnamedDensity(curve);
  return slips.reduce(
    (sum, { correction, logOdds }) => {
      const there = wavelengthAt(reading.ordinate + correction);
      if (there === null) return sum;
      const corrected = densitiesAt(view, reading, there);
      const odds = Math.exp(logOdds);
      return {
        stray: sum.stray + odds * corrected.stray,
        anywhere: sum.anywhere + odds * corrected.anywhere,
      };
    },
    { stray: asRead.stray + unnamed, anywhere: asRead.anywhere + unnamed },
  );
}

function unnamedDensity({ domainNm: [shortest, longest], ordinateAt }: CalibrationCurve): number {
  const width = UNNAMED_SLIP.spectra * Math.abs(ordinateAt(longest) - ordinateAt(shortest));
  return UNNAMED_SLIP.chance / width;
}

function densitiesAt(view: BenchView, reading: UnknownReading, nm: number): ReadingDensities {
  const slope = Math.abs(view.curve.slopeAt(nm));
  const colour = Math.exp(colourLogLikelihood(reading.line.colour, nm));
  const uNm = Math.sqrt(reading.totalVariance) / slope;
  return {
    stray: Math.max((strayDensityPerNm(nm, uNm) / slope) * colour, SMALLEST),
    anywhere: Math.max((visibleDensityPerNm(nm) / slope) * colour, SMALLEST),
  };
}
