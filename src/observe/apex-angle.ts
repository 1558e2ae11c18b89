/** The uncertainty of the prism's apex angle. */
import type { Bench } from '../record/bench.ts';
import { stepOf } from './reading-step.ts';
import { readingVariance, resolutionVariance } from './reading-variance.ts';

/**
 * Standard uncertainty of A in degrees: as stated, or, where A is half the angle between two reflected images, from
 * their two readings, each with the resolution of the circle, or the step to which both were written, and one setting of
 * the cross-hairs (JCGM 100:2008, 5.1.2). Null where A is taken as exact. `settingVariance`: of one setting on this bench, arcmin².
 */
export function apexUncertaintyDeg(bench: Bench, settingVariance: number): number | null {
  const { apexAngle, windows } = bench;
  if (apexAngle === null) return null;
  if (apexAngle.images === undefined) return apexAngle.uDeg;
  const step = stepOf(bench, apexAngle.images);
  const ofOneImage = readingVariance(
    { resolutionVariance: resolutionVariance(step) / windows, settingShare: 1 },
    settingVariance,
  );
  return Math.sqrt(ofOneImage / 2) / 60;
}
