/** Why the runner-up loses, one sentence a reason. */
import type { Candidate, RunnerUpReason, TubeIdentification } from '../identify/types.ts';
import { signedText } from '../numeric/signed-text.ts';
import { reasonAgainstText } from './reason-against.ts';
import { percent, rowName } from './verdict.ts';

/** Why the runner-up loses, one sentence a reason. */
export function runnerUpSentences(found: TubeIdentification): string[] {
  const { candidates, lines, reasons } = found;
  const [first, second] = candidates.filter((candidate) => candidate.symbol !== null);
  if (!first || !second) return [];
  // Nothing, or readings that all speak for the runner-up, would leave it open why it loses.
  const speakForIt = reasons.every((reason) => reason.what === 'reading' && reason.logOdds < 0);
  const against = speakForIt ? reasonAgainstText(second, found) : null;
  const whyItLoses = against === null ? [] : [`${rowName(second)}: ${against}.`];
  const sentences = reasons.map((reason) => {
    if (reason.what === 'reading') return readingReason(reason, first, second, lines);
    const { wavelengthNm, chanceSeen } = reason.line;
    return `${[second.substance, ...second.with].join(' with ')} would show ${wavelengthNm.toFixed(1)} nm with a chance of ${percent(chanceSeen)}; it was not written down.`;
  });
  return [...whyItLoses, ...sentences];
}

function readingReason(
  { index, logOdds }: Extract<RunnerUpReason, { what: 'reading' }>,
  first: Candidate,
  second: Candidate,
  lines: TubeIdentification['lines'],
): string {
  const nm = lines.find((line) => line.index === index)?.wavelengthNm;
  const at = nm === null || nm === undefined ? '' : ` (${nm.toFixed(1)} nm)`;
  const how = (candidate: Candidate): string => {
    const match = candidate.matches.find((entry) => entry.index === index);
    if (!match) return `no line of ${[candidate.substance, ...candidate.with].join(' or ')}`;
    const corrected = match.asRead ? '' : ' (as it was probably meant)';
    return `${signedText(match.residualNm, 1)} nm from ${match.substance} ${match.wavelengthNm.toFixed(1)}${corrected}`;
  };
  const factor = Math.exp(Math.min(Math.abs(logOdds), 20));
  const times = factor >= 1000 ? 'over 1000' : factor.toFixed(0);
  const favours = logOdds > 0 ? rowName(first) : rowName(second);
  return `Reading ${index + 1}${at}: ${how(first)}, ${how(second)}; ${times} to 1 for ${favours}.`;
}
