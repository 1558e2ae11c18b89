/** Is a candidate's fit good enough to stand on its own? */
import type { Candidate } from './types.ts';

/** Root mean square of residuals in units of u beyond which a fit is not acceptable however few the rivals. */
const WORST_FIT = 2.2;

/** Does the row fit the readings by itself, whatever its rivals do? */
export function fitIsAcceptable(candidate: Candidate): boolean {
  const { matches, unexplained } = candidate;
  if (matches.length === 0) return false;
  const squares = matches.reduce((sum, match) => sum + match.residualSigma ** 2, 0);
  const allowed = WORST_FIT ** 2 * (1 + 2 / matches.length);
  return squares / matches.length < allowed && unexplained.length <= Math.max(1, matches.length / 3);
}
