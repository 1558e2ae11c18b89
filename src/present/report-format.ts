/** The forms of a report, by the ending of its file's name. Apart from the report itself, which is large. */

export type ReportFormat = 'html' | 'md' | 'csv';

const FORMATS: Readonly<Record<string, ReportFormat>> = { html: 'html', htm: 'html', md: 'md', csv: 'csv' };

/** Null for any other ending. */
export function reportFormat(path: string): ReportFormat | null {
  const ending = /[^/\\]\.([a-z]+)$/i.exec(path)?.[1]?.toLowerCase() ?? '';
  return Object.hasOwn(FORMATS, ending) ? FORMATS[ending]! : null;
}
