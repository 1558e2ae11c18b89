/** zod's issues as sentences with their place in the file. */
import type * as z from 'zod';
import { quoteText } from '../angle/quote-text.ts';

export interface RecordProblem {
  /** `known.lines[2].readings[0]`; "" for the file as a whole. */
  readonly place: string;
  /** A sentence without the place: what is wrong and what would be right. */
  readonly message: string;
}

type Path = readonly PropertyKey[];

/** `['known', 'lines', 2]` as `known.lines[2]`. */
export function placeOf(path: Path): string {
  return path
    .map((step, at) => (typeof step === 'number' ? `[${step}]` : `${at === 0 ? '' : '.'}${plainKey(step)}`))
    .join('');
}

const plainKey = (key: PropertyKey): string => {
  const text = String(key);
  return /^[\w-]{1,40}$/.test(text) ? text : quoteText(text);
};

const kindNames: Readonly<Record<string, string>> = {
  string: 'a text in quotation marks',
  number: 'a number',
  boolean: 'true or false',
  array: 'a list [ ... ]',
  tuple: 'a pair [ ... , ... ]',
  object: 'an object { ... }',
};

function shown(value: unknown): string {
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'an object';
  if (typeof value === 'number' && !Number.isFinite(value)) return 'one that no number can hold';
  return typeof value === 'string' ? `"${quoteText(value).replace(/^"|"$/g, '')}"` : String(value);
}

const either = (choices: readonly string[]): string =>
  choices.length < 2 ? (choices[0] ?? '') : `${choices.slice(0, -1).join(', ')} or ${choices.at(-1)}`;

const missing = 'is missing';

/** The wording of one issue; handed to zod, so that it is made where the value still is at hand. */
export const wordIssue: z.core.$ZodErrorMap = (issue) => {
  switch (issue.code) {
    case 'invalid_type':
      if (issue.input === undefined) return missing;
      return `must be ${kindNames[issue.expected] ?? issue.expected}, not ${shown(issue.input)}`;
    case 'invalid_value':
      if (issue.input === undefined) return missing;
      return `must be ${either(issue.values.map((value) => JSON.stringify(value)))}, not ${shown(issue.input)}`;
    case 'too_small':
      return issue.origin === 'array'
        ? `must have at least ${issue.minimum} ${Number(issue.minimum) === 1 ? 'entry' : 'entries'}`
        : `must be ${issue.minimum} or more, not ${shown(issue.input)}`;
    case 'too_big':
      if (issue.origin === 'string') {
        const { length } = String(issue.input);
        return `must have at most ${issue.maximum} characters, not ${length}`;
      }
      return issue.origin === 'array'
        ? `must have at most ${issue.maximum} entries, not ${(issue.input as readonly unknown[]).length}`
        : `must be ${issue.maximum} or less, not ${shown(issue.input)}`;
    case 'invalid_union':
      return issue.input === undefined ? missing : undefined;
    default:
      return undefined;
  }
};

/** An issue that is no union of issues, with its whole path. */
export interface PlainIssue {
  readonly path: Path;
  readonly issue: z.core.$ZodIssue;
}

/** All issues, those of unions resolved to the branch that was meant. */
export function plainIssues(issues: readonly z.core.$ZodIssue[], above: Path = []): PlainIssue[] {
  return issues.flatMap((issue) => {
    const path = [...above, ...issue.path];
    const branch = issue.code === 'invalid_union' ? branchMeant(issue.errors) : undefined;
    return branch === undefined ? [{ path, issue }] : plainIssues(branch, path);
  });
}

/** What is wrong, where, and what would be right. */
export function explainIssue({ path, issue }: PlainIssue): RecordProblem {
  const place = placeOf(path);
  if (issue.code !== 'invalid_union' || issue.message === missing) return { place, message: issue.message };
  return { place, message: `must be ${either([...new Set(issue.errors.flatMap(kindsWanted))])}` };
}

/** The branch whose kind of value was given, the one with the fewest faults if there are several. */
function branchMeant(branches: readonly (readonly z.core.$ZodIssue[])[]) {
  return branches
    .filter((branch) => !branch.some(isWrongKind))
    .sort((first, second) => first.length - second.length)[0];
}

const isWrongKind = (issue: z.core.$ZodIssue): boolean =>
  issue.path.length === 0 &&
  (issue.code === 'invalid_type' ||
    issue.code === 'invalid_value' ||
    (issue.code === 'invalid_union' && issue.errors.every((branch) => branch.some(isWrongKind))));

function kindsWanted(branch: readonly z.core.$ZodIssue[]): string[] {
  return branch.flatMap((issue) => {
    if (issue.code === 'invalid_union') return issue.errors.flatMap(kindsWanted);
    if (issue.code === 'invalid_value') return issue.values.map((value) => JSON.stringify(value));
    return issue.code === 'invalid_type' ? [kindNames[issue.expected] ?? issue.expected] : [];
  });
}
