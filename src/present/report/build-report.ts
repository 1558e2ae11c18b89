/** The lab report as a document: what it says and in which order. */
import type { Analysis, TubeAnalysis } from '../../analysis/types.ts';
import type { Bench } from '../../record/bench.ts';
import { verdictWords } from '../identify-text.ts';
import { paragraph, type ReportDocument, type Section, table } from './document.ts';
import { calibrationSection } from './sections/calibration.ts';
import { cautionsSection } from './sections/cautions.ts';
import { doubtsSection } from './sections/doubts.ts';
import { indicesSection } from './sections/indices.ts';
import { rankingSection } from './sections/ranking.ts';
import { readingsSection } from './sections/readings.ts';
import { setupSection } from './sections/setup.ts';
import { sourcesSection } from './sections/sources.ts';
import { uncertaintySection } from './sections/uncertainty.ts';
import { wavelengthsSection } from './sections/wavelengths.ts';

export interface ReportOptions {
  /** The record as the command line named it. */
  readonly file: string;
  /** Date of writing as text; null leaves it out, so that the same record gives the same bytes. */
  readonly generatedOn: string | null;
  /** Base of the prism in mm, for its resolving power. */
  readonly baseMm?: number | null;
}

export function buildReport(
  analysis: Analysis,
  { file, generatedOn, baseMm = null }: ReportOptions,
): ReportDocument {
  const { bench, tubes } = analysis;
  const indices = indicesSection(analysis, baseMm);
  const record = file === '-' ? 'a record from standard input' : `the record ${file}`;
  return {
    title: bench.title === '' ? 'Identification of a discharge tube by its spectrum' : bench.title,
    abstract: tubes.map((tube) => `${tube.label}: ${tube.verdict.sentence}`),
    sections: [
      ...(tubes.length === 0 ? [] : [resultSection(bench, tubes)]),
      setupSection(analysis),
      readingsSection(analysis),
      calibrationSection(analysis),
      uncertaintySection(analysis),
      wavelengthsSection(analysis),
      rankingSection(analysis),
      ...(indices === null ? [] : [indices]),
      doubtsSection(analysis),
      sourcesSection(analysis),
      cautionsSection(),
    ],
    imprint: `Written by whichgas from ${record}${generatedOn === null ? '' : ` on ${generatedOn}`}.`,
  };
}

/** The program's result beside the student's own. */
function resultSection(bench: Bench, tubes: readonly TubeAnalysis[]): Section {
  return {
    title: 'Result',
    blocks: [
      ...table(
        'result',
        'What the readings say, and what the observer concluded.',
        ['tube', 'from the readings', "the observer's answer"],
        tubes.map((tube) => {
          const source = bench.tubes[tube.tubeIndex];
          const when = source?.answerBeforeRanking;
          const timing =
            when === true
              ? ' (before seeing the ranking)'
              : when === false
                ? ' (after seeing the ranking)'
                : '';
          return [tube.label, verdictWords(tube), source?.answer ? `${source.answer.text}${timing}` : 'none'];
        }),
      ),
      paragraph(
        'A chance is the probability given these readings and the listed tubes, each equally likely beforehand; it says nothing about a tube that is labelled wrongly.',
      ),
    ],
  };
}
