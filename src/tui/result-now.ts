/**
 * The analysis against which a reading is judged. The one in the state comes a moment after an edit; what is typed
 * meanwhile is judged by the curve of the record as it stands, never by an older one.
 */
import type { Computation } from './computation.ts';
import type { BenchForm } from './form.ts';
import type { AnalysisOfForm, ScreenState } from './state.ts';

/** `analyse`: all of it, or the calibration alone. */
export function analysed(
  form: BenchForm,
  computation: Computation,
  analyse: Computation['analyse'] = computation.analyse,
): AnalysisOfForm {
  try {
    return { form, analysis: analyse(form), problem: null, computation };
  } catch (error) {
    const problem = error instanceof Error ? error.message : String(error);
    return { form, analysis: null, problem: `The computation stopped: ${problem}`, computation };
  }
}

/** What a step makes of the state with the calibration of the record as it stands; tubes are weighed later. */
export function judgedNow(state: ScreenState, step: (state: ScreenState) => ScreenState): ScreenState {
  const { result, computation, history } = state;
  if (computation === null || result?.form === history.record) return step(state);
  const now = analysed(history.record, computation, computation.calibrate);
  const tubes = result?.analysis?.tubes ?? [];
  const analysis = now.analysis === null ? null : { ...now.analysis, tubes };
  return { ...step({ ...state, result: { ...now, analysis } }), result };
}
