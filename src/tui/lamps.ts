/** Several known lamps for one curve: adding one, going from one to the other, removing an empty one. */
import { wayTo } from './action-list.ts';
import { commit, goTo, say } from './commit.ts';
import type { LampForm } from './form.ts';
import { sayNoLine } from './line-at-cursor.ts';
import { writingRow } from './rows.ts';
import type { ScreenState } from './state.ts';

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
