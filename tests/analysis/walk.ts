/** Every number in an analysis. */
import type { Analysis } from '../../src/analysis/types.ts';

/** Paths of numbers that are NaN or infinite; functions (the curve) are asked at the visible wavelengths. */
export function unsoundNumbers(analysis: Analysis): string[] {
  const found: string[] = [];
  const seen = new Set<object>();
  const visit = (value: unknown, path: string): void => {
    if (typeof value === 'number' && !Number.isFinite(value)) found.push(`${path}: ${value}`);
    if (typeof value === 'string' && /\b(NaN|Infinity|undefined)\b/.test(value))
      found.push(`${path}: ${value}`);
    if (typeof value !== 'object' || value === null || seen.has(value)) return;
    seen.add(value);
    for (const [key, inner] of Object.entries(value)) visit(inner, `${path}.${key}`);
  };
  visit(analysis, 'analysis');
  const { curve } = analysis.calibration;
  if (curve !== null) {
    for (const nm of [400, 500, 600, 700]) {
      const ordinate = curve.ordinateAt(nm);
      visit({ ordinate, slope: curve.slopeAt(nm), variance: curve.covariance(nm, nm) }, `curve at ${nm}`);
      visit(curve.wavelengthAt(ordinate, 1), `wavelength at ${nm}`);
    }
  }
  return found;
}
