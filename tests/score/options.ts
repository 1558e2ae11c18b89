/** Options that every score takes. */
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';

export interface ScoreOptions {
  /** Simulated benches a column. */
  readonly benches: number;
  readonly seed: number;
  /** Only columns whose name has one of these in it; empty: all. */
  readonly columns: readonly string[];
  readonly processes: number;
}

export function readOptions(defaultBenches: number): ScoreOptions {
  const { values } = parseArgs({
    options: {
      benches: { type: 'string', default: String(defaultBenches) },
      seed: { type: 'string', default: '1' },
      columns: { type: 'string', default: '' },
      processes: { type: 'string', default: String(Math.min(2, availableParallelism())) },
    },
  });
  const whole = (name: 'benches' | 'seed' | 'processes'): number => {
    const value = Number(values[name]);
    if (!Number.isInteger(value) || value < 1)
      throw new RangeError(`--${name} must be a whole number above 0`);
    return value;
  };
  return {
    benches: whole('benches'),
    seed: whole('seed'),
    columns: values.columns.split(',').filter((part) => part !== ''),
    processes: whole('processes'),
  };
}

/** The columns asked for; all when none is asked for. */
export function chosen<Column extends { readonly name: string }>(
  columns: readonly Column[],
  wanted: readonly string[],
): Column[] {
  const kept = columns.filter(
    ({ name }) => wanted.length === 0 || wanted.some((part) => name.includes(part.trim())),
  );
  if (kept.length === 0)
    throw new RangeError(`no column is named so; there are: ${columns.map((c) => c.name).join('; ')}`);
  return kept;
}

/** A seed of its own for every bench, so that any number of processes simulates the same benches. */
export function benchSeed(seed: number, column: string, bench: number): number {
  let hash = 2166136261 ^ seed;
  for (const character of `${column}#${bench}`) hash = Math.imul(hash ^ character.codePointAt(0)!, 16777619);
  return hash >>> 0;
}
