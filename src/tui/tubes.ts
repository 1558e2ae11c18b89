/** Several tubes on one calibration: adding one, removing an empty one. */
import { wayTo } from './action-list.ts';
import { commit, say } from './commit.ts';
import type { TubeForm } from './form.ts';
import { sayNoLine } from './line-at-cursor.ts';
import type { ScreenState } from './state.ts';

/** Another tube behind those there are, with a label that none of them has. */
export function addTube(state: ScreenState): ScreenState {
  const { record, place } = state.history;
  const labels = record.unknown.map(({ label }, at) => label ?? `tube ${at + 1}`);
  let number = labels.length + 1;
  while (labels.includes(`tube ${number}`)) number += 1;
  const label = `tube ${number}`;
  const form = { ...record, unknown: [...record.unknown, { label, lines: [] }] };
  const there = { ...place, stage: 'tube', tube: labels.length, row: 0 } as const;
  return atOtherTube(commit(state, form, `new ${label}`, there));
}

/** What was open for one tube does not go on for another. */
export function atOtherTube(state: ScreenState): ScreenState {
  return { ...state, compareWith: null, looking: false, lastLine: null };
}

/** Delete where no line is: takes away the tube at hand when nothing is written down for it and it is not the only one. */
export function removeEmptyTube(state: ScreenState): ScreenState {
  const { record, place } = state.history;
  const tube = record.unknown[place.tube];
  if (tube === undefined || record.unknown.length === 1) return sayNoLine(state);
  if (!isEmpty(tube))
    return say(
      state,
      `There is no line here, and something is written down for the tube; ${wayTo('delete')} removes a tube without anything.`,
    );
  const name = tube.label ?? `tube ${place.tube + 1}`;
  const form = { ...record, unknown: record.unknown.filter((_, at) => at !== place.tube) };
  const there = { ...place, tube: Math.max(0, place.tube - 1), row: Number.MAX_SAFE_INTEGER };
  const said = `${name} removed. ${wayTo('undo')} brings it back.`;
  return atOtherTube(commit(state, form, `${name} removed`, there, said));
}

function isEmpty({ lines, central = [], notSeen = [], answer }: TubeForm): boolean {
  return lines.length === 0 && central.length === 0 && notSeen.length === 0 && answer === undefined;
}
