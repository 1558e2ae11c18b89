/** Is a shift of all readings that of one window, or of one side, alone? */
import { wrapDegrees } from '../../angle/wrap.ts';
import { benchConstants, lineSettings } from '../../observe/bench-constants.ts';
import { tubeOrigin } from '../../observe/origin.ts';
import type { Bench, UnknownTube } from '../../record/bench.ts';

export type ReadingPartName = 'first-window' | 'second-window' | 'left' | 'right';

/**
 * The window or side whose readings alone are shifted against the known lines, where the mean of all is by `shiftArcmin`:
 * the other one, by what the two say of each other, is nearer to no shift than to that. Null where both are shifted, where
 * there is one of them only, or too few lines to say.
 */
export function shiftedPart(bench: Bench, tube: UnknownTube, shiftArcmin: number): ReadingPartName | null {
  const ofKnown = benchConstants({ ...bench, central: [], tubes: [] });
  const ofTube = benchConstants({ ...bench, central: [], known: [], tubes: [{ ...tube, central: null }] });
  const isLess = (arcmin: number): boolean => Math.abs(arcmin) < Math.abs(shiftArcmin) / 2;
  if (bench.method === 'both-sides') {
    if (ofKnown.midpointDeg === null || ofTube.midpointDeg === null) return null;
    // Of the arc between the sides half is the deviation; both sides move with their middle.
    const middle = 60 * wrapDegrees(ofTube.midpointDeg - ofKnown.midpointDeg) * directionOfLeft(bench);
    if (isLess(shiftArcmin - middle)) return 'left';
    return isLess(shiftArcmin + middle) ? 'right' : null;
  }
  const [known, own] = [ofKnown.windowDifferenceArcmin, ofTube.windowDifferenceArcmin];
  const { side, isOwn } = tubeOrigin(bench, tube);
  if (known === null || own === null || isOwn) return null;
  const half = (side * (own - known)) / 2;
  if (isLess(shiftArcmin - half)) return 'second-window';
  return isLess(shiftArcmin + half) ? 'first-window' : null;
}

/** +1 where the readings of the left side grow with the deviation. */
function directionOfLeft(bench: Bench): 1 | -1 {
  const [setting] = lineSettings(bench);
  if (setting?.kind !== 'both-sides') return 1;
  return wrapDegrees(setting.left[0]! - setting.right[0]!) < 0 ? -1 : 1;
}
