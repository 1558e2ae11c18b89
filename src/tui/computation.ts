/** All that the screen has computed. Loaded after the first frame, which needs none of it. */
import { adviseLamps } from '../analysis/advise-lamp.ts';
import { analyseBench, calibrateBench } from '../analysis/analyse.ts';
import { convertReading } from '../analysis/convert.ts';
import { decimalsMeant, type RecordMeant, withDecimalsTold } from '../analysis/decimals-meant.ts';
import { queryKnownLines } from '../analysis/query-known-lines.ts';
import type { Analysis } from '../analysis/types.ts';
import type { BenchRecord } from '../record/schema.ts';
import { checkedBench } from '../record/to-bench.ts';
import type { BenchForm } from './form.ts';

/**
 * The record as the screen has it, analysed.
 * @throws Error with one sentence where it cannot be computed with
 */
export function analyseForm(form: BenchForm): Analysis {
  const { bench, warnings } = meant(form);
  return withDecimalsTold(analyseBench(bench), warnings);
}

/** The bench and its calibration, no tube weighed. Throws as `analyseForm` does. */
function calibrateForm(form: BenchForm): Analysis {
  const { bench, warnings } = meant(form);
  return withDecimalsTold(calibrateBench(bench), warnings);
}

function meant(form: BenchForm): RecordMeant {
  const record = form as BenchRecord;
  const result = checkedBench(record);
  if (result.ok) return decimalsMeant({ record, ...result });
  throw new Error(result.problems.map(({ place, message }) => `${place}: ${message}`).join('; '));
}

export const computation = {
  analyse: analyseForm,
  calibrate: calibrateForm,
  adviseLamps,
  convertReading,
  queryKnownLines,
};

export type Computation = Readonly<typeof computation>;
