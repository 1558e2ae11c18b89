/**
 * The trail: the history of a record as lines of text, one JSON object each, only ever appended to.
 * Pure; `journal.ts` puts it on disk. A line cut short by a crash is ignored together with what follows it.
 */
import { isUtf8 } from 'node:buffer';
import type { DecimalReading } from '../angle/decimal-meaning.ts';
import type { BenchForm } from './form.ts';
import { type Place, STAGES } from './state.ts';

/** A state of the record that undo or redo can go back to. */
export interface Step {
  readonly record: BenchForm;
  readonly place: Place;
  /** What was done to this state next, in words: `reading 229°39'`. */
  readonly what: string;
}

export interface History {
  readonly record: BenchForm;
  readonly place: Place;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** Tubes (by position) whose ranking has been shown to the person. */
  readonly rankingSeen: readonly number[];
  /** What a person said that numbers with a decimal mark mean on this bench; null before the first was asked. */
  readonly decimals: DecimalReading | null;
}

export type Change =
  | { readonly kind: 'edit'; readonly what: string }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' }
  /** The same record written again, its trail begun anew. */
  | { readonly kind: 'again' }
  /** Only the place, or what has been seen. */
  | { readonly kind: 'go' };

/** Undo goes back this many steps. */
const STEPS_KEPT = 300;

export function startHistory(record: BenchForm, place: Place): History {
  return { record, place, past: [], future: [], rankingSeen: [], decimals: null };
}

/** The record put in; where a tube went or came, the marks of the tubes behind it move with them. */
function withRecord(history: History, record: BenchForm): History {
  const [before, after] = [history.record.unknown, record.unknown];
  const more = after.length - before.length;
  if (Math.abs(more) !== 1) return { ...history, record };
  const differs = before.findIndex((tube, at) => JSON.stringify(tube) !== JSON.stringify(after[at]));
  const changed = differs < 0 ? before.length : differs;
  const rankingSeen = history.rankingSeen
    .filter((tube) => more > 0 || tube !== changed)
    .map((tube) => (tube >= changed ? tube + more : tube));
  return { ...history, record, rankingSeen };
}

/** The history after the record has been changed to `record`. */
export function historyEdited(history: History, record: BenchForm, place: Place, what: string): History {
  const step: Step = { record: history.record, place: history.place, what };
  return {
    ...withRecord(history, record),
    place,
    past: [...history.past, step].slice(-STEPS_KEPT),
    future: [],
  };
}

/** One step back; the same history where there is none. */
export function historyUndone(history: History): History {
  return travelled(history, 'past', 'future');
}

export function historyRedone(history: History): History {
  return travelled(history, 'future', 'past');
}

/** The last step of one list taken, and the history as it was put behind the other. */
function travelled(history: History, from: 'past' | 'future', to: 'past' | 'future'): History {
  const step = history[from].at(-1);
  if (step === undefined) return history;
  const left: Step = { record: history.record, place: history.place, what: step.what };
  const lists = { [from]: history[from].slice(0, -1), [to]: [...history[to], left] };
  return { ...withRecord(history, step.record), place: step.place, ...lists };
}

/** The line that says what led to this history. */
export function trailLine(history: History, change: Exclude<Change, { kind: 'again' }>): string {
  const at = history.place;
  const line =
    change.kind === 'edit'
      ? { do: 'edit', what: change.what, at, ...decimalsOf(history), record: history.record }
      : change.kind === 'go'
        ? { do: 'go', at, seen: history.rankingSeen, ...decimalsOf(history) }
        : { do: change.kind };
  return `${JSON.stringify(line)}\n`;
}

function decimalsOf({ decimals }: History): { decimals?: DecimalReading } {
  return decimals === null ? {} : { decimals };
}

/** A whole trail that leads to this history: what a journal starts with. */
export function writeTrail(history: History): string {
  const lines: object[] = [];
  const states = [...history.past, { record: history.record, place: history.place, what: '' }];
  for (const [position, { place: at, record }] of states.entries()) {
    const what = states[position - 1]?.what;
    lines.push(what === undefined ? { do: 'start', at, record } : { do: 'edit', what, at, record });
  }
  // Redo steps are written as edits that are then undone.
  for (const step of [...history.future].reverse()) {
    lines.push({ do: 'edit', what: step.what, at: step.place, record: step.record });
  }
  for (let count = 0; count < history.future.length; count += 1) lines.push({ do: 'undo' });
  lines.push({ do: 'go', at: history.place, seen: history.rankingSeen, ...decimalsOf(history) });
  return lines.map((line) => `${JSON.stringify(line)}\n`).join('');
}

/** The text of a trail file up to the line that a crash cut short, or one that is not UTF-8. */
export function wholeLines(bytes: Buffer): string {
  const whole = bytes.subarray(0, bytes.lastIndexOf('\n') + 1);
  if (isUtf8(whole)) return whole.toString();
  let end = 0;
  for (let next = whole.indexOf('\n'); isUtf8(whole.subarray(end, next)); next = whole.indexOf('\n', end))
    end = next + 1;
  return whole.toString('utf8', 0, end);
}

/**
 * Reads a trail back. Null when not even its first line can be read.
 * @param asRecord checks a record; null where it is none
 */
export function readTrail(text: string, asRecord: (value: unknown) => BenchForm | null): History | null {
  let history: History | null = null;
  const lines = text.split('\n');
  lines.pop();
  for (const line of lines) {
    const next = readTrailLine(history, line, asRecord);
    if (next === null) break;
    history = next;
  }
  return history;
}

function readTrailLine(
  history: History | null,
  line: string,
  asRecord: (value: unknown) => BenchForm | null,
): History | null {
  let entry: Record<string, unknown>;
  try {
    const value: unknown = JSON.parse(line);
    if (typeof value !== 'object' || value === null) return null;
    entry = value as Record<string, unknown>;
  } catch {
    return null;
  }
  if (entry.do === 'undo') return history === null ? null : historyUndone(history);
  if (entry.do === 'redo') return history === null ? null : historyRedone(history);
  const place = asPlace(entry.at);
  if (place === null) return null;
  if (entry.do === 'go') {
    const seen = Array.isArray(entry.seen) ? entry.seen.filter((tube) => Number.isInteger(tube)) : [];
    return history === null
      ? null
      : { ...history, place, rankingSeen: seen as number[], decimals: asDecimals(entry.decimals, history) };
  }
  // An edit to a record that cannot be read is an edit that changed nothing: those after it count on its place.
  const record = asRecord(entry.record) ?? history?.record ?? null;
  if (record === null) return null;
  if (entry.do === 'start') return startHistory(record, place);
  if (entry.do !== 'edit' || history === null) return null;
  const edited = historyEdited(history, record, place, typeof entry.what === 'string' ? entry.what : '');
  return { ...edited, decimals: asDecimals(entry.decimals, history) };
}

function asDecimals(value: unknown, before: History): DecimalReading | null {
  return value === 'degrees' || value === 'minutes' ? value : before.decimals;
}

function asPlace(value: unknown): Place | null {
  if (typeof value !== 'object' || value === null) return null;
  const { stage, lamp, tube, row } = value as Record<string, unknown>;
  if (!(STAGES as readonly unknown[]).includes(stage)) return null;
  if (![lamp, tube, row].every((count) => Number.isInteger(count) && (count as number) >= 0)) return null;
  return value as Place;
}
