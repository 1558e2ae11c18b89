/** Why the runner-up loses, one sentence a reason. */
import type { Candidate, MissingLine, RunnerUpReason, TubeIdentification } from '../identify/types.ts';
import { signedText } from '../numeric/signed-text.ts';
import { listed } from './listed.ts';
import { reasonAgainstText } from './reason-against.ts';
import { percent, rowName } from './verdict.ts';

/** Why the runner-up loses, one sentence a reason. */
export function runnerUpSentences(found: TubeIdentification): string[] {
  const { candidates, lines, reasons } = found;
  const [first, second] = candidates.filter((candidate) => candidate.symbol !== null);
  if (!first || !second) return [];
  const told = reasons.flatMap((reason) => (reason.what === 'reading' ? [reason] : []));
  const readings = told.map((reason) => readingReason(reason, first, second, lines));
  const unread = reasons.flatMap((reason) => (reason.what === 'missing' ? [reason.line] : []));
  const missing = unread.length === 0 ? [] : [missingReason(unread, second)];
  if (told.some(({ logOdds }) => logOdds > 0)) return [...readings, ...missing];
  // Readings that all speak for the runner-up, or none, would leave it open why it loses.
  const isSaid = missing.length > 0 && second.against?.what === 'missing';
  const against = isSaid ? null : reasonAgainstText(second, found);
  return [...(against === null ? [] : [`${rowName(second)}: ${against}.`]), ...missing, ...readings];
}

function missingReason(missing: readonly MissingLine[], second: Candidate): string {
  const [nm, chances] = [
    listed(missing.map(({ wavelengthNm }) => wavelengthNm.toFixed(1))),
    listed(missing.map(({ chanceSeen }) => percent(chanceSeen))),
  ];
  const [chance, they] = missing.length === 1 ? ['a chance of', 'it was'] : ['chances of', 'they were'];
  return `${[second.substance, ...second.with].join(' with ')} would show ${nm} nm with ${chance} ${chances}; ${they} not written down.`;
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
