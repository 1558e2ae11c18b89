/** The prism's refractive index at the known lines, and what it says of the glass, each with its uncertainty. */
import { apexUncertaintyDeg } from '../observe/apex-angle.ts';
import { centralVariance } from '../observe/central-image.ts';
import { lampOrigin } from '../observe/origin.ts';
import { usualScatter } from '../observe/setting-scatter.ts';
import type { Bench } from '../record/bench.ts';
import { INDEX_OF_A_PRISM, MELT_SPREAD, NAMED_FROM_MEMORY_NM } from './assumptions.ts';
import { type CauchyFormula, fitCauchy } from './cauchy.ts';
import { type Glass, glasses } from './curve/glasses.ts';
import {
  excessPerDegreeSquaredArcmin,
  indexAtMinimum,
  indexSensitivities,
} from './curve/minimum-deviation.ts';
import { isUsedAsRead } from './known-line-status.ts';
import type { CalibratedLine, CalibrationCurve, CalibrationNumbers } from './types.ts';

/** Fraunhofer lines of the Abbe number, nm in air: He d, H F, H C: the lines of glass catalogues (SCHOTT TIE-29, rounded). */
export const ABBE_LINES_NM = { d: 587.56, F: 486.13, C: 656.27 } as const;

export interface Uncertain {
  readonly value: number;
  readonly standardUncertainty: number;
}

export interface LineIndex extends Uncertain {
  /** Index of the known line in the record; null: taken from the curve where no line was read. */
  readonly index: number | null;
  readonly wavelengthNm: number;
  readonly deviationDeg: number;
  /** Part of the uncertainty from this line's own reading, or from the curve. */
  readonly fromReading: number;
  /**
   * Part from the central image; the same mistake in every line. 0 where none is needed. With a move of the bench after it
   * was read, which is the same in all lines of a lamp.
   */
  readonly fromCentral: number;
  /** Part from the apex angle; the same mistake in every line. */
  readonly fromApexAngle: number;
  /** Angular dispersion dδ/dλ of the curve here, arc-minutes per nm (negative); null without a curve. */
  readonly angularDispersion: Uncertain | null;
  /**
   * Resolving power λ/Δλ = t·|dn/dλ| for each mm of the base t that the light fills (Lord Rayleigh, Phil. Mag. 8, 261
   * (1879)): the limit by diffraction, with a slit of no width. Null without a curve.
   */
  readonly resolvingPowerPerMm: Uncertain | null;
}

export interface GlassHint {
  readonly glass: Glass;
  /** Distance in (nd, Abbe number) in standard deviations of the measurement and the spread between melts. */
  readonly distance: number;
}

/** What a reader must know to use the indices. */
export type IndexNote =
  | { readonly what: 'apex-exact' | 'apex-common' | 'apex-from-images' }
  /** The prism was set once, and where is not written down; or it is beyond the curve. */
  | { readonly what: 'set-where' }
  | { readonly what: 'set-beyond-curve'; readonly setAtNm: number }
  /** No glass or liquid has such an index: the apex angle is wrong, or all deviations are. */
  | { readonly what: 'no-such-index'; readonly index: number; readonly apexAngleDeg: number }
  /** Only one line was at minimum deviation. */
  | { readonly what: 'set-once'; readonly setAtNm: number; readonly isRead: boolean }
  /** By how much an index comes out too large for a prism set 1° away from minimum deviation. */
  | { readonly what: 'misset'; readonly index: number; readonly deviationArcmin: number };

export interface RefractiveIndices {
  readonly apexAngleDeg: number;
  /** Null: taken as exact. */
  readonly apexUncertaintyDeg: number | null;
  /** In record order. */
  readonly lines: readonly LineIndex[];
  /** Null with fewer than two wavelengths. */
  readonly cauchy: CauchyFormula | null;
  readonly nd: Uncertain | null;
  /** nF - nC. */
  readonly principalDispersion: Uncertain | null;
  readonly abbeNumber: Uncertain | null;
  /** True when a wavelength that was asked for lies outside the range of the known lines. */
  readonly extrapolated: boolean;
  /** Nearest first, three at most; empty without an Abbe number. */
  readonly nearestGlasses: readonly GlassHint[];
  readonly notes: readonly IndexNote[];
}

/**
 * Indices of the known lines, nd and Abbe number. Null where the bench gives none: no apex angle, an arbitrary
 * scale, or no known line with a deviation. With a prism that was set once there is one index, where it was set: of the
 * line that was read there, else from the curve, which touches the curve of minimum deviation there.
 */
export function refractiveIndices(bench: Bench, calibration: CalibrationNumbers): RefractiveIndices | null {
  const apex = bench.apexAngle;
  if (apex === null || bench.method === 'scale') return null;
  const { settingScatter, curve } = calibration;
  const settingVariance = (settingScatter ?? usualScatter(bench)) ** 2;
  const apexUDeg = apexUncertaintyDeg(bench, settingVariance);
  const { central } = lampOrigin(bench);
  const shared: SharedErrors = {
    apexAngleDeg: apex.valueDeg,
    apexUArcmin: (apexUDeg ?? 0) * 60,
    // The central image's reading is in every deviation; in a wavelength it cancels, in an index it does not.
    centralUArcmin: central === null ? 0 : Math.sqrt(centralVariance(central, settingVariance)),
  };
  const read =
    bench.prism === 'fixed' ? placeSetAt(calibration, bench.setAtNm) : linePlaces(calibration.lines);
  const places = read.filter(({ deviationDeg }) => isPrisms(apex.valueDeg, deviationDeg));
  if (places.length === 0 && bench.prism === 'each-line') return null;

  const lines = places.map((place) => indexAt(place, shared, curve, carriedU(bench, place)));
  const glass = bench.prism === 'fixed' || curve === null ? null : glassConstants(curve, shared);
  return {
    apexAngleDeg: apex.valueDeg,
    apexUncertaintyDeg: apexUDeg,
    lines,
    cauchy: fitCauchy(lines),
    nd: glass?.nd ?? null,
    principalDispersion: glass?.principalDispersion ?? null,
    abbeNumber: glass?.abbeNumber ?? null,
    extrapolated: glass?.extrapolated ?? places.some(({ isExtrapolated }) => isExtrapolated),
    nearestGlasses: glass === null ? [] : nearestGlasses(glass),
    notes: notesFor(bench, apexUDeg, lines[0]),
  };
}

/** Beyond grazing incidence, (A + δ)/2 = 90°, no prism deviates: such a reading is wrong, and gives no index. */
const isPrisms = (apexAngleDeg: number, deviationDeg: number): boolean => apexAngleDeg + deviationDeg < 180;

/** u of how far the central image was carried along with the bench before the lamp of this line was read, arc-minutes. */
function carriedU(bench: Bench, { lampIndex }: Place): number {
  return lampIndex === null ? 0 : (lampOrigin(bench, lampIndex).carried?.u ?? 0);
}

/** A wavelength with its deviation. */
interface Place {
  readonly index: number | null;
  /** Null: from the curve. */
  readonly lampIndex: number | null;
  readonly wavelengthNm: number;
  readonly deviationDeg: number;
  /** Standard uncertainty of the deviation, without what all lines share. */
  readonly uArcmin: number;
  readonly isExtrapolated: boolean;
}

function linePlaces(lines: readonly CalibratedLine[]): Place[] {
  return lines
    .filter(isUsedAsRead)
    .flatMap(({ index, lampIndex, wavelengthNm, deviationDeg, standardUncertainty: uArcmin }) =>
      wavelengthNm === null || deviationDeg === null || uArcmin === null
        ? []
        : [{ index, lampIndex, wavelengthNm, deviationDeg, uArcmin, isExtrapolated: false }],
    );
}

function placeSetAt({ lines, curve }: CalibrationNumbers, setAtNm: number | null): Place[] {
  if (setAtNm === null) return [];
  const read = linePlaces(lines).filter(
    ({ wavelengthNm }) => Math.abs(wavelengthNm - setAtNm) <= NAMED_FROM_MEMORY_NM,
  );
  if (read.length > 0 || curve === null || !isWithin(curve.domainNm, setAtNm)) return read;
  return [
    {
      index: null,
      lampIndex: null,
      wavelengthNm: setAtNm,
      deviationDeg: curve.ordinateAt(setAtNm) / 60,
      uArcmin: Math.sqrt(curve.covariance(setAtNm, setAtNm)),
      isExtrapolated: !isWithin(curve.rangeNm, setAtNm),
    },
  ];
}

const isWithin = ([from, to]: readonly [number, number], nm: number): boolean => nm >= from && nm <= to;

/** What moves all deviations or all indices of a bench alike. */
interface SharedErrors {
  readonly apexAngleDeg: number;
  readonly apexUArcmin: number;
  readonly centralUArcmin: number;
}

function indexAt(
  { index, wavelengthNm, deviationDeg, uArcmin }: Place,
  { apexAngleDeg, apexUArcmin, centralUArcmin }: SharedErrors,
  curve: CalibrationCurve | null,
  carriedUArcmin: number,
): LineIndex {
  const sensitivity = indexSensitivities(apexAngleDeg, deviationDeg);
  const fromReading = sensitivity.perDeviationArcmin * uArcmin;
  const fromCentral = sensitivity.perDeviationArcmin * Math.hypot(centralUArcmin, carriedUArcmin);
  const fromApexAngle = Math.abs(sensitivity.perApexArcmin) * apexUArcmin;
  const dispersion = curve === null ? null : slopeWithUncertainty(curve, wavelengthNm);
  // dn/dλ = ∂n/∂δ · dδ/dλ per nm, and a mm has a million of them.
  const perMm = 1e6 * sensitivity.perDeviationArcmin;
  return {
    index,
    wavelengthNm,
    deviationDeg,
    value: indexAtMinimum(apexAngleDeg, deviationDeg),
    fromReading,
    fromCentral,
    fromApexAngle,
    standardUncertainty: Math.hypot(fromReading, fromCentral, fromApexAngle),
    angularDispersion: dispersion,
    resolvingPowerPerMm: dispersion && {
      value: perMm * Math.abs(dispersion.value),
      standardUncertainty: perMm * dispersion.standardUncertainty,
    },
  };
}

/** Half the distance over which the slope's uncertainty is taken as that of a difference, nm. */
const SLOPE_STEP_NM = 2;

function slopeWithUncertainty(curve: CalibrationCurve, nm: number): Uncertain | null {
  const [from, to] = curve.domainNm;
  const low = Math.max(from, nm - SLOPE_STEP_NM);
  const high = Math.min(to, nm + SLOPE_STEP_NM);
  if (!(high > low)) return null;
  const variance =
    curve.covariance(low, low) + curve.covariance(high, high) - 2 * curve.covariance(low, high);
  return {
    value: curve.slopeAt(nm),
    standardUncertainty: Math.sqrt(Math.max(0, variance)) / (high - low),
  };
}

/** What a bench says of its glass. */
export interface GlassConstants {
  readonly nd: Uncertain;
  readonly principalDispersion: Uncertain;
  readonly abbeNumber: Uncertain;
  /** Of nd and the Abbe number. */
  readonly covariance: number;
  readonly extrapolated: boolean;
}

/** nd and Abbe number through the curve, with the covariance of its three ordinates and the shared errors. */
function glassConstants(
  curve: CalibrationCurve,
  { apexAngleDeg, apexUArcmin, centralUArcmin }: SharedErrors,
): GlassConstants | null {
  const wavelengths = [ABBE_LINES_NM.d, ABBE_LINES_NM.F, ABBE_LINES_NM.C];
  if (!wavelengths.every((nm) => isWithin(curve.domainNm, nm))) return null;
  const deviationsDeg = wavelengths.map((nm) => curve.ordinateAt(nm) / 60);
  if (!deviationsDeg.every((deg) => isPrisms(apexAngleDeg, deg))) return null;
  const [nd = Number.NaN, nF = Number.NaN, nC = Number.NaN] = deviationsDeg.map((deg) =>
    indexAtMinimum(apexAngleDeg, deg),
  );
  const dispersion = nF - nC;
  if (!(dispersion > 0)) return null;
  const abbeNumber = (nd - 1) / dispersion;

  // Gradients of nd and V with respect to (nd, nF, nC), then to the three deviations and A by the chain rule.
  const ofNd = [1, 0, 0];
  const ofDispersion = [0, 1, -1];
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
  const uncertain = (value: number, gradient: readonly number[]): Uncertain => ({
    value,
    standardUncertainty: Math.sqrt(covarianceOf(gradient, gradient)),
  });
  return {
    nd: uncertain(nd, ofNd),
    principalDispersion: uncertain(dispersion, ofDispersion),
    abbeNumber: uncertain(abbeNumber, ofAbbe),
    covariance: covarianceOf(ofNd, ofAbbe),
    extrapolated: !wavelengths.every((nm) => isWithin(curve.rangeNm, nm)),
  };
}

/** The catalogue glasses nearest to it, in standard deviations of measurement and melt together (Mahalanobis). */
export function nearestGlasses(measured: GlassConstants): GlassHint[] {
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

function notesFor(bench: Bench, apexUDeg: number | null, first: LineIndex | undefined): IndexNote[] {
  const { apexAngle, setAtNm } = bench;
  const apexAngleDeg = apexAngle?.valueDeg ?? 0;
  const uncertain = apexAngle?.images !== undefined ? 'apex-from-images' : 'apex-common';
  const notes: IndexNote[] = [{ what: apexUDeg === null ? 'apex-exact' : uncertain }];
  if (bench.prism === 'fixed') {
    if (setAtNm === null) notes.push({ what: 'set-where' });
    else if (first === undefined) notes.push({ what: 'set-beyond-curve', setAtNm });
    else notes.push({ what: 'set-once', setAtNm, isRead: first.index !== null });
  }
  if (first !== undefined) {
    const { least, most } = INDEX_OF_A_PRISM;
    if (first.value < least || first.value > most)
      notes.unshift({ what: 'no-such-index', index: first.value, apexAngleDeg });
    const deviationArcmin = excessPerDegreeSquaredArcmin(apexAngleDeg, first.deviationDeg);
    const { perDeviationArcmin } = indexSensitivities(apexAngleDeg, first.deviationDeg);
    notes.push({ what: 'misset', index: deviationArcmin * perDeviationArcmin, deviationArcmin });
  }
  return notes;
}
