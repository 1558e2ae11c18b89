/** What every writer of records writes: text that has been read again. */
import { type RecordProblem, readRecord } from './read-record.ts';
import type { BenchRecord } from './schema.ts';
import { formatRecord, isSameRecord } from './write-record.ts';

export type ReadableText =
  | { readonly ok: true; readonly text: string }
  /** What keeps the record from being read again as it is, each with its place. */
  | { readonly ok: false; readonly problems: readonly RecordProblem[] };

/**
 * The record as a file's text, read back by the reader that opens files. No file may be replaced by a text that
 * could not be opened again, or that would say something else.
 */
export function readableText(record: BenchRecord): ReadableText {
  const text = formatRecord(record);
  const read = readRecord(text);
  if (!read.ok) return read;
  if (isSameRecord(read.record, record)) return { ok: true, text };
  return { ok: false, problems: [{ place: '', message: 'it would be read back as another record' }] };
}
