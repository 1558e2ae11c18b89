/** All that the screen has computed. Loaded after the first frame, which needs none of it. */
import { adviseLamps } from '../analysis/advise-lamp.ts';
import { analyseBench, calibrateBench } from '../analysis/analyse.ts';
import { convertReading } from '../analysis/convert.ts';
import { decimalsMeant } from '../analysis/decimals-meant.ts';
import { queryKnownLines } from '../analysis/query-known-lines.ts';
import type { Analysis } from '../analysis/types.ts';
import type { Bench, Warning } from '../record/bench.ts';
import type { BenchRecord } from '../record/schema.ts';
import { checkedBench } from '../record/to-bench.ts';
import type { BenchForm } from './form.ts';

/**
 * The record as the screen has it, analysed.
 * @throws Error with one sentence where it cannot be computed with
 */
export function analyseForm(form: BenchForm): Analysis {
  const { bench, told } = meant(form);
  return withTold(told, analyseBench(bench));
}

/** The bench and its calibration, no tube weighed. Throws as `analyseForm` does. */
function calibrateForm(form: BenchForm): Analysis {
  const { bench, told } = meant(form);
  return withTold(told, calibrateBench(bench));
}

function withTold(told: readonly Warning[], analysis: Analysis): Analysis {
  return told.length === 0 ? analysis : { ...analysis, warnings: [...told, ...analysis.warnings] };
}

/** The bench, and what is to be said where its decimal marks are not taken as they are written. */
function meant(form: BenchForm): { bench: Bench; told: readonly Warning[] } {
  const record = form as BenchRecord;
  const result = checkedBench(record);
  if (result.ok) {
    const read = decimalsMeant({ record, ...result });
    const told = read.record === record ? [] : read.warnings.filter(({ code }) => code === 'decimals');
    return { bench: read.bench, told };
  }
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
