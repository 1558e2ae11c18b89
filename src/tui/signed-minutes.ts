/**
 * A record whose readings are degrees.minutes is written with signs when it is opened: the readings that the screen
 * adds have signs, and what the others mean must not hang on which of them are still there.
 */
import { settledDecimals } from '../record/decimal-habit.ts';
import { circleIn } from '../record/read-instrument.ts';
import type { BenchRecord } from '../record/schema.ts';
import type { BenchForm } from './form.ts';
import { type History, historyEdited } from './trail.ts';

interface SignedMinutes {
  readonly history: History;
  /** What was done, as undo names it. */
  readonly what: string;
  /** The sentence that says so. */
  readonly remark: string;
}

/** Null where the readings are what they seem. */
export function withSignedMinutes(history: History): SignedMinutes | null {
  const record = history.record as BenchRecord;
  const { record: signed, remark } = settledDecimals(record, circleIn(record));
  if (remark === null || signed === record) return null;
  const what = 'degrees.minutes written with signs';
  const edited = historyEdited(history, signed as BenchForm, history.place, what);
  return { history: { ...edited, decimals: 'minutes' }, what, remark: `${remark.message}.` };
}
