/** Which kind of curve the known lines ask for, and one sentence why. */

import type { ScatterPrior } from '../../observe/setting-scatter.ts';
import { amountText } from '../../words/amount-text.ts';
import type { CurveBasis } from '../curve/basis.ts';
import { predicted } from '../curve/gaussian-curve.ts';
import { type CurvePoint, type CurvePosterior, curvePosterior, pointVariance } from '../curve/posterior.ts';
import type { CurvePrior } from '../curve/prism-prior.ts';
import type { OrdinateUnit } from '../types.ts';
import { leaveOneOutRms } from './leave-one-out.ts';
import { type FittedRival, rivals } from './other-curves.ts';

export interface ChosenCurve {
  readonly posterior: CurvePosterior;
  readonly rivals: readonly FittedRival[];
  /** Of the prism curve; null with fewer than three lines. */
  readonly leaveOneOutRms: number | null;
  readonly sentence: string;
}

/** A rival must predict left-out lines this much better before it replaces the prism curve. */
const CLEARLY_BETTER = 0.7;
/** Root mean square of residuals over their uncertainty from which the prism curve is doubted. */
const POOR_FIT = 1.6;
const ENOUGH_LINES = 6;

/**
 * `usualVariance`: of one setting, before the residuals spoke; the prism curve fits badly where they exceed it.
 * `serves`: can a bench be read by this curve?
 */
export function chooseCurve(
  points: readonly CurvePoint[],
  posterior: CurvePosterior,
  scatter: ScatterPrior,
  usualVariance: number,
  unit: OrdinateUnit,
  serves: (posterior: CurvePosterior) => boolean,
): ChosenCurve {
  const others = rivals(points);
  const own = points.length >= 3 ? predictedScatter(points, posterior) : null;
  const shown = (value: number): string => amountText(value, unit);
  if (own === null) {
    const sentence = `Prism curve: ${points.length} known lines leave its shape to the catalogue of glasses, and u says so.`;
    return { posterior, rivals: others, leaveOneOutRms: null, sentence };
  }
  const usable = others.filter((rival) => rival.refused === null && rival.leaveOneOutRms !== null);
  const best = usable.sort((a, b) => a.leaveOneOutRms! - b.leaveOneOutRms!)[0];
  const replaced =
    best !== undefined &&
    points.length >= ENOUGH_LINES &&
    best.leaveOneOutRms! < CLEARLY_BETTER * own &&
    misfit(points, posterior, usualVariance) > POOR_FIT;
  const flat = replaced ? curvePosterior(best.basis, flatPrior(best.basis, points), points, scatter) : null;
  if (flat !== null && best !== undefined && serves(flat)) {
    const sentence = `${capital(best.name)}: a line left out is predicted to ${shown(best.leaveOneOutRms!)}, by the prism curve only to ${shown(own)}.`;
    return { posterior: flat, rivals: others, leaveOneOutRms: own, sentence };
  }
  const against = best ? `; the best other curve, ${best.name}, to ${shown(best.leaveOneOutRms!)}` : '';
  const sentence = `Prism curve: a line left out is predicted to ${shown(own)}${against}.`;
  return { posterior, rivals: others, leaveOneOutRms: own, sentence };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Leave-one-out scatter of the prism curve, whose prior holds it where a left-out line no longer does. */
function predictedScatter(points: readonly CurvePoint[], posterior: CurvePosterior): number | null {
  const { basis, constants, settingVariance } = posterior;
  const at = points.map((point) => {
    const slope = predicted(constants, basis.slopeAt(point.wavelengthNm)).ordinate;
    const { ordinate, variance } = predicted(constants, basis.at(point.wavelengthNm));
    const leverage = variance / pointVariance(point, settingVariance, slope);
    return { residual: point.ordinate - ordinate, leverage: Math.min(leverage, 1) };
  });
  return leaveOneOutRms(
    at.map(({ residual }) => residual),
    at.map(({ leverage }) => leverage),
  );
}

/** Root mean square of residuals in units of what resolution and the usual scatter of setting allow. */
function misfit(
  points: readonly CurvePoint[],
  { basis, constants }: CurvePosterior,
  usualVariance: number,
): number {
  const squares = points.map((point) => {
    const slope = predicted(constants, basis.slopeAt(point.wavelengthNm)).ordinate;
    const off = point.ordinate - predicted(constants, basis.at(point.wavelengthNm)).ordinate;
    return off ** 2 / pointVariance(point, usualVariance, slope);
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / points.length);
}

/** Knows nothing but the order of magnitude of the readings; a wider prior would cost digits in learning them. */
function flatPrior(basis: CurveBasis, points: readonly CurvePoint[]): CurvePrior {
  const ordinates = points.map((point) => Math.abs(point.ordinate));
  const size = 10 * Math.max(...ordinates, 1);
  const covariance = new Float64Array(basis.size * basis.size);
  for (let k = 0; k < basis.size; k += 1) {
    const largest = Math.max(...points.map((point) => Math.abs(basis.at(point.wavelengthNm)[k]!)));
    covariance[k * basis.size + k] = (size / (largest || 1)) ** 2;
  }
  return { mean: new Float64Array(basis.size), covariance };
}
