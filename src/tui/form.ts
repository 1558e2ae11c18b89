/** The record as the screen edits it: never changed in place, with at least one known lamp and one tube to write to. */
import type { BenchRecord } from '../record/schema.ts';
import { formatRecord } from '../record/write-record.ts';

type Frozen<Value> = Value extends object ? { readonly [Key in keyof Value]: Frozen<Value[Key]> } : Value;

export type BenchForm = Frozen<BenchRecord>;
export type LampForm = BenchForm['known'][number];
export type TubeForm = BenchForm['unknown'][number];
/** A line of a lamp or of a tube; only a lamp's has a wavelength. */
export type LineForm = LampForm['lines'][number];
export type ReadingForm = LineForm['readings'][number];
/** A reading of the central image: it has one place, never two sides. */
export type CentralForm = NonNullable<BenchForm['central']>[number];
export type NotSeenForm = NonNullable<TubeForm['notSeen']>[number];
export type InstrumentForm = BenchForm['instrument'];

/** What a new bench starts with. */
export const BLANK_FORM: BenchForm = {
  whichgas: 1,
  instrument: { method: 'central', leastCount: "1'" },
  known: [{ lines: [] }],
  unknown: [{ lines: [] }],
};

/** A record with a place for the first lamp and the first tube. */
export function formOf(record: BenchRecord): BenchForm {
  return {
    ...record,
    known: record.known.length > 0 ? record.known : [{ lines: [] }],
    unknown: record.unknown.length > 0 ? record.unknown : [{ lines: [] }],
  };
}

/** The record as it is kept: lamps and tubes that nothing has been written to are left out. */
export function recordOf(form: BenchForm): BenchRecord {
  const record: BenchForm = {
    ...form,
    known: form.known.filter(isWrittenTo),
    unknown: form.unknown.filter(isWrittenTo),
  };
  return record as BenchRecord;
}

function isWrittenTo(list: LampForm | TubeForm): boolean {
  return list.lines.length > 0 || Object.keys(list).length > 1;
}

/** The record file's text. */
export function formText(form: BenchForm): string {
  return formatRecord(recordOf(form));
}

export function isSameForm(first: BenchForm, second: BenchForm): boolean {
  return formText(first) === formText(second);
}
