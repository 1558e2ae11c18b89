/** Reading records from disk. Apart from the rest, because the schema takes its time to load: a new bench needs none. */
import { type RecordProblem, readRecord } from '../record/read-record.ts';
import { readableText } from '../record/readable-text.ts';
import { benchRecordSchema } from '../record/schema.ts';
import { type BenchForm, formOf, recordOf } from './form.ts';

/** What Journal needs to understand a file. */
export const recordReader = {
  /** The record in a file's text, or sentences that say what is wrong and where. */
  readForm(text: string): { readonly form: BenchForm } | { readonly sentences: readonly string[] } {
    const read = readRecord(text);
    return read.ok ? { form: formOf(read.record) } : { sentences: read.problems.map(sentence) };
  },
  /** The text to write, read back; or sentences that say why it could not be opened again. */
  readableText(form: BenchForm): { readonly text: string } | { readonly sentences: readonly string[] } {
    const written = readableText(recordOf(form));
    return written.ok ? written : { sentences: written.problems.map(sentence) };
  },
  /** A value out of a trail as a record; null where it is none. */
  checkedForm(value: unknown): BenchForm | null {
    const parsed = benchRecordSchema.safeParse(value);
    return parsed.success ? formOf(parsed.data) : null;
  },
};

export type RecordReader = Readonly<typeof recordReader>;

function sentence({ place, message }: RecordProblem): string {
  return place === '' ? message : `${place}: ${message}`;
}
