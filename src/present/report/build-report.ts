/** The lab report as a document: what it says and in which order. */
import type { Analysis } from '../../analysis/types.ts';
import type { ReportDocument, Section } from './document.ts';
import { appendixSection } from './sections/appendix.ts';
import { calibrationSection } from './sections/calibration.ts';
import { cautionsSection } from './sections/cautions.ts';
import { doubtsSection } from './sections/doubts.ts';
import { indicesSection } from './sections/indices.ts';
import { resultSection } from './sections/result.ts';
import { setupSection } from './sections/setup.ts';
import { sourcesSection } from './sections/sources.ts';
import { tubeSection } from './sections/tube.ts';
import { uncertaintySection } from './sections/uncertainty.ts';

export interface ReportOptions {
  /** The record as the command line named it. */
  readonly file: string;
  /** Date of writing as text; null leaves it out, so that the same record gives the same bytes. */
  readonly generatedOn: string | null;
  /** Base of the prism in mm, for its resolving power. */
  readonly baseMm?: number | null;
}

/** The whole report of one record, in no form yet. */
export function buildReport(
  analysis: Analysis,
  { file, generatedOn, baseMm = null }: ReportOptions,
): ReportDocument {
  const { bench, calibration, tubes } = analysis;
  const record = file === '-' ? 'a record from standard input' : `the record ${file}`;
  const sections: readonly (Section | null)[] = [
    resultSection(analysis),
    ...tubes.map((tube) => tubeSection(analysis, tube)),
    doubtsSection(analysis),
    calibrationSection(analysis),
    uncertaintySection(analysis),
    setupSection(analysis),
    cautionsSection(),
    indicesSection(analysis, baseMm),
    sourcesSection(analysis),
    appendixSection(calibration),
  ];
  return {
    title: bench.title === '' ? 'Identification of a discharge tube by its spectrum' : bench.title,
    abstract: tubes.map((tube) => `${tube.label}: ${tube.verdict.sentence}`),
    sections: sections.filter((section) => section !== null),
    imprint: `Written by whichgas from ${record}${generatedOn === null ? '' : ` on ${generatedOn}`}.`,
  };
}
