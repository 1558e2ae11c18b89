import type * as z from 'zod';
import type { Bench, Warning } from './bench.ts';
import {
  explainIssue,
  type PlainIssue,
  plainIssues,
  type RecordProblem,
  wordIssue,
} from './explain-issues.ts';
import { readJson } from './json-text.ts';
import { most } from './limits.ts';
import { type BenchRecord, benchRecordSchema } from './schema.ts';
import { checkedBench } from './to-bench.ts';

export type { RecordProblem } from './explain-issues.ts';

export type RecordResult =
  | {
      readonly ok: true;
      readonly record: BenchRecord;
      readonly bench: Bench;
      readonly warnings: readonly Warning[];
    }
  | { readonly ok: false; readonly problems: readonly RecordProblem[] };

/** Reads a bench record from a file's text: all its problems with their places, or the record and its bench. */
export function readRecord(text: string): RecordResult {
  if (text.length > most.bytes) {
    const message = 'it is larger than 16 MiB; a bench record is far smaller';
    return { ok: false, problems: [{ place: '', message }] };
  }
  const json = readJson(text.replace(/^\ufeff/, ''));
  if (!json.ok) return json;
  const parsed = benchRecordSchema.safeParse(json.value, { error: wordIssue });
  if (!parsed.success) return { ok: false, problems: allProblems(json.value, parsed.error.issues) };
  const result = checkedBench(parsed.data);
  if (!result.ok) return result;
  return { ok: true, record: parsed.data, bench: result.bench, warnings: result.warnings };
}

/** Faults of shape, and those of the readings and names as far as the rest of the record can be read. */
function allProblems(value: unknown, issues: readonly z.core.$ZodIssue[]): RecordProblem[] {
  const found = plainIssues(issues);
  const problems = found.map(explainIssue);
  const rest = benchRecordSchema.safeParse(withoutIssues(value, found), { error: wordIssue });
  if (!rest.success) return problems;
  const result = checkedBench(rest.data);
  return result.ok ? problems : [...problems, ...result.problems];
}

/**
 * A copy of a record's JSON without the keys that were found wrong, so that the rest can be looked at in the same
 * run. Entries of lists stay, because the places of later problems count them.
 */
function withoutIssues(value: unknown, issues: readonly PlainIssue[]): unknown {
  const copy: unknown = structuredClone(value);
  for (const { path, issue } of issues) {
    if (issue.code === 'unrecognized_keys') {
      for (const key of issue.keys) remove(copy, [...path, key]);
    } else remove(copy, path);
  }
  return copy;
}

function remove(root: unknown, path: readonly PropertyKey[]): void {
  let parent = root;
  for (const step of path.slice(0, -1)) {
    if (typeof parent !== 'object' || parent === null) return;
    parent = (parent as Record<PropertyKey, unknown>)[step];
  }
  const last = path.at(-1);
  if (last === undefined || typeof parent !== 'object' || parent === null || Array.isArray(parent)) return;
  delete (parent as Record<PropertyKey, unknown>)[last];
}
