/** From the ranking to a verdict. */
import { fitIsAcceptable } from '../rank/acceptable-fit.ts';
import type { Candidate, NextLook, Verdict } from '../types.ts';

const IDENTIFIED = 0.99;
const UNLISTED = 0.9;

/** `findLook`: where one more look would tell most; asked only where the readings do not decide. */
export function verdict(candidates: readonly Candidate[], findLook: () => NextLook | null): Verdict {
  const first = candidates[0];
  const undecided = { kind: 'undecided', substance: null, fitsPoorly: false } as const;
  if (!first) return { ...undecided, nextLook: null };
  if (first.symbol === null)
    return {
      ...undecided,
      kind: first.probability >= UNLISTED ? 'unlisted' : 'undecided',
      nextLook: findLook(),
    };
  if (first.probability < IDENTIFIED) return { ...undecided, nextLook: findLook() };
  if (!fitIsAcceptable(first)) return { ...undecided, fitsPoorly: true, nextLook: findLook() };
  return { kind: 'identified', substance: first.substance, fitsPoorly: false, nextLook: null };
}
