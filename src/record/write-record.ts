import type { BenchRecord } from './schema.ts';

/** The order in which keys are written, one list for all objects of the record. */
const keyOrder = [
  ['whichgas', 'title', 'instrument', 'method', 'leastCount', 'scaleDivision', 'windows'],
  ['left', 'right', 'value', 'u', 'label', 'central', 'known'],
  [
    'date',
    'observers',
    'station',
    'lamp',
    'tube',
    'prism',
    'setAtNm',
    'apexAngle',
    'slit',
    'temperature',
    'remarks',
  ],
  ['wavelengthNm', 'reading', 'readings', 'color', 'brightness', 'note', 'use', 'confirmed'],
  [
    'unknown',
    'lines',
    'notSeen',
    'complete',
    'check',
    'shelf',
    'answer',
    'answerBeforeRanking',
    'ranking',
    'about',
  ],
].flat();

const longestLine = 110;

/**
 * The record as text: two-space JSON with short objects and lists on one line, LF, a newline at the end. Angle texts
 * stay as they were typed; reading the text again gives the same record.
 */
export function formatRecord(record: BenchRecord): string {
  const { known, unknown, ...rest } = record;
  return `${written({ ...rest, ...oneOrMany({ known, unknown }) }, '', 0)}\n`;
}

/** A list of one lamp or tube is written as the lamp or tube itself, no lamp or tube not at all. */
function oneOrMany(lists: Readonly<Record<string, readonly unknown[]>>): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(lists)
      .filter(([, list]) => list.length > 0)
      .map(([key, list]) => [key, list.length === 1 ? list[0] : list]),
  );
}

/** `before`: characters that stand on the line already besides the indent. */
function written(value: unknown, indent: string, before: number): string {
  const short = onOneLine(value);
  if (short !== null && indent.length + before + short.length <= longestLine) return short;
  const deeper = `${indent}  `;
  if (Array.isArray(value)) {
    const entries = value.map((entry) => `\n${deeper}${written(entry, deeper, 1)}`);
    return `[${entries.join(',')}\n${indent}]`;
  }
  const entries = sortedEntries(value).map(([key, entry]) => {
    const name = `${JSON.stringify(key)}: `;
    return `\n${deeper}${name}${written(entry, deeper, name.length + 1)}`;
  });
  return entries.length === 0 ? JSON.stringify(value) : `{${entries.join(',')}\n${indent}}`;
}

/** Null where lines of their own are easier to read: the record itself, and lists of objects. */
function onOneLine(value: unknown): string | null {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  if (Array.isArray(value)) {
    const parts = value.map(onOneLine);
    const plain = value.every((entry) => typeof entry !== 'object' || Array.isArray(entry));
    return plain || value.length === 1 ? joined('[', parts, ']', '') : null;
  }
  if ('whichgas' in value) return null;
  const parts = sortedEntries(value).map(([key, entry]) => {
    const text = onOneLine(entry);
    return text === null ? null : `${JSON.stringify(key)}: ${text}`;
  });
  return parts.length === 0 ? '{}' : joined('{', parts, '}', ' ');
}

function joined(open: string, parts: readonly (string | null)[], close: string, pad: string): string | null {
  return parts.includes(null) ? null : `${open}${pad}${parts.join(', ')}${pad}${close}`;
}

function sortedEntries(value: unknown): [string, unknown][] {
  return Object.entries(value as object)
    .filter(([, entry]) => entry !== undefined)
    .sort(([first], [second]) => keyOrder.indexOf(first) - keyOrder.indexOf(second));
}
