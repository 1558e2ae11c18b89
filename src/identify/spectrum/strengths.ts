/** How strong each component of a tube may be: the atom's lines, the ion's, a system of bands rise and fall together. */
import type { Component } from '../../lines/spectrum.ts';
import { MOST_COMPONENTS, STRONG, WORTH_A_STRENGTH } from '../assumptions.ts';

/** One set of strengths. */
export interface Strengths {
  /** What each component's lines gain in prominence, in the order of the tube's components. */
  readonly gains: readonly number[];
  readonly logWeight: number;
}

/**
 * Strengths that stand for all: the ordinary one first, then each component alone stronger and weaker. `brightest`:
 * prominence of each component's brightest line. The sigma points of S. J. Julier, J. K. Uhlmann, Proc. SPIE 3068, 182 (1997),
 * with κ = 1: mean and covariance of independent normal strengths are kept.
 */
export function strengthNodes(components: readonly Component[], brightest: readonly number[]): Strengths[] {
  const free = components
    .map(({ strengthSd }, index) => ({ strengthSd, index, most: brightest[index]! + STRONG * strengthSd }))
    .filter(({ strengthSd, most }) => strengthSd > 0 && most > WORTH_A_STRENGTH)
    .sort((a, b) => b.most - a.most)
    .slice(0, MOST_COMPONENTS);
  const ordinary = components.map(() => 0);
  const count = free.length + 1;
  const beside = free.flatMap(({ strengthSd, index }) =>
    [1, -1].map((sign) => ({
      gains: ordinary.map((gain, i) => (i === index ? sign * Math.sqrt(count) * strengthSd : gain)),
      logWeight: -Math.log(2 * count),
    })),
  );
  return [{ gains: ordinary, logWeight: -Math.log(count) }, ...beside];
}
