/** The prism's refractive index at the known lines, nd and Abbe number, each with its uncertainty. */

import { centralVariance } from '../observe/central-image.ts';
import { lampOrigin } from '../observe/origin.ts';
import type { Bench } from '../record/bench.ts';
import { type Glass, glasses } from './curve/glasses.ts';
import {
  excessPerDegreeSquaredArcmin,
  indexAtMinimum,
  indexSensitivities,
} from './curve/minimum-deviation.ts';
import type { CalibratedLine, CalibrationCurve, CalibrationNumbers } from './types.ts';

/** Fraunhofer lines of the Abbe number, nm in air: He d, H F, H C: the lines of glass catalogues (SCHOTT TIE-29, rounded). */
export const ABBE_LINES_NM = { d: 587.56, F: 486.13, C: 656.27 } as const;

/** Spread allowed between a melt and its catalogue entry: ±0.0005 in nd, ±0.8 % in the Abbe number (from memory). */
const MELT_SPREAD = { nd: 0.0005, abbeFraction: 0.008 } as const;

export interface Uncertain {
  readonly value: number;
  readonly standardUncertainty: number;
}

export interface LineIndex extends Uncertain {
  /** Index of the known line in the record. */
  readonly index: number;
  readonly wavelengthNm: number;
  readonly deviationDeg: number;
  /** Part of the uncertainty from this line's own reading. */
  readonly fromReading: number;
  /** Part from the reading of the central image; the same mistake in every line. 0 where none is needed. */
  readonly fromCentral: number;
  /** Part from the apex angle; the same mistake in every line. */
  readonly fromApexAngle: number;
}

export interface GlassHint {
  readonly glass: Glass;
  /** Distance in (nd, Abbe number) in standard deviations of the measurement and the spread between melts. */
  readonly distance: number;
}

export interface RefractiveIndices {
  readonly apexAngleDeg: number;
  /** Null: taken as exact. */
  readonly apexUncertaintyDeg: number | null;
  readonly lines: readonly LineIndex[];
  readonly nd: Uncertain | null;
  readonly abbeNumber: Uncertain | null;
  /** True when one of the d, F, C lines lies outside the range of the known lines. */
  readonly extrapolated: boolean;
  /** Nearest first, three at most; empty without an Abbe number. */
  readonly nearestGlasses: readonly GlassHint[];
  /** What a reader must know to use the numbers, one sentence each. */
  readonly notes: readonly string[];
}

/**
 * Indices of the known lines, nd and Abbe number. Null where the bench gives none: no apex angle, an arbitrary
 * scale, or no known line with a deviation. With a prism that was set once, only the line it was set for counts.
 */
export function refractiveIndices(bench: Bench, calibration: CalibrationNumbers): RefractiveIndices | null {
  const apex = bench.apexAngle;
  if (apex === null || bench.method === 'scale') return null;
  const shared: SharedErrors = {
    apexAngleDeg: apex.valueDeg,
    apexUArcmin: (apex.uDeg ?? 0) * 60,
    centralUArcmin: centralUncertaintyArcmin(bench, calibration),
  };
  const trusted = calibration.lines.filter((line) => line.status === 'used' || line.status === 'reassigned');
  const chosen = bench.prism === 'fixed' ? atSetWavelength(trusted, bench.setAtNm) : trusted;
  const lines = chosen.flatMap((line) => lineIndex(line, shared));
  if (lines.length === 0 && bench.prism === 'each-line') return null;

  const curve = bench.prism === 'each-line' ? calibration.curve : null;
  const glass = curve === null ? null : glassConstants(curve, shared);
  return {
    apexAngleDeg: apex.valueDeg,
    apexUncertaintyDeg: apex.uDeg,
    lines,
    nd: glass?.nd ?? null,
    abbeNumber: glass?.abbeNumber ?? null,
    extrapolated: glass?.extrapolated ?? false,
    nearestGlasses: glass === null ? [] : nearestGlasses(glass),
    notes: notesFor(bench, lines),
  };
}

function atSetWavelength(lines: readonly CalibratedLine[], setAtNm: number | null): CalibratedLine[] {
  if (setAtNm === null) return [];
  // A bench names its line from memory: 589 for the sodium pair at 589.3.
  return lines.filter((line) => line.wavelengthNm !== null && Math.abs(line.wavelengthNm - setAtNm) <= 0.6);
}

/** What moves all deviations or all indices of a bench alike. */
interface SharedErrors {
  readonly apexAngleDeg: number;
  readonly apexUArcmin: number;
  readonly centralUArcmin: number;
}

/** The central image's reading is in every deviation; in a wavelength it cancels, in an index it does not. */
function centralUncertaintyArcmin(bench: Bench, { settingScatter }: CalibrationNumbers): number {
  const { central } = lampOrigin(bench);
  return central === null ? 0 : Math.sqrt(centralVariance(central, (settingScatter ?? 0) ** 2));
}

function lineIndex(
  line: CalibratedLine,
  { apexAngleDeg, apexUArcmin, centralUArcmin }: SharedErrors,
): LineIndex[] {
  const { wavelengthNm, deviationDeg, standardUncertainty } = line;
  if (wavelengthNm === null || deviationDeg === null || standardUncertainty === null) return [];
  const sensitivity = indexSensitivities(apexAngleDeg, deviationDeg);
  const fromReading = sensitivity.perDeviationArcmin * standardUncertainty;
  const fromCentral = sensitivity.perDeviationArcmin * centralUArcmin;
  const fromApexAngle = Math.abs(sensitivity.perApexArcmin) * apexUArcmin;
  return [
    {
      index: line.index,
      wavelengthNm,
      deviationDeg,
      value: indexAtMinimum(apexAngleDeg, deviationDeg),
      fromReading,
      fromCentral,
      fromApexAngle,
      standardUncertainty: Math.hypot(fromReading, fromCentral, fromApexAngle),
    },
  ];
}

interface GlassConstants {
  readonly nd: Uncertain;
  readonly abbeNumber: Uncertain;
  readonly covariance: number;
  readonly extrapolated: boolean;
}

/** nd and Abbe number through the curve, with the covariance of its three ordinates and the shared errors. */
function glassConstants(
  curve: CalibrationCurve,
  { apexAngleDeg, apexUArcmin, centralUArcmin }: SharedErrors,
): GlassConstants | null {
  const wavelengths = [ABBE_LINES_NM.d, ABBE_LINES_NM.F, ABBE_LINES_NM.C];
  if (wavelengths.some((nm) => nm < curve.domainNm[0] || nm > curve.domainNm[1])) return null;
  const deviationsDeg = wavelengths.map((nm) => curve.ordinateAt(nm) / 60);
  const [nd = Number.NaN, nF = Number.NaN, nC = Number.NaN] = deviationsDeg.map((deg) =>
    indexAtMinimum(apexAngleDeg, deg),
  );
  const dispersion = nF - nC;
  if (!(dispersion > 0)) return null;
  const abbeNumber = (nd - 1) / dispersion;

  // Gradients of nd and V with respect to (nd, nF, nC), then to the three deviations and A by the chain rule.
  const ofNd = [1, 0, 0];
  const ofAbbe = [1 / dispersion, -abbeNumber / dispersion, abbeNumber / dispersion];
  const sensitivities = deviationsDeg.map((deg) => indexSensitivities(apexAngleDeg, deg));
  const covarianceOf = (first: readonly number[], second: readonly number[]): number => {
    let sum = 0;
    for (const [i, a] of sensitivities.entries()) {
      for (const [j, b] of sensitivities.entries()) {
        const deviationCovariance = curve.covariance(wavelengths[i]!, wavelengths[j]!) + centralUArcmin ** 2;
        const deviationPart = a.perDeviationArcmin * b.perDeviationArcmin * deviationCovariance;
        const apexPart = a.perApexArcmin * b.perApexArcmin * apexUArcmin ** 2;
        sum += first[i]! * second[j]! * (deviationPart + apexPart);
      }
    }
    return sum;
  };
  return {
    nd: { value: nd, standardUncertainty: Math.sqrt(covarianceOf(ofNd, ofNd)) },
    abbeNumber: { value: abbeNumber, standardUncertainty: Math.sqrt(covarianceOf(ofAbbe, ofAbbe)) },
    covariance: covarianceOf(ofNd, ofAbbe),
    extrapolated: wavelengths.some((nm) => nm < curve.rangeNm[0] || nm > curve.rangeNm[1]),
  };
}

function nearestGlasses(measured: GlassConstants): GlassHint[] {
  const hints = glasses.map((glass) => {
    const ndVariance = measured.nd.standardUncertainty ** 2 + MELT_SPREAD.nd ** 2;
    const abbeVariance =
      measured.abbeNumber.standardUncertainty ** 2 + (MELT_SPREAD.abbeFraction * glass.abbeNumber) ** 2;
    const dn = measured.nd.value - glass.nd;
    const dV = measured.abbeNumber.value - glass.abbeNumber;
    // Mahalanobis distance with the 2 by 2 covariance written out.
    const determinant = ndVariance * abbeVariance - measured.covariance ** 2;
    const squared =
      (abbeVariance * dn * dn - 2 * measured.covariance * dn * dV + ndVariance * dV * dV) / determinant;
    return { glass, distance: Math.sqrt(squared) };
  });
  return hints.sort((a, b) => a.distance - b.distance).slice(0, 3);
}

function notesFor(bench: Bench, lines: readonly LineIndex[]): string[] {
  const notes: string[] = [];
  const apex = bench.apexAngle;
  if (apex?.uDeg === null) {
    notes.push('The apex angle has no stated uncertainty: the indices hold for that angle exactly.');
  } else {
    notes.push(
      'The uncertainty of the apex angle is one mistake shared by all lines: it moves all indices alike.',
    );
  }
  const first = lines[0];
  if (bench.prism === 'fixed') {
    notes.push(
      first === undefined
        ? 'The prism was set once, and no known line is named as the one it was set for: no index can be given (name it in setAtNm).'
        : 'The prism was set once: only the line it was set for was at minimum deviation, so only its index is given.',
    );
  }
  if (first !== undefined && apex !== null) {
    const excess = excessPerDegreeSquaredArcmin(apex.valueDeg, first.deviationDeg);
    const bias = excess * indexSensitivities(apex.valueDeg, first.deviationDeg).perDeviationArcmin;
    notes.push(
      `A prism that is not quite at minimum deviation makes every index too large, never too small: by ${bias.toFixed(5)} for a setting 1° away (${excess.toFixed(1)}′ in the deviation), growing with the square.`,
    );
  }
  return notes;
}
