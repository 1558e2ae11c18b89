/** The check of a class as one page: a table with the reason of each outcome, then what to take to the talk with each pair. */
import type { Analysis, Candidate, TubeAnalysis } from '../../analysis/types.ts';
import { expectedRow } from '../../analysis/verify.ts';
import { candidateName } from '../identify-text.ts';
import {
  answerText,
  chanceText,
  circumstances,
  type FileCheck,
  lookText,
  outcomeText,
  recordName,
  tally,
} from '../verify-output.ts';
import {
  type Block,
  blocksOf,
  type Figure,
  list,
  number,
  paragraph,
  type ReportDocument,
  type Section,
  table,
} from './document.ts';
import { stripFigure } from './figures/strip-figure.ts';

/** One tube of the class; without a section where the record was not handed in. */
export interface ClassEntry {
  readonly check: FileCheck;
  readonly section: Section | null;
}

export interface ClassPageOptions {
  /** Sentences about records that could not be used. */
  readonly unusable: readonly string[];
  /** Date of writing as text. */
  readonly generatedOn: string;
}

/** Letters of a record's name in the table. */
const nameWidth = 24;

/** The page of a class, in no form yet. */
export function classDocument(
  entries: readonly ClassEntry[],
  { unusable, generatedOn }: ClassPageOptions,
): ReportDocument {
  return {
    title: 'The check of a class',
    abstract: [tally(entries.map(({ check }) => check))],
    sections: [
      {
        title: 'The class',
        blocks: blocksOf(
          classTable(entries),
          unusable.length > 0 && paragraph('Records that could not be used:'),
          list(unusable),
        ),
      },
      ...entries.flatMap(({ section }) => section ?? []),
    ],
    imprint: `Written by whichgas on ${generatedOn}. For the instructor: it names the tubes.`,
  };
}

function classTable(entries: readonly ClassEntry[]): Block[] {
  return table(
    'class',
    'What the readings say of the expected tube. Chance: the probability of the expected tube given the readings; answer: the one in the record; to talk about: how many readings or steps are to blame, each named below.',
    [
      ...['record', 'tube', 'observers', 'expected', 'outcome'],
      number('chance'),
      'answer',
      number('to talk about'),
      'reason',
    ],
    entries.map(({ check }) => [
      recordName(check.file, nameWidth),
      check.tube,
      check.observers.join(', '),
      check.expected,
      outcomeText[check.outcome],
      chanceText(check),
      answerText(check),
      check.blame.length === 0 ? '-' : String(check.blame.length),
      check.reason,
    ]),
  );
}

/** What to take to the talk about one tube. Its figures are drawn at once: the analyses of a class fill the memory. */
export function classSection(check: FileCheck, analysis: Analysis, tube: TubeAnalysis): Section {
  const { answer, nextLook } = check;
  return {
    title: `${recordName(check.file, nameWidth)}, ${check.tube}: ${outcomeText[check.outcome]}`,
    blocks: blocksOf(
      paragraph(check.reason),
      paragraph(
        [
          ...circumstances(check),
          `Expected: ${check.expected}; answer: ${answer === null ? 'none' : `${answer} (${answerText(check)})`}.`,
          ...(nextLook === null ? [] : [`Next look: ${lookText(nextLook)}.`]),
        ].join(' '),
      ),
      list(check.blame.map(({ message }) => message)),
      strips(check, analysis, tube),
    ),
  };
}

/** The readings against the expected tube, and against the one that fits best where that is another. */
function strips(check: FileCheck, analysis: Analysis, tube: TubeAnalysis): Figure[] {
  const { curve } = analysis.calibration;
  if (curve === null || tube.lines.every(({ ordinate }) => ordinate === null)) return [];
  const expected = expectedRow(tube, check.expected);
  const best = tube.candidates[0];
  const shown = [expected, best === expected || best?.symbol === null ? null : best];
  const blamed = new Set(
    check.blame.flatMap(({ step, index }) => (step === 'unknown' && index !== null ? [index] : [])),
  );
  return shown.flatMap((candidate): Figure[] => {
    if (candidate == null) return [];
    const drawn = stripFigure(analysis.bench, tube, candidate, curve, blamed);
    return [
      {
        kind: 'figure',
        caption: captionOf(tube, candidate, blamed.size > 0),
        description: `${candidate.matches.length} of ${tube.lines.length} readings fall on lines of ${candidateName(candidate)}.`,
        draw: always(drawn),
      },
    ];
  });
}

/** Apart from the rest, so that a figure kept for the end keeps nothing but its text. */
function always(text: string): () => string {
  return () => text;
}

function captionOf(tube: TubeAnalysis, candidate: Candidate, marks: boolean): string {
  return `The readings of ${tube.label} against the lines of ${candidateName(candidate)}; an open pointer has no line, a dashed line was expected and not read${marks ? ', a bold label with ! is a reading to blame' : ''}.`;
}
