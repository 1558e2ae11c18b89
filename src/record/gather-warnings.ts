import type { Warning } from './bench.ts';

/** Warnings of one kind that are listed one by one; more of them are counted. */
const listedOfAKind = 3;

/**
 * Warnings with the many of one kind gathered into one: a whole table of means is finer than the least count, and
 * forty sentences about it would hide the one that matters.
 */
export function gatherWarnings(warnings: readonly Warning[]): Warning[] {
  const byCode = new Map<string, Warning[]>();
  for (const warning of warnings) {
    const alike = byCode.get(warning.code);
    if (alike === undefined) byCode.set(warning.code, [warning]);
    else alike.push(warning);
  }
  return [...byCode.values()].flatMap((alike) => {
    const [first] = alike;
    if (first === undefined || alike.length <= listedOfAKind) return alike;
    return [{ ...first, message: `${first.message}; and ${alike.length - 1} more like this` }];
  });
}
