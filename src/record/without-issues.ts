import type { PlainIssue } from './explain-issues.ts';

/**
 * A copy of a record's JSON without the keys that were found wrong, so that the rest can be looked at in the same
 * run. Entries of lists stay, because the places of later problems count them.
 */
export function withoutIssues(value: unknown, issues: readonly PlainIssue[]): unknown {
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
