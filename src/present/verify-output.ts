/** The instructor's check as JSON, as a gradebook table and as plain text. */
import type { Outcome, TubeCheck } from '../analysis/verify.ts';
import { csvRow } from './csv.ts';
import { type Emphasis, plain } from './emphasis.ts';
import { probabilityText } from './quantity-text.ts';
import { safeShortText, safeText } from './safe-text.ts';
import { bullet, textTable } from './text-table.ts';

export interface FileCheck extends TubeCheck {
  /** The argument as given. */
  readonly file: string;
}

/** What `verify --json` prints for one tube. */
export function verifyObject(check: FileCheck) {
  const { file, tube, expected, outcome, probability, best, answer, answerAgrees } = check;
  return {
    file,
    tube,
    expected,
    outcome,
    probability,
    best,
    answer,
    answerAgrees,
    blame: check.blame.map(({ step, index, kind, message }) => ({ step, index, kind, message })),
  };
}

export const verifyCsvHeader = csvRow([
  'file',
  'tube',
  'expected',
  'outcome',
  'probability',
  'best',
  'answer',
  'answer_agrees',
  'blame',
]);

/** One row of the gradebook. */
export function verifyCsvRow(check: FileCheck): string {
  const blame = check.blame.map(({ message }) => message).join(' ');
  const agrees = check.answerAgrees === null ? null : check.answerAgrees ? 'yes' : 'no';
  return csvRow([
    check.file,
    check.tube,
    check.expected,
    check.outcome,
    check.probability,
    check.best,
    check.answer,
    agrees,
    blame,
  ]);
}

/** Width of the column of record names. */
const recordWidth = 20;

const outcomeText: Readonly<Record<Outcome, string>> = {
  supported: 'supported',
  contradicted: 'contradicted',
  insufficient: 'not enough',
};

/** A table of the class, then for every tube with something to say the sentences. */
export function verifyText(checks: readonly FileCheck[], emphasis: Emphasis = plain): string {
  if (checks.length === 0) return 'No tube was checked.';
  const rows = checks.map((check) => [
    recordName(check.file),
    safeShortText(check.tube, 10),
    safeShortText(check.expected, 12),
    outcomeText[check.outcome],
    check.probability === null ? '-' : probabilityText(check.probability),
    check.best === null ? '-' : check.best === 'unlisted' ? 'none listed' : check.best,
    answerText(check),
  ]);
  const table = textTable(
    [
      { title: 'record' },
      { title: 'tube' },
      { title: 'expected' },
      { title: 'outcome' },
      { title: 'chance', align: 'right' },
      { title: 'fits best' },
      { title: 'answer' },
    ],
    rows,
  );
  const blamed = checks
    .filter(({ blame }) => blame.length > 0)
    .map((check) => {
      const sentences = check.blame.map(({ message }) => bullet(safeText(message), '  - '));
      return [
        emphasis.strong(`${safeText(check.file)}, ${safeShortText(check.tube, 40)}`),
        ...sentences,
      ].join('\n');
    });
  return [table, ...blamed, tally(checks)].join('\n\n');
}

function answerText({ answer, answerAgrees }: FileCheck): string {
  if (answer === null) return '-';
  return answerAgrees === true ? 'right' : 'wrong';
}

/** The file without folder and ending; the end of a long name says more than its beginning. */
function recordName(file: string): string {
  const name = safeText(file)
    .replace(/^.*[/\\]/, '')
    .replace(/\.json$/i, '');
  const letters = [...name];
  return letters.length <= recordWidth ? name : `…${letters.slice(1 - recordWidth).join('')}`;
}

function tally(checks: readonly FileCheck[]): string {
  const count = (outcome: Outcome) => checks.filter((check) => check.outcome === outcome).length;
  const outcomes = (Object.keys(outcomeText) as Outcome[]).map(
    (outcome) => `${count(outcome)} ${outcomeText[outcome]}`,
  );
  return `${checks.length} checked: ${outcomes.join(', ')}.`;
}
