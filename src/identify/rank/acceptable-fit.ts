/** Is a candidate's fit good enough to stand on its own? */
import { sumOf } from '../../numeric/sum.ts';
import { ONE_IN, WORST_FIT } from '../assumptions.ts';
import type { Candidate } from '../types.ts';

/** Does the row fit the readings by itself, whatever its rivals do? */
export function fitIsAcceptable(candidate: Pick<Candidate, 'matches' | 'unexplained'>): boolean {
  const { matches, unexplained } = candidate;
  const readings = matches.length + unexplained.length;
  const corrected = matches.filter((match) => !match.asRead).length;
  if (matches.length === 0) return false;
  const squares = sumOf(matches, (match) => match.residualSigma ** 2);
  const allowed = WORST_FIT ** 2 * (1 + 2 / matches.length);
  // A central image corrected changes all readings alike and counts once.
  const faults = unexplained.length + (corrected === matches.length ? Math.min(corrected, 1) : corrected);
  return squares / matches.length < allowed && faults <= Math.floor(readings / ONE_IN);
}
