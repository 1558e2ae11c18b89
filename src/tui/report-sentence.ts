/** What became of a report, in one sentence. */
import type { ReportOutcome } from './report-file.ts';

export function reportSentence(path: string, outcome: ReportOutcome): string {
  if (outcome.kind === 'written') return `The report is in ${outcome.path}`;
  return `No report was written: ${outcome.kind === 'refused' ? outcome.problem : `${path} is there already.`}`;
}
