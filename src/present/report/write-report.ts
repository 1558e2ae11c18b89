/** The lab report in its three forms. Loaded only when it is written: the plotting library is large. */
import type { Analysis } from '../../analysis/types.ts';
import type { ReportFormat } from '../report-format.ts';
import { buildReport, type ReportOptions } from './build-report.ts';
import { type ClassEntry, type ClassPageOptions, classDocument } from './class-page.ts';
import { renderHtml } from './html.ts';
import { renderMarkdown } from './markdown.ts';
import { renderCsv } from './spreadsheet.ts';

export { classSection } from './class-page.ts';

/**
 * The report of one bench as the text of a file. Pure: the same analysis and options give the same text.
 * HTML is self-contained with its figures; Markdown and CSV hold the same tables with the same numbers.
 */
export function renderReport(analysis: Analysis, format: ReportFormat, options: ReportOptions): string {
  const report = buildReport(analysis, options);
  switch (format) {
    case 'html':
      return renderHtml(report);
    case 'md':
      return renderMarkdown(report);
    case 'csv':
      return renderCsv(report);
  }
}

/** The check of a class as one self-contained HTML page. Pure, as the report is. */
export function renderClass(entries: readonly ClassEntry[], options: ClassPageOptions): string {
  return renderHtml(classDocument(entries, options));
}
