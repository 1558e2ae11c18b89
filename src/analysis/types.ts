/** The whole result for one bench: the single source of every number on screen, in a command or in a report. */
import type { Calibration } from '../calibrate/types.ts';
import type { TubeAnalysis } from '../identify/types.ts';
import type { Bench, Warning } from '../record/bench.ts';

export interface Analysis {
  readonly bench: Bench;
  readonly calibration: Calibration;
  readonly tubes: readonly TubeAnalysis[];
  readonly warnings: readonly Warning[];
}
