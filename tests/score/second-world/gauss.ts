/** Normal and Student distribution functions. */

/** Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26: absolute error below 1.5e-7. */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail =
    0.5 *
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp(-x * x);
  return z < 0 ? tail : 1 - tail;
}

/** Student's distribution with four degrees of freedom scaled to standard deviation 1 (it has variance 2). */
export function heavyBelow(z: number): number {
  const t = z * Math.SQRT2;
  const q = 1 + (t * t) / 4;
  return 0.5 + 0.375 * (t / Math.sqrt(q)) * (1 - (t * t) / (12 * q));
}
