/** Why the runner-up loses, line by line. */
import { signedText } from '../numeric/signed-text.ts';
import type { Candidate, TubeLineResult } from './types.ts';
import { percent, rowName } from './verdict.ts';

const WORTH_SAYING = 1.5;
const MOST_REASONS = 6;

export function reasonsAgainstRunnerUp(
  candidates: readonly Candidate[],
  lines: readonly TubeLineResult[],
): string[] {
  const [first, second] = candidates.filter((candidate) => candidate.symbol !== null);
  if (!first || !second || first.matches.length === 0) return [];
  const odds = new Map(second.contributions.map(({ index, logOdds }) => [index, logOdds]));
  const differences = first.contributions
    .map(({ index, logOdds }) => ({ index, gain: logOdds - (odds.get(index) ?? logOdds) }))
    .filter(({ gain }) => Math.abs(gain) > WORTH_SAYING)
    .sort((a, b) => b.gain - a.gain)
    .map(({ index, gain }) => readingReason(index, gain, first, second, lines));
  const missing = second.missing
    .filter((line) => !first.matches.some((match) => Math.abs(match.wavelengthNm - line.wavelengthNm) < 1))
    .slice(0, 3)
    .map(
      (line) =>
        `${second.substance} would show ${line.wavelengthNm.toFixed(1)} nm with a chance of ${percent(line.chanceSeen)}; it was not written down.`,
    );
  return [...differences, ...missing].slice(0, MOST_REASONS);
}

function readingReason(
  index: number,
  gain: number,
  first: Candidate,
  second: Candidate,
  lines: readonly TubeLineResult[],
): string {
  const nm = lines.find((line) => line.index === index)?.wavelengthNm;
  const at = nm === null || nm === undefined ? '' : ` (${nm.toFixed(1)} nm)`;
  const how = (candidate: Candidate): string => {
    const match = candidate.matches.find((entry) => entry.index === index);
    if (!match) return `no line of ${candidate.substance}`;
    const mended = match.asRead ? '' : ' (the reading mended)';
    return `${signedText(match.residualNm, 1)} nm from ${candidate.substance} ${match.wavelengthNm.toFixed(1)}${mended}`;
  };
  const factor = Math.exp(Math.min(Math.abs(gain), 20));
  const times = factor >= 1000 ? 'over 1000' : factor.toFixed(0);
  const favours = gain > 0 ? rowName(first) : rowName(second);
  return `Reading ${index + 1}${at}: ${how(first)}, ${how(second)}; ${times} to 1 for ${favours}.`;
}
