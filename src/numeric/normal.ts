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
  3.1611237438705656, 1.13864154151050156e2, 3.77485237685302021e2, 3.20937758913846947e3,
  1.85777706184603153e-1,
];
const SMALL_Q = [2.36012909523441209e1, 2.44024637934444173e2, 1.28261652607737228e3, 2.84423683343917062e3];
const MIDDLE_P = [
  5.64188496988670089e-1, 8.88314979438837594, 6.61191906371416295e1, 2.98635138197400131e2,
  8.8195222124176909e2, 1.71204761263407058e3, 2.05107837782607147e3, 1.23033935479799725e3,
  2.15311535474403846e-8,
];
const MIDDLE_Q = [
  1.57449261107098347e1, 1.17693950891312499e2, 5.37181101862009858e2, 1.62138957456669019e3,
  3.29079923573345963e3, 4.36261909014324716e3, 3.43936767414372164e3, 1.23033935480374942e3,
];
const LARGE_P = [
  3.05326634961232344e-1, 3.60344899949804439e-1, 1.25781726111229246e-1, 1.60837851487422766e-2,
  6.58749161529837803e-4, 1.63153871373020978e-2,
];
const LARGE_Q = [
  2.56852019228982242, 1.87295284992346725, 5.27905102951428412e-1, 6.05183413124413191e-2,
  2.33520497626869185e-3,
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
  if (y > 27) return x > 0 ? 0 : 2;
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
