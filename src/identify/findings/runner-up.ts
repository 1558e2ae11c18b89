/** Why the runner-up loses, reading by reading. */
import { GAIN_WORTH_SAYING, MISSING_NAMED, MOST_REASONS } from '../assumptions.ts';
import { hasToo } from '../rank/candidate-report.ts';
import type { Candidate, RunnerUpReason } from '../types.ts';

/**
 * The readings and missing lines that tell the first tube from the second, most telling first; none without
 * two tubes.
 */
export function reasonsAgainstRunnerUp(candidates: readonly Candidate[]): RunnerUpReason[] {
  const [first, second] = candidates.filter((candidate) => candidate.symbol !== null);
  if (!first || !second || first.matches.length === 0) return [];
  const odds = new Map(second.contributions.map(({ index, logOdds }) => [index, logOdds]));
  const readings = first.contributions
    .map(({ index, logOdds }) => ({
      what: 'reading' as const,
      index,
      logOdds: logOdds - (odds.get(index) ?? logOdds),
    }))
    .filter(({ logOdds }) => Math.abs(logOdds) > GAIN_WORTH_SAYING)
    .sort((a, b) => b.logOdds - a.logOdds);
  const missing = second.missing
    .filter(({ wavelengthNm }) => !hasToo(first, wavelengthNm))
    .slice(0, MISSING_NAMED)
    .map((line) => ({ what: 'missing' as const, line }));
  return [...readings, ...missing].slice(0, MOST_REASONS);
}
