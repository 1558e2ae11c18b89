/**
 * Readings whose errors lean to one side: a prism that is not quite at minimum deviation only ever deviates more.
 * With the setting of the prism normally distributed about the minimum the excess is c·ε², a scaled χ² of one degree
 * of freedom. Its density is a mixture of normal ones here, and each reading's likelihood is replaced by the normal
 * one that serves best beside all the others: expectation propagation (T. P. Minka, Proc. 17th Conf. on Uncertainty
 * in Artificial Intelligence, 362 (2001); Rasmussen & Williams, Gaussian Processes for Machine Learning, sec. 3.6).
 */
import { logAdd } from '../../numeric/log-sum.ts';
import { logNormalDensity } from '../../numeric/normal.ts';
import { type GaussianConstants, learned, predicted } from './gaussian-curve.ts';

/** χ² of one degree of freedom less its mean, as three normal densities (fitted to 400,000 random numbers). */
const CHI_SQUARE = [
  { logWeight: Math.log(0.619), offset: -0.716, variance: 0.065 },
  { logWeight: Math.log(0.294), offset: 0.575, variance: 0.767 },
  { logWeight: Math.log(0.087), offset: 3.16, variance: 5.278 },
] as const;

/** One reading to learn from, its error taken apart. */
export interface SkewedReading {
  /** Values of the curve's basis at its wavelength. */
  readonly values: Float64Array;
  readonly ordinate: number;
  /** Of the symmetric part of the error. */
  readonly variance: number;
  /** Mean of the excess. The curve holds it too: it goes through the means of readings, not through the minima. */
  readonly meanExcess: number;
}

/** The normal likelihood that stands for a reading's own. */
interface Site {
  readonly ordinate: number;
  readonly variance: number;
  /** ln of the factor that gives it the evidence of the reading. */
  readonly logFactor: number;
}

/** Afterwards a curve moves by less than a hundredth of its uncertainty. */
const SWEEPS = 3;
/** No reading takes knowledge away: where its site would, it counts as one of this many times its own variance. */
const SAYS_LITTLE = 4;

/** What the readings leave of the constants, and ln of their evidence. */
export function learnedSkewed(
  start: GaussianConstants,
  readings: readonly SkewedReading[],
): { constants: GaussianConstants; log: number } {
  let constants = start;
  let sites = readings.map((reading) => {
    const { ordinate, variance } = predicted(constants, reading.values);
    const site = siteOf(reading, ordinate, variance);
    constants = learned(constants, reading.values, site.ordinate, site.variance);
    return site;
  });
  for (let sweep = 1; sweep < SWEEPS; sweep += 1) {
    sites = readings.map((reading, i) => besideTheOthers(reading, sites[i]!, constants));
    constants = readings.reduce(
      (sofar, { values }, i) => learned(sofar, values, sites[i]!.ordinate, sites[i]!.variance),
      start,
    );
  }
  return { constants, log: logEvidence(start, readings, sites) };
}

/** The site anew, from what the other readings say of its place: the old one divided out. */
function besideTheOthers(reading: SkewedReading, site: Site, all: GaussianConstants): Site {
  const { ordinate, variance } = predicted(all, reading.values);
  const precision = 1 / variance - 1 / site.variance;
  if (!(precision > 0)) return site;
  return siteOf(reading, (ordinate / variance - site.ordinate / site.variance) / precision, 1 / precision);
}

/** `mean`, `meanVariance`: of the curve at the reading's wavelength, without this reading. */
function siteOf({ ordinate, variance, meanExcess }: SkewedReading, mean: number, meanVariance: number): Site {
  let log = Number.NEGATIVE_INFINITY;
  // Mean and mean square of the curve's shift once the reading is known, over the parts of the mixture.
  let shift = 0;
  let square = 0;
  for (const part of CHI_SQUARE) {
    const own = variance + part.variance * meanExcess * meanExcess;
    const residual = ordinate - meanExcess * part.offset - mean;
    const gain = meanVariance / (meanVariance + own);
    const partLog = part.logWeight + logNormalDensity(residual, meanVariance + own);
    log = logAdd(log, partLog);
    const weight = Math.exp(partLog - log);
    const partShift = gain * residual;
    shift += weight * (partShift - shift);
    square += weight * (own * gain + partShift * partShift - square);
  }
  const usual = variance + 2 * meanExcess * meanExcess;
  const precision = Math.max(1 / (square - shift * shift) - 1 / meanVariance, 1 / (SAYS_LITTLE * usual));
  const siteVariance = 1 / precision;
  const offset = shift * (1 + siteVariance / meanVariance);
  return {
    ordinate: mean + offset,
    variance: siteVariance,
    logFactor: log - logNormalDensity(offset, siteVariance + meanVariance),
  };
}

function logEvidence(
  start: GaussianConstants,
  readings: readonly SkewedReading[],
  sites: readonly Site[],
): number {
  let constants = start;
  return readings.reduce((sum, { values }, i) => {
    const site = sites[i]!;
    const expected = predicted(constants, values);
    constants = learned(constants, values, site.ordinate, site.variance);
    const log = logNormalDensity(site.ordinate - expected.ordinate, expected.variance + site.variance);
    return sum + site.logFactor + log;
  }, 0);
}
