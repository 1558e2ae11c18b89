/**
 * The gate of the record: an edit whose record could not be opened again is refused, whatever made it. The reader that
 * opens files judges, so the screen has no bounds of its own to keep in step with.
 */
import { say } from './commit.ts';
import type { BenchForm } from './form.ts';
import { type ScreenState, unasked } from './state.ts';
import { isTyped } from './untaken.ts';

/**
 * The state after an action; the one before it with a sentence where its record cannot be. What is typed or open stays.
 * @param whyUnreadable the reader's sentence about a record; null where it can be read again
 */
export function withoutUnreadable(
  before: ScreenState,
  after: ScreenState,
  whyUnreadable: (form: BenchForm) => string | null,
): ScreenState {
  const { record } = after.history;
  if (record === before.history.record) return after;
  const why = whyUnreadable(record);
  if (why === null) return after;
  const sentence = `Not done, because the record could not be opened again: ${why}`;
  const isInLine = before.overlay === null && isTyped(before.entry);
  return isInLine
    ? { ...before, entry: { ...unasked(before.entry), refusal: sentence }, notice: null }
    : say(before, sentence, 'doubt');
}
