import stringify from 'json-stringify-pretty-compact';
import type { BenchRecord } from './schema.ts';

/** The order in which keys are written, one list for all objects of the record. */
const keyOrder = `
  whichgas title instrument method leastCount scaleDivision windows left right value u label central known
  date observers station lamp tube prism setAtNm apexAngle slit temperature remarks
  wavelengthNm reading readings color brightness note use confirmed
  unknown lines notSeen complete check shelf answer answerBeforeRanking ranking about
`
  .trim()
  .split(/\s+/);

/** Characters; objects and lists that fit stand on one line. */
const longestLine = 110;

/**
 * The record as text: two-space JSON with short objects and lists on one line, LF, a newline at the end. Angle texts
 * stay as they were typed. Whoever writes a file takes `readableText`, which reads the text again first.
 */
export function formatRecord(record: BenchRecord): string {
  return `${stringify(inFile(record), { maxLength: longestLine })}\n`;
}

/** True where two records say the same, in whatever order their keys stand. */
export function isSameRecord(first: BenchRecord, second: BenchRecord): boolean {
  return JSON.stringify(inFile(first)) === JSON.stringify(inFile(second));
}

/** The record's keys in order; a list of one lamp or tube as the lamp or tube itself, no lamp or tube not at all. */
function inFile({ known, unknown, ...rest }: BenchRecord): unknown {
  const lists = Object.entries({ known, unknown })
    .filter(([, list]) => list.length > 0)
    .map(([key, list]) => [key, list.length === 1 ? list[0] : list]);
  return inOrder({ ...rest, ...Object.fromEntries(lists) });
}

function inOrder(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(inOrder);
  const entries = Object.entries(value)
    .filter(([, entry]) => entry !== undefined)
    .sort(([first], [second]) => keyOrder.indexOf(first) - keyOrder.indexOf(second));
  return Object.fromEntries(entries.map(([key, entry]) => [key, inOrder(entry)]));
}
