/** The record as the screen has it, analysed. */
import { analyseBench } from '../analysis/analyse.ts';
import type { Analysis } from '../analysis/types.ts';
import type { BenchRecord } from '../record/schema.ts';
import { checkedBench } from '../record/to-bench.ts';
import type { BenchForm } from './form.ts';

/** @throws Error with one sentence where the record cannot be computed with */
export function analyseForm(form: BenchForm): Analysis {
  const result = checkedBench(form as BenchRecord);
  if (result.ok) return analyseBench(result.bench);
  throw new Error(result.problems.map(({ place, message }) => `${place}: ${message}`).join('; '));
}
