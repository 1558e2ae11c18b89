/** All that the screen has computed. Loaded after the first frame, which needs none of it. */
import { adviseLamps } from '../analysis/advise-lamp.ts';
import { analyseBench } from '../analysis/analyse.ts';
import { convertReading } from '../analysis/convert.ts';
import { queryKnownLines } from '../analysis/query-known-lines.ts';
import type { Analysis } from '../analysis/types.ts';
import type { Bench } from '../record/bench.ts';
import type { BenchRecord } from '../record/schema.ts';
import { checkedBench } from '../record/to-bench.ts';
import type { BenchForm } from './form.ts';

/**
 * The record as the screen has it, analysed.
 * @throws Error with one sentence where it cannot be computed with
 */
export function analyseForm(form: BenchForm): Analysis {
  return analyseBench(benchOf(form));
}

/** The bench and its calibration, no tube weighed. Throws as `analyseForm` does. */
function calibrateForm(form: BenchForm): Analysis {
  const bench = benchOf(form);
  return { ...analyseBench({ ...bench, tubes: [] }), bench };
}

function benchOf(form: BenchForm): Bench {
  const result = checkedBench(form as BenchRecord);
  if (result.ok) return result.bench;
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
