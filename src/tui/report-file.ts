/** Writes the report: the one that the command `report` writes, into a file that a person names. */
import * as nodeFiles from 'node:fs';
import { resolve } from 'node:path';
import { withRankingHeldBack } from '../analysis/exercise.ts';
import { FileRefused, textOf } from '../disk/read-regular-file.ts';
import { replaceWhole } from '../disk/write-whole.ts';
import { reportFormat } from '../present/report-format.ts';
import { holdsRecord } from '../record/holds-record.ts';
import type { Computation } from './computation.ts';
import { sentenceOf } from './disk-fault.ts';
import { type Files, readBytes } from './files.ts';
import { type BenchForm, recordOf } from './form.ts';

export interface WantedReport {
  readonly form: BenchForm;
  /** The record's file, which the report names. */
  readonly recordName: string;
  readonly path: string;
  /** A file of that name may be written over: the person was asked. */
  readonly mayReplace: boolean;
}

export type ReportOutcome =
  | { readonly kind: 'written'; readonly path: string }
  /** There is such a file; nothing is written. */
  | { readonly kind: 'is-there' }
  /** One sentence. */
  | { readonly kind: 'refused'; readonly problem: string };

/** What became of a report, in one sentence. */
export function reportSentence(path: string, outcome: ReportOutcome): string {
  if (outcome.kind === 'written') return `The report is in ${outcome.path}`;
  return `No report was written: ${outcome.kind === 'refused' ? outcome.problem : `${path} is there already.`}`;
}

export async function writeReport(
  { form, recordName, path, mayReplace }: WantedReport,
  computation: Computation,
  generatedOn: string,
  files: Files = nodeFiles,
): Promise<ReportOutcome> {
  const format = reportFormat(path);
  if (format === null)
    return { kind: 'refused', problem: `${path}: the name of a report ends in .html, .md or .csv.` };
  try {
    const before = readBytes(files, path, Number.POSITIVE_INFINITY);
    if (before !== null && isRecord(before))
      throw new FileRefused('this file holds a bench record, which is not replaced');
    if (before !== null && !mayReplace) return { kind: 'is-there' };
    const analysis = withRankingHeldBack(computation.analyse(recordOf(form)));
    const { renderReport } = await import('../present/report/write-report.ts');
    const text = renderReport(analysis, format, { file: recordName, generatedOn });
    replaceWhole(before === null ? path : files.realpathSync(path), text, files);
    return { kind: 'written', path: resolve(path) };
  } catch (error) {
    return { kind: 'refused', problem: sentenceOf(error, path) };
  }
}

/** A text that cannot be read is no record. */
function isRecord(bytes: Buffer): boolean {
  try {
    return holdsRecord(textOf(bytes));
  } catch {
    return false;
  }
}
