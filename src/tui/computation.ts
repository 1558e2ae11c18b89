/** All that the screen has computed. Loaded after the first frame, which needs none of it. */
import { adviseLamps } from '../analysis/advise-lamp.ts';
import { convertReading } from '../analysis/convert.ts';
import { queryKnownLines } from '../analysis/query-known-lines.ts';
import { analyseForm, calibrateForm } from './analyse-form.ts';

export interface Computation {
  /** The analysis of a record; throws a sentence where it cannot be computed. */
  readonly analyse: typeof analyseForm;
  /** Its calibration alone. */
  readonly calibrate: typeof calibrateForm;
  readonly adviseLamps: typeof adviseLamps;
  readonly convertReading: typeof convertReading;
  readonly queryKnownLines: typeof queryKnownLines;
}

export const computation: Computation = {
  analyse: analyseForm,
  calibrate: calibrateForm,
  adviseLamps,
  convertReading,
  queryKnownLines,
};
