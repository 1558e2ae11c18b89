/** One bench of the second world through the program and past the oracle. */
import { analyseBench } from '../../../src/analysis/analyse.ts';
import { readRecord } from '../../../src/record/read-record.ts';
import { formatRecord } from '../../../src/record/write-record.ts';
import { circumstancesOf } from './circumstances.ts';
import { askOracle } from './oracle.ts';
import type { WorldColumn } from './plan.ts';
import { simulateWorldBench, worldSeed } from './simulate.ts';
import { isAlike } from './tubes.ts';

export interface WorldRow {
  readonly substance: string;
  readonly circumstances: readonly string[];
  readonly first: string;
  readonly isRight: boolean;
  readonly probability: number;
  readonly isIdentified: boolean;
  /** Errors of the wavelengths read without a slip, in units of their stated standard uncertainty. */
  readonly errors: readonly number[];
  /** Of processor time, so that what else runs on the machine does not count. */
  readonly milliseconds: number;
  /** Null where it was not asked. */
  readonly oracle: { readonly first: string; readonly isRight: boolean; readonly probability: number } | null;
}

/** Throws Error where the simulator made a record that the program does not take. */
export function scoreWorldBench(
  column: WorldColumn,
  bench: number,
  seed: number,
  isOracleAsked: boolean,
): WorldRow {
  const ownSeed = worldSeed(column.name, bench, seed);
  const world = simulateWorldBench(ownSeed, column);
  const read = readRecord(formatRecord(world.record));
  if (!read.ok) throw new Error(`bench ${bench} of "${column.name}": ${JSON.stringify(read.problems)}`);
  const start = process.cpuUsage();
  const { candidates, verdict, lines } = analyseBench(read.bench).tubes[0]!;
  const { user, system } = process.cpuUsage(start);

  const { substance } = world.tube;
  // Known lines that all read alike give no curve, and then there is no ranking.
  const first = candidates[0] ?? null;
  const errors = lines.flatMap(({ index, wavelengthNm, standardUncertaintyNm }) => {
    const truth = world.lines[index]!;
    if (wavelengthNm === null || standardUncertaintyNm === null) return [];
    if (truth.raw.some(({ slip }) => slip !== 0)) return [];
    return [(wavelengthNm - truth.nm) / standardUncertaintyNm];
  });
  const named = isOracleAsked ? askOracle(world, ownSeed) : null;
  // The oracle gives one name: right where it is like the true tube, or the program has both in one row.
  const rowOfTruth = candidates
    .map((row) => [row.substance, ...row.indistinguishable])
    .find((names) => names.includes(substance));
  return {
    substance,
    circumstances: circumstancesOf(world),
    first: first?.substance ?? 'no ranking',
    isRight:
      first !== null &&
      [first.substance, ...first.indistinguishable].some((name) => isAlike(name, substance)),
    probability: first?.probability ?? 0,
    isIdentified: verdict.kind === 'identified',
    errors,
    milliseconds: (user + system) / 1000,
    oracle:
      named === null
        ? null
        : {
            first: named.substance,
            isRight: isAlike(named.substance, substance) || rowOfTruth?.includes(named.substance) === true,
            probability: named.probability,
          },
  };
}
