/**
 * What was typed and left the line without being taken: a reading that was asked about and overtyped by the next
 * one, a half-typed reading when a key undid something. It is said, and one key brings it back.
 */
import type { Action } from './actions.ts';
import { goTo, say } from './commit.ts';
import { EMPTY_ENTRY, type Entry, entryWith, type ScreenState, type Untaken } from './state.ts';

/** The reading that replaces it is taken a second later; the reminder stands until the edit after that one. */
const REMINDED_FOR = 2;
const MOST_KEPT = 20;

/** The text of the line, with the parts of the reading taken before it. */
function wholeText({ parts, text }: Entry): string {
  return [...parts, text.trim()].filter((part) => part !== '').join(' / ');
}

/** Something stands in the line that was not there when it was opened. */
export function isTyped(entry: Entry): boolean {
  const text = wholeText(entry);
  return text !== '' && text !== entry.began;
}

/** The state after an action, with what the action drove out of the line kept. */
export function keepingUntaken(before: ScreenState, after: ScreenState, action: Action): ScreenState {
  const isEdit = after.history.record !== before.history.record;
  const counted = isEdit ? withLessReminding(after) : after;
  if (!isTyped(before.entry) || !isDrivenOut(before, after, action)) return counted;
  const isWanted = action.type === 'escape' || action.type === 'clear';
  const left = leftBehind(before, isWanted ? 0 : REMINDED_FOR);
  const kept = { ...counted, untaken: [...counted.untaken, left].slice(-MOST_KEPT) };
  return isWanted ? say(kept, 'Cleared. Ctrl+P brings it back.') : kept;
}

/** What stands in the line; `remindFor` 0: the person wants it away and knows. */
function leftBehind({ entry, history }: ScreenState, remindFor: number): Untaken {
  const { place, record } = history;
  return { text: wholeText(entry), purpose: entry.purpose, place, record, remindFor };
}

function isDrivenOut(before: ScreenState, after: ScreenState, action: Action): boolean {
  switch (action.type) {
    case 'erase':
    case 'erase-forward':
    case 'take-suggestion':
    case 'recall':
      return false;
    case 'insert':
    case 'paste':
      return (
        (before.entry.query !== null || before.entry.refusal !== null) && !isIn(after.entry, before.entry)
      );
    case 'enter':
      // Enter in a list or a preview makes an edit of its own; anywhere else it takes the line or says why not.
      return before.overlay !== null && !isIn(after.entry, before.entry);
    default:
      return !isIn(after.entry, before.entry);
  }
}

function isIn(after: Entry, before: Entry): boolean {
  return wholeText(after).includes(wholeText(before));
}

function withLessReminding(state: ScreenState): ScreenState {
  if (untakenText(state) === null) return state;
  const untaken = state.untaken.map((each) => ({ ...each, remindFor: Math.max(0, each.remindFor - 1) }));
  return { ...state, untaken };
}

/** The sentence about it while it is to be remembered; null when there is nothing to say. */
export function untakenText({ untaken }: ScreenState): string | null {
  const texts = untaken.flatMap(({ text, remindFor }) => (remindFor > 0 ? [`"${text}"`] : []));
  if (texts.length === 0) return null;
  const [were, them] = texts.length === 1 ? ['was', 'it'] : ['were', 'them'];
  return `${texts.join(', ')} ${were} not taken; Ctrl+P brings ${them} back, Esc lets ${them} go.`;
}

/** No more reminding; the key still brings the texts back. */
export function withoutReminder(state: ScreenState): ScreenState {
  return { ...state, untaken: state.untaken.map((each) => ({ ...each, remindFor: 0 })) };
}

/**
 * Ctrl+P: the latest text comes back into the line. What stands there now goes behind all others, so that the key
 * leads through them in turn.
 */
export function recall(state: ScreenState): ScreenState {
  if (state.overlay !== null) return state;
  const latest = state.untaken.at(-1);
  if (latest === undefined) return say(state, 'Nothing typed was left behind.');
  const others = { ...state, untaken: state.untaken.slice(0, -1) };
  const kept = isTyped(state.entry) ? [leftBehind(state, 0)] : [];
  const swapped = { ...others, untaken: [...kept, ...others.untaken] };
  const { text, purpose, place } = latest;
  const isSameLine = belongsHere(latest, state);
  return {
    ...(isSameLine ? goTo(swapped, { row: place.row }) : swapped),
    entry: { ...entryWith(isSameLine ? purpose : EMPTY_ENTRY.purpose, text), began: '' },
    notice: null,
  };
}

/** Still the same list, with nothing changed since: then the text goes where it was meant for. */
function belongsHere({ place, record }: Untaken, { history }: ScreenState): boolean {
  const here = history.place;
  return (
    record === history.record &&
    place.stage === here.stage &&
    place.lamp === here.lamp &&
    place.tube === here.tube
  );
}
