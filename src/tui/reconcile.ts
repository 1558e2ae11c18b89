/** The record file and its trail brought together: a crash or another program may have parted them. Pure. */
import { wayTo } from './action-list.ts';
import { type BenchForm, isSameForm } from './form.ts';
import { START_PLACE } from './state.ts';
import { type History, historyEdited, startHistory } from './trail.ts';

export interface Reconciled {
  readonly history: History;
  /** What a person should know about how the record was opened; null when there is nothing to say. */
  readonly notice: string | null;
  /** The record file lacks what the trail has; it is to be written at once. */
  readonly isBehind: boolean;
}

/** `inFile` and `trail` are null where there is none; `blank` is the record to start with where there is neither. */
export function reconcile(
  inFile: BenchForm | null,
  trail: History | null,
  { blank, name }: { readonly blank: BenchForm; readonly name: string },
): Reconciled {
  if (trail === null) {
    return { history: startHistory(inFile ?? blank, START_PLACE), notice: null, isBehind: false };
  }
  if (inFile === null) {
    return { history: trail, notice: `${name} was gone; it is rebuilt from its trail.`, isBehind: true };
  }
  const same = (form: BenchForm): boolean => isSameForm(form, inFile);
  if (same(trail.record)) return { history: trail, notice: null, isBehind: false };
  const notInFile = [...trail.past].reverse().findIndex((step) => same(step.record)) + 1;
  if (notInFile > 0) {
    const edits = notInFile === 1 ? 'The last edit was' : `The last ${notInFile} edits were`;
    return {
      history: trail,
      notice: `${edits} in the trail only; nothing is lost. ${wayTo('undo')} undoes.`,
      isBehind: true,
    };
  }
  return {
    history: historyEdited(trail, inFile, trail.place, 'change made outside'),
    notice: `${name} was changed by another program; ${wayTo('undo')} goes back to what was here before.`,
    isBehind: false,
  };
}
