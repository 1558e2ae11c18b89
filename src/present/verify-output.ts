/** The instructor's check as JSON, as a gradebook table and as plain text. */
import type { NextLook } from '../analysis/types.ts';
import type { Outcome, TubeCheck } from '../analysis/verify.ts';
import { type CsvValue, csvRow } from './csv.ts';
import { type Emphasis, plain } from './emphasis.ts';
import { probabilityText } from './quantity-text.ts';
import { picked, safeShortText, safeText } from './safe-text.ts';
import { bullet, right, textTable, wrapText } from './text-table.ts';

export interface FileCheck extends TubeCheck {
  /** The argument as given. */
  readonly file: string;
}

/** What `verify --json` prints for one tube. */
export function verifyObject(check: FileCheck) {
  const { nextLook, blame } = check;
  return {
    ...picked(check, 'file', 'tube', 'expected', 'outcome', 'reason', 'probability', 'best'),
    ...picked(check, 'answer', 'answerAgrees', 'answerBeforeRanking'),
    ...picked(check, 'observers', 'station', 'date', 'lines', 'slips'),
    nextLook: nextLook && picked(nextLook, 'reading', 'wavelengthNm', 'separates'),
    blame: blame.map((each) => picked(each, 'step', 'index', 'kind', 'message')),
  };
}

/** Columns of the gradebook in their order, each with what a check has in it. */
const gradebook: readonly (readonly [title: string, cell: (check: FileCheck) => CsvValue])[] = [
  ['file', ({ file }) => file],
  ['tube', ({ tube }) => tube],
  ['expected', ({ expected }) => expected],
  ['outcome', ({ outcome }) => outcome],
  ['probability', ({ probability }) => probability?.toFixed(4) ?? null],
  ['best', ({ best }) => best],
  ['answer', ({ answer }) => answer],
  ['answer_agrees', ({ answerAgrees }) => yesOrNo(answerAgrees)],
  ['answer_before_ranking', ({ answerBeforeRanking }) => yesOrNo(answerBeforeRanking)],
  ['observers', ({ observers }) => observers.join(', ')],
  ['station', ({ station }) => station],
  ['date', ({ date }) => date],
  ['lines', ({ outcome, lines }) => (outcome === 'missing' ? null : lines)],
  ['slips', ({ outcome, slips }) => (outcome === 'missing' ? null : slips)],
  ['next_look', ({ nextLook }) => (nextLook === null ? null : lookText(nextLook))],
  ['reason', ({ reason }) => reason],
  ['blame', ({ blame }) => blame.map(({ message }) => message).join(' ')],
];

export const verifyCsvHeader = csvRow(gradebook.map(([title]) => title));

/** One row of the gradebook. */
export function verifyCsvRow(check: FileCheck): string {
  return csvRow(gradebook.map(([, cell]) => cell(check)));
}

function yesOrNo(value: boolean | null): string | null {
  return value === null ? null : value ? 'yes' : 'no';
}

/** `231°26' (435.8 nm): mercury or neon`. */
export function lookText({ reading, wavelengthNm, separates }: NextLook): string {
  return `${reading} (${wavelengthNm.toFixed(1)} nm): ${separates.join(' or ')}`;
}

/** Width of the column of record names. */
const recordWidth = 20;

export const outcomeText: Readonly<Record<Outcome, string>> = {
  supported: 'supported',
  contradicted: 'contradicted',
  insufficient: 'not enough',
  missing: 'missing',
};

/** A table of the class, then for every tube what decides and what is to blame. */
export function verifyText(checks: readonly FileCheck[], emphasis: Emphasis = plain): string {
  if (checks.length === 0) return 'No tube was checked.';
  const rows = checks.map((check) => [
    recordName(check.file),
    safeShortText(check.tube, 10),
    safeShortText(check.expected, 12),
    outcomeText[check.outcome],
    chanceText(check),
    bestText(check),
    answerText(check),
  ]);
  const columns = ['record', 'tube', 'expected', 'outcome', right('chance'), 'fits best', 'answer'];
  const told = checks.map((check) =>
    [
      emphasis.strong(safeText([check.file, check.tube].filter(Boolean).join(', '))),
      ...circumstances(check).map((line) => indented(line)),
      indented(check.reason),
      ...check.blame.map(({ message }) => bullet(safeText(message), '  - ')),
    ].join('\n'),
  );
  return [textTable(columns, rows), ...told, tally(checks)].join('\n\n');
}

function indented(text: string): string {
  return `  ${wrapText(safeText(text), '  ', 78)}`;
}

export function chanceText({ probability }: FileCheck): string {
  return probability === null ? '-' : probabilityText(probability);
}

function bestText({ best }: FileCheck): string {
  return best === null ? '-' : best === 'unlisted' ? 'none listed' : best;
}

export function answerText({ answer, answerAgrees }: FileCheck): string {
  if (answer === null) return '-';
  return answerAgrees === true ? 'right' : 'wrong';
}

/** Who measured, where and when; how much, and in which order the answer came. A missing record has none. */
export function circumstances(check: FileCheck): string[] {
  if (check.outcome === 'missing') return [];
  const { observers, station, date, lines, slips, answerBeforeRanking } = check;
  const who = [
    observers.join(', '),
    station !== null && `station ${station}`,
    date,
    `${lines} ${lines === 1 ? 'line' : 'lines'} read`,
    slips > 0 && `${slips} ${slips === 1 ? 'slip' : 'slips'}`,
    answerBeforeRanking !== null &&
      `answered ${answerBeforeRanking ? 'before' : 'after'} the possible tubes were shown`,
  ];
  return [`${who.filter(Boolean).join('; ')}.`];
}

/** The file without folder and ending; the end of a long name says more than its beginning. */
export function recordName(file: string, width = recordWidth): string {
  const name = safeText(file)
    .replace(/^.*[/\\]/, '')
    .replace(/\.json$/i, '');
  const letters = [...name];
  return letters.length <= width ? name : `…${letters.slice(1 - width).join('')}`;
}

/** `12 checked: 9 supported, 2 contradicted, 1 not enough.` */
export function tally(checks: readonly FileCheck[]): string {
  const count = (outcome: Outcome) => checks.filter((check) => check.outcome === outcome).length;
  const outcomes = (Object.keys(outcomeText) as Outcome[])
    .filter((outcome) => outcome !== 'missing' || count(outcome) > 0)
    .map((outcome) => `${count(outcome)} ${outcomeText[outcome]}`);
  return `${checks.length - count('missing')} checked: ${outcomes.join(', ')}.`;
}
