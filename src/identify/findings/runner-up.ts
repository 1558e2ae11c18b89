/** Why the runner-up loses, reading by reading. */
import type { Candidate, RunnerUpReason } from '../types.ts';

/** Smaller gains, in ln, are not worth saying. */
const WORTH_SAYING = 1.5;
const MOST_REASONS = 6;
const MOST_MISSING = 3;
/** A line that the leading row has within this distance is not missing, nm. */
const SAME_LINE_NM = 1;

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
    .filter(({ logOdds }) => Math.abs(logOdds) > WORTH_SAYING)
    .sort((a, b) => b.logOdds - a.logOdds);
  const isMatched = (nm: number): boolean =>
    first.matches.some((match) => Math.abs(match.wavelengthNm - nm) < SAME_LINE_NM);
  const missing = second.missing
    .filter(({ wavelengthNm }) => !isMatched(wavelengthNm))
    .slice(0, MOST_MISSING)
    .map((line) => ({ what: 'missing' as const, line }));
  return [...readings, ...missing].slice(0, MOST_REASONS);
}
