/** All that the screen has computed. Loaded after the first frame, which needs none of it. */
import { convertReading } from '../analysis/convert.ts';
import { calibrateAndTell as calibrate } from '../analysis/tell-calibration.ts';
import { analyseForm } from './analyse-form.ts';

export interface Computation {
  /** The analysis of a record; throws a sentence where it cannot be computed. */
  readonly analyse: typeof analyseForm;
  readonly calibrate: typeof calibrate;
  readonly convertReading: typeof convertReading;
}

export const computation: Computation = { analyse: analyseForm, calibrate, convertReading };
