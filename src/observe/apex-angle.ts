/** The uncertainty of the prism's apex angle. */
import type { Bench } from '../record/bench.ts';
import { readingVariance, resolutionVariance } from './reading-variance.ts';

/**
 * Standard uncertainty of A in degrees: as stated, or, where A is half the angle between two reflected images, from
 * their two readings, each with the resolution of the circle and one setting of the cross-hairs (JCGM 100:2008, 5.1.2).
 * Null where A is taken as exact. `settingVariance`: of one setting on this bench, arcmin².
 */
export function apexUncertaintyDeg(bench: Bench, settingVariance: number): number | null {
  const { apexAngle, leastCount, windows } = bench;
  if (apexAngle === null) return null;
  if (apexAngle.fromImages !== true) return apexAngle.uDeg;
  const ofOneImage = readingVariance(
    { resolutionVariance: resolutionVariance(leastCount) / windows, settingShare: 1 },
    settingVariance,
  );
  return Math.sqrt(ofOneImage / 2) / 60;
}
