/**
 * The known lamps as a whole: lines passed over, names put right together, when there are lines enough, what a further
 * line would help; several lamps for one curve.
 */
import { type CurveReach, curveReach } from '../analysis/curve-reach.ts';
import { wayTo } from './action-list.ts';
import { commit, goTo, say } from './commit.ts';
import { editLine } from './edits.ts';
import type { LampForm } from './form.ts';
import { knownResult } from './known-result.ts';
import { sayNoLine } from './line-at-cursor.ts';
import { nextToFind, rowAtCursor, writingRow } from './rows.ts';
import type { AnalysisOfForm, ScreenState } from './state.ts';
import { analysisNow } from './target.ts';

/** `-` on a line still to be found: it is not to be seen, the next one is asked for. */
export function passOver(state: ScreenState): ScreenState {
  const row = rowAtCursor(state);
  if (row?.kind !== 'expected')
    return say(state, 'Only a line still to be found is passed over; the arrow keys go to one.');
  const { wavelengthNm } = row.expected;
  const { record, place } = state.history;
  const passedOver = [...state.passedOver, wavelengthNm];
  const next = nextToFind(record, place, passedOver);
  const text = `${wavelengthNm.toFixed(1)} passed over; it stays in the list.`;
  return say(goTo({ ...state, passedOver }, { row: next ?? Number.MAX_SAFE_INTEGER }), text);
}

interface OtherName {
  readonly lamp: number;
  readonly line: number;
  readonly wavelengthNm: number;
}

/** Lines that the calibration reads as other lines than they are named for, in all lamps. */
function otherNames(state: ScreenState): readonly OtherName[] {
  return state.history.record.known.flatMap(({ lines }, lamp) =>
    lines.flatMap((stated, line): OtherName[] => {
      const result = knownResult(line, state, lamp);
      if (result?.status !== 'reassigned' || result.wavelengthNm === null) return [];
      const wavelengthNm = Number(result.wavelengthNm.toFixed(2));
      return stated.wavelengthNm === wavelengthNm ? [] : [{ lamp, line, wavelengthNm }];
    }),
  );
}

/** So many names that are off together are one mistake: a line missed, and all after it named for their neighbours. */
const TOGETHER = 2;

/** How many names can be put right together; 0 where each is a matter of its own. */
export function namesTogether(state: ScreenState): number {
  const count = otherNames(state).length;
  return count >= TOGETHER ? count : 0;
}

/** Gives every line the name that it reads like, as one edit. */
export function takeNames(state: ScreenState): ScreenState {
  const names = otherNames(state);
  if (names.length === 0) return say(state, 'Every known line reads like the line it is named for.');
  const form = names.reduce(
    (current, { lamp, line, wavelengthNm }) =>
      editLine(current, { of: 'lamp', at: lamp }, line, ({ confirmed: _, ...old }) => ({
        ...old,
        wavelengthNm,
      })),
    state.history.record,
  );
  const what = `${names.length} ${names.length === 1 ? 'name' : 'names'} as the lines read`;
  return commit(state, form, what, state.history.place, { tone: 'good', text: `${what}.` });
}

/** Good lines from which on the curve carries a tube (common practice, no source). */
const ENOUGH_LINES = 6;

/** How good the curve is once it has lines enough and none is doubted; null before. */
export function enoughLines(state: ScreenState): CurveReach | null {
  const calibration = analysisNow(state)?.calibration;
  if (calibration == null || calibration.curve === null) return null;
  const used = calibration.lines.filter(({ status }) => status === 'used');
  // What a person has set aside is no doubt.
  const weighed = calibration.lines.filter(({ status }) => status !== 'set-aside');
  const isDoubted = calibration.doubts.length > 0 || used.length < weighed.length;
  return used.length < ENOUGH_LINES || isDoubted ? null : curveReach(calibration.curve);
}

/** The result with what further line of the lamp at hand would help, on its stage and where there are enough. */
export function withAdvice(state: ScreenState & { readonly result: AnalysisOfForm }): AnalysisOfForm {
  const { result, history } = state;
  const { analysis, computation } = result;
  const { stage, lamp } = history.place;
  const curve = analysis?.calibration.curve ?? null;
  if (analysis === null || curve === null || stage !== 'lamp' || enoughLines(state) === null) return result;
  const { bench, calibration } = analysis;
  const substances = bench.known[lamp]?.substances ?? [];
  return {
    ...result,
    adviceLamp: lamp,
    advice: computation.adviseLamps(bench, calibration, curve, substances),
  };
}

/** Another lamp beside those there are; the first place that is still empty and unnamed is used up before. */
export function addLamp(state: ScreenState, name: string): ScreenState {
  const { record } = state.history;
  const unnamed = record.known.findIndex((lamp) => lamp.lamp === undefined && isEmpty(lamp));
  const at = unnamed < 0 ? record.known.length : unnamed;
  const known = [...record.known.slice(0, at), { lamp: name, lines: [] }, ...record.known.slice(at + 1)];
  const said = `${name} is lamp ${at + 1} of ${known.length}; left and right arrow go from lamp to lamp, ${wayTo('delete')} removes one without lines.`;
  return withLamps(state, known, at, `lamp ${name} added`, said);
}

/** Another list of lamps, and on with writing at one of them. */
function withLamps(
  state: ScreenState,
  known: readonly LampForm[],
  lamp: number,
  what: string,
  said: string,
): ScreenState {
  const { record, place } = state.history;
  const form = { ...record, known };
  const row = writingRow(form, { ...place, lamp }, state.passedOver);
  const next = commit(state, form, what, { ...place, lamp, row }, said);
  return { ...next, lastLine: null };
}

/** To the lamp at a position, on the row where one goes on writing; the same state where there is none. */
export function toLamp(state: ScreenState, lamp: number): ScreenState {
  const { record, place } = state.history;
  if (record.known[lamp] === undefined) return state;
  return goTo(
    { ...state, notice: null },
    { lamp, row: writingRow(record, { ...place, lamp }, state.passedOver) },
  );
}

/** Delete where no line is: takes away the lamp at hand when it has no lines and is not the only one. */
export function removeEmptyLamp(state: ScreenState): ScreenState {
  const { record, place } = state.history;
  const lamp = record.known[place.lamp];
  if (lamp === undefined || record.known.length === 1) return sayNoLine(state);
  if (!isEmpty(lamp))
    return say(
      state,
      `There is no line here, and the lamp has lines; ${wayTo('delete')} removes a lamp without any.`,
    );
  const name = lamp.lamp ?? 'the unnamed lamp';
  const known = record.known.filter((_, at) => at !== place.lamp);
  const said = `Lamp ${name} removed. ${wayTo('undo')} brings it back.`;
  return withLamps(state, known, Math.max(0, place.lamp - 1), `lamp ${name} removed`, said);
}

function isEmpty({ lines, check = [] }: LampForm): boolean {
  return lines.length === 0 && check.length === 0;
}
