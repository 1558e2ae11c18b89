/** Densities and variances written out from their definitions, to hold those of the program against. */

/** ln of the normal density. */
export const logNormal = (x: number, variance: number): number =>
  -(x ** 2) / (2 * variance) - Math.log(Math.sqrt(2 * Math.PI * variance));

/** Rounding to a tick (GUM 4.3.7). */
export const rounding = (leastCount: number): number => leastCount ** 2 / 12;

/** The same with one reading in fifty a whole tick off. */
export const resolution = (leastCount: number): number => leastCount ** 2 / 12 + 0.02 * leastCount ** 2;
