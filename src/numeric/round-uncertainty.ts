/** A value and its uncertainty as strings with matching decimals. */
export interface RoundedValue {
  readonly value: string;
  readonly u: string;
  /** `640.4 ± 1.9` */
  readonly text: string;
}

/**
 * Decimals to which a standard uncertainty is given, by the rule of the Particle Data Group
 * (Review of Particle Physics, Introduction, section 5.3): of its three leading digits, 100-354 are given to
 * two digits, 355-949 to one, and 950-999 are rounded up to 1000 and given to two (the same decimals as one
 * digit of what was rounded).
 */
export function decimalsForUncertainty(u: number): number {
  if (!(u > 0) || !Number.isFinite(u))
    throw new RangeError(`an uncertainty must be positive and finite: ${u}`);
  const [mantissa = '', exponentText = ''] = u.toExponential(2).split('e');
  const leading = Math.round(Number(mantissa) * 100);
  const exponent = Number(exponentText);
  return leading <= 354 ? 1 - exponent : -exponent;
}

function toDecimals(value: number, decimals: number): string {
  if (decimals >= 0)
    return (Math.round(value * 10 ** decimals) / 10 ** decimals || 0).toFixed(Math.min(decimals, 20));
  const step = 10 ** -decimals;
  return (Math.round(value / step) * step || 0).toFixed(0);
}

/**
 * Rounds a value to the decimals its standard uncertainty warrants (same unit for both).
 * Throws RangeError when either is not finite or the uncertainty is not positive.
 */
export function roundWithUncertainty(value: number, u: number): RoundedValue {
  if (!Number.isFinite(value)) throw new RangeError(`a value must be finite: ${value}`);
  const decimals = decimalsForUncertainty(u);
  const rounded = { value: toDecimals(value, decimals), u: toDecimals(u, decimals) };
  return { ...rounded, text: `${rounded.value} ± ${rounded.u}` };
}
