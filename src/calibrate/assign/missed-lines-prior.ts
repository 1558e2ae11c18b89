/** What it costs an assignment of lines that it passes over others of the lamp. */
import { remembered } from '../../numeric/remembered.ts';
import type { LampLine } from './line-hypotheses.ts';

/** ln chance that none of a lamp's lines between two wavelengths (nm, in either order) was read. */
export type PassedOver = (fromNm: number, toNm: number) => number;

/** Lines as close as this to either end are the ends. */
const SAME_NM = 0.01;

/** `lamp`: ascending in wavelength. Pairs read as one are no lines of their own here, and no line is missed that need not be there. */
export function passedOverOf(lamp: readonly LampLine[]): PassedOver {
  const lines = lamp.filter((line) => line.variance === 0 && !line.optional);
  const upTo = [0];
  for (const line of lines) upTo.push(upTo.at(-1)! + Math.log1p(-line.chance));
  const below = kept((nm) => lines.filter((line) => line.wavelengthNm < nm - SAME_NM).length);
  const through = kept((nm) => lines.filter((line) => line.wavelengthNm <= nm + SAME_NM).length);
  return (fromNm, toNm) => {
    const first = through(Math.min(fromNm, toNm));
    const last = below(Math.max(fromNm, toNm));
    return last > first ? upTo[last]! - upTo[first]! : 0;
  };
}

/** The search asks for the same few wavelengths thousands of times: kept as long as the prior of one lamp. */
function kept(count: (nm: number) => number): (nm: number) => number {
  const known = new Map<number, number>();
  return (nm) => remembered(known, nm, () => count(nm));
}
