import { parseTerm, termDegrees } from './parse-term.ts';
import { quoteText } from './quote-text.ts';
import { unifySigns } from './unify-signs.ts';

export type SmallAngleResult =
  | {
      readonly ok: true;
      readonly arcmin: number;
      /** Written in decimals of a degree. */
      readonly decimal: boolean;
    }
  | { readonly ok: false; readonly problem: string };

const smallestArcmin = 0.01 / 60;
const largestArcmin = 600;

/**
 * A least count or a scale division: minutes or seconds alone, or degrees: `1'`, `30"`, `0.01°`. A number without
 * a sign is refused, because minutes and degrees are both usual.
 */
export function parseSmallAngle(text: string): SmallAngleResult {
  const refuse = (problem: string): SmallAngleResult => ({
    ok: false,
    problem: `${quoteText(text)} ${problem}; write for instance 1' or 30" or 0.01°`,
  });
  if (text.length > 100) return refuse('is too long for an angle');
  const parsed = parseTerm(unifySigns(text));
  if (!parsed.ok) return refuse(parsed.problem);
  const { term } = parsed;
  if (term.bare) return refuse('does not say whether it is degrees, minutes or seconds');
  const arcmin = Math.round(termDegrees(term) * 60 * 1e9) / 1e9;
  if (arcmin < smallestArcmin || arcmin > largestArcmin)
    return refuse('is not a step that a divided circle has');
  const decimal = term.decimals > 0 && term.minutes === null && term.seconds === null && arcmin % 30 !== 0;
  return { ok: true, arcmin, decimal };
}

/** Repeats of one setting lie no further apart than this, arc-minutes (common practice, no source). */
export function repeatToleranceArcmin(leastCountArcmin: number): number {
  return Math.max(10, 4 * leastCountArcmin);
}
