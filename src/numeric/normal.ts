const LOG_SQRT_2PI = 0.5 * Math.log(2 * Math.PI);

/** ln of the normal density at `distance` from the mean, for a variance. */
export function logNormalDensity(distance: number, variance: number): number {
  return -0.5 * ((distance * distance) / variance + Math.log(variance)) - LOG_SQRT_2PI;
}

/**
 * The standard normal distribution function, through the complementary error function as a Chebyshev-type
 * rational approximation carried to double precision: W. J. Cody, Math. Comp. 23, 631 (1969).
 */
export function normalCdf(z: number): number {
  return 0.5 * complementaryErrorFunction(-z / Math.SQRT2);
}

const SMALL_P = [
  3.1611237438705655, 113.86415415105016, 377.485237685302, 3209.3775891384694, 0.18577770618460315,
];
const SMALL_Q = [23.601290952344122, 244.02463793444417, 1282.6165260773723, 2844.236833439171];
const MIDDLE_P = [
  0.5641884969886701, 8.883149794388377, 66.11919063714163, 298.6351381974001, 881.952221241769,
  1712.0476126340707, 2051.0783778260716, 1230.3393547979972, 2.1531153547440383e-8,
];
const MIDDLE_Q = [
  15.744926110709835, 117.6939508913125, 537.1811018620099, 1621.3895745666903, 3290.7992357334597,
  4362.619090143247, 3439.3676741437216, 1230.3393548037495,
];
const LARGE_P = [
  0.30532663496123236, 0.36034489994980445, 0.12578172611122926, 0.016083785148742275, 0.0006587491615298378,
  0.016315387137302097,
];
const LARGE_Q = [
  2.568520192289822, 1.8729528499234673, 0.5279051029514285, 0.06051834131244132, 0.0023352049762686918,
];

function rational(y: number, p: readonly number[], q: readonly number[]): number {
  let top = p[p.length - 1]! * y;
  let bottom = y;
  for (let i = 0; i < q.length - 1; i += 1) {
    top = (top + p[i]!) * y;
    bottom = (bottom + q[i]!) * y;
  }
  return (top + p[q.length - 1]!) / (bottom + q[q.length - 1]!);
}

function complementaryErrorFunction(x: number): number {
  const y = Math.abs(x);
  if (y <= 0.46875) return 1 - x * rational(y * y, SMALL_P, SMALL_Q);
  // Beyond these the nearest double is the limit itself.
  if (x > 27) return 0;
  if (x < -6) return 2;
  let value: number;
  if (y <= 4) {
    value = rational(y, MIDDLE_P, MIDDLE_Q);
  } else {
    const inverse = 1 / (y * y);
    value = (1 / Math.sqrt(Math.PI) - inverse * rational(inverse, LARGE_P, LARGE_Q)) / y;
  }
  // Splitting the square keeps the exponent exact where it is large.
  const coarse = Math.trunc(y * 16) / 16;
  value *= Math.exp(-coarse * coarse) * Math.exp(-(y - coarse) * (y + coarse));
  return x > 0 ? value : 2 - value;
}
