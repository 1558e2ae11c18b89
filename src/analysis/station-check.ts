/** Two calibrations of one bench compared: has it moved, has the prism changed, is it read worse than before? */
import { wrapDegrees } from '../angle/wrap.ts';
import type { CalibrationCurve, OrdinateUnit } from '../calibrate/types.ts';
import { sumOf } from '../numeric/sum.ts';
import { centralVariance } from '../observe/central-image.ts';
import { lampOrigin, type Origin } from '../observe/origin.ts';
import { capital } from '../words/verdict.ts';
import { SIGNIFICANT, WORSE_SCATTER } from './assumptions.ts';
import type { Analysis, ToldCalibration } from './types.ts';

/** Now minus before, in arc-minutes or scale units. */
export interface Difference {
  readonly value: number;
  readonly standardUncertainty: number;
}

export interface CurveChange {
  readonly commonRangeNm: readonly [number, number];
  /** Mean difference of the two curves over the common range. */
  readonly shift: Difference;
  /** Difference at the short end minus difference at the long end: zero while the prism is the same. */
  readonly stretch: Difference;
}

export interface StationCheck {
  readonly unit: OrdinateUnit;
  /** Movement of the central image on the circle; null where one record has none. */
  readonly central: Difference | null;
  /** Null where a calibration is missing or they share no range. */
  readonly curve: CurveChange | null;
  /** Standard deviation of one setting of the cross-hairs. */
  readonly scatter: { readonly before: number; readonly now: number } | null;
  readonly findings: readonly ('central-moved' | 'readings-shifted' | 'prism-changed' | 'scatter-worse')[];
  readonly sentence: string;
}

/** Compares today's bench with an earlier one. Throws RangeError when one reads angles and the other a scale. */
export function checkStation(before: Analysis, now: Analysis): StationCheck {
  const { unit } = now.calibration;
  if (unit !== before.calibration.unit) {
    throw new RangeError('a divided circle cannot be compared with an arbitrary scale');
  }
  const central = centralMovement(before, now);
  const curve = curveChange(before.calibration.curve, now.calibration.curve);
  const scatter = scatterChange(before.calibration, now.calibration);
  const findings: StationCheck['findings'][number][] = [];
  if (central !== null && isSignificant(central)) findings.push('central-moved');
  if (curve !== null && isSignificant(curve.stretch)) findings.push('prism-changed');
  else if (curve !== null && isSignificant(curve.shift)) findings.push('readings-shifted');
  if (scatter !== null && scatter.now > WORSE_SCATTER * scatter.before) findings.push('scatter-worse');
  return { unit, central, curve, scatter, findings, sentence: sentenceFor(findings, curve) };
}

/** Beyond `SIGNIFICANT` standard uncertainties; value and u in one unit. */
export function isSignificant({ value, standardUncertainty }: Difference): boolean {
  return Math.abs(value) > SIGNIFICANT * standardUncertainty;
}

function centralMovement(before: Analysis, now: Analysis): Difference | null {
  // Between the end of the one session and the start of the other.
  const first = directionOf(before, lampOrigin(before.bench));
  const second = directionOf(now, lampOrigin(now.bench, 0));
  if (first === null || second === null) return null;
  return {
    value: 60 * wrapDegrees(second.directionDeg - first.directionDeg),
    standardUncertainty: Math.sqrt(first.variance + second.variance),
  };
}

function directionOf({ calibration }: Analysis, { central: image, carried }: Origin) {
  if (image === null) return null;
  const variance = centralVariance(image, (calibration.settingScatter ?? 0) ** 2) + (carried?.u ?? 0) ** 2;
  return { directionDeg: image.windowsDeg[0] ?? 0, variance };
}

function curveChange(before: CalibrationCurve | null, now: CalibrationCurve | null): CurveChange | null {
  if (before === null || now === null) return null;
  const shortest = Math.max(before.rangeNm[0], now.rangeNm[0]);
  const longest = Math.min(before.rangeNm[1], now.rangeNm[1]);
  if (shortest >= longest) return null;
  const places = [shortest, (shortest + longest) / 2, longest];
  const combined = (weights: readonly number[]): Difference => ({
    value: weighted(weights, (at) => now.ordinateAt(places[at]!) - before.ordinateAt(places[at]!)),
    standardUncertainty: Math.sqrt(
      weighted(weights, (row) =>
        weighted(weights, (column) => {
          const [a, b] = [places[row]!, places[column]!];
          return before.covariance(a, b) + now.covariance(a, b);
        }),
      ),
    ),
  });
  return {
    commonRangeNm: [shortest, longest],
    shift: combined([1 / 3, 1 / 3, 1 / 3]),
    stretch: combined([1, 0, -1]),
  };
}

function weighted(weights: readonly number[], valueAt: (at: number) => number): number {
  return sumOf(weights, (weight, at) => weight * valueAt(at));
}

function scatterChange(before: ToldCalibration, now: ToldCalibration): StationCheck['scatter'] {
  if (before.settingScatter === null || now.settingScatter === null) return null;
  return { before: before.settingScatter, now: now.settingScatter };
}

const findingText: Readonly<Record<StationCheck['findings'][number], string>> = {
  'central-moved': 'the central image has moved on the circle (table or telescope turned)',
  'readings-shifted': 'all deviations are shifted alike (a central image misread, or the prism turned)',
  'prism-changed': 'the dispersion is another one (prism swapped, or no longer at minimum deviation)',
  'scatter-worse': 'the readings scatter more than before',
};

function sentenceFor(findings: StationCheck['findings'], curve: CurveChange | null): string {
  if (findings.length > 0) {
    const all = findings.map((finding) => findingText[finding]).join('; ');
    return `${capital(all)}.`;
  }
  return curve === null
    ? 'The two calibrations have no range in common, so nothing can be said of the prism.'
    : 'The bench is as it was: no difference that the uncertainty of the readings does not explain.';
}
