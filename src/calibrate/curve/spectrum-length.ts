/** How long the visible spectrum is on a bench. */
import { wellSeenNm } from '../../lines/visible.ts';
import type { CalibrationCurve } from '../types.ts';

/** In the ordinate's unit, as far as the curve reaches. */
export function spectrumLength({
  domainNm: [shortest, longest],
  ordinateAt,
}: Pick<CalibrationCurve, 'domainNm' | 'ordinateAt'>): number {
  const at = (nm: number): number => ordinateAt(Math.max(shortest, Math.min(longest, nm)));
  return Math.abs(at(wellSeenNm.shortest) - at(wellSeenNm.longest));
}
