/** From the ranking to a verdict. */
import { BEAR_OUT_A_SHIFT, IDENTIFIED, SURELY_UNLISTED } from '../assumptions.ts';
import { fitIsAcceptable } from '../rank/acceptable-fit.ts';
import type { Candidate, NextLook, Verdict } from '../types.ts';

/**
 * `findLook`: where one more look would tell most; asked only where the readings do not decide. `unproven`: the
 * leading row takes all readings to be shifted, and no central reading says so.
 */
export function verdict(
  candidates: readonly Candidate[],
  findLook: () => NextLook | null,
  unproven = false,
): Verdict {
  const first = candidates[0];
  const undecided = { kind: 'undecided', substance: null, heldBackBy: null } as const;
  if (!first) return { ...undecided, nextLook: null };
  if (first.symbol === null)
    return {
      ...undecided,
      kind: first.probability >= SURELY_UNLISTED ? 'unlisted' : 'undecided',
      nextLook: findLook(),
    };
  if (first.probability < IDENTIFIED) return { ...undecided, nextLook: findLook() };
  if (!fitIsAcceptable(first)) return { ...undecided, heldBackBy: 'fit', nextLook: findLook() };
  if (unproven && first.matches.length < BEAR_OUT_A_SHIFT)
    return { ...undecided, heldBackBy: 'shift', nextLook: findLook() };
  return { kind: 'identified', substance: first.substance, heldBackBy: null, nextLook: null };
}
