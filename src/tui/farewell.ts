/** What is said after the screen has been left: where the record is, and what can be done with it. */
import { hasReadings } from './edits.ts';
import type { ScreenState } from './state.ts';

export function farewell({ keeping, fileName, history }: ScreenState): readonly string[] {
  if (keeping.kind === 'memory-only' && hasReadings(history.record))
    return [`the record was not saved: ${keeping.why}`];
  if (keeping.kind !== 'saved') return [];
  const file = asArgument(fileName);
  return [
    `the record is kept in ${fileName}.`,
    `to go on, or measure another tube: whichgas ${file}`,
    ...(hasReadings(history.record) ? [`for the report: whichgas report ${file} --out report.html`] : []),
  ];
}

/** As a shell takes it for one word. */
function asArgument(path: string): string {
  return /^[\w./~+-]+$/.test(path) ? path : `"${path.replace(/["\\$`]/g, '\\$&')}"`;
}
