/**
 * npm run score:first-readings [-- --benches N --seed S --columns "flint 1'" --processes P]
 *
 * What the screen says while a list grows: benches of the second world after their first readings, which come from either end
 * of the spectrum or as they were met. Nobody has said that the list is complete, and it is not.
 */
import { analyseBench } from '../../../src/analysis/analyse.ts';
import { textTable } from '../../../src/present/text-table.ts';
import { readRecord } from '../../../src/record/read-record.ts';
import { formatRecord } from '../../../src/record/write-record.ts';
import { isWorker, scoreColumns, scoreParts } from '../in-processes.ts';
import { chosen, readOptions } from '../options.ts';
import { Random } from '../random.ts';
import { expectedCalibrationError } from '../statistics.ts';
import { worldColumns } from './plan.ts';
import { simulateWorldBench, type WorldBench, worldSeed } from './simulate.ts';
import { isAlike } from './tubes.ts';

interface BegunRow {
  readonly readings: number;
  readonly probability: number;
  readonly isRight: boolean;
  readonly isIdentified: boolean;
  /** Of the true tube; no smaller than one in a million. */
  readonly logOfTrue: number;
}

const counts = [1, 2, 3, 4, 6];

/** The record with these of its tube's lines, by their places. Throws Error where the program does not take it. */
function begun({ record, tube }: WorldBench, places: readonly number[]): BegunRow {
  const [{ complete: _, ...whole }] = record.unknown as [NonNullable<typeof record.unknown>[number]];
  const lines = whole.lines!.filter((_, place) => places.includes(place));
  const read = readRecord(formatRecord({ ...record, unknown: [{ ...whole, lines }] }));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { candidates, verdict } = analyseBench(read.bench).tubes[0]!;
  const isTrue = ({ substance, indistinguishable }: (typeof candidates)[number]): boolean =>
    [substance, ...indistinguishable].some((name) => isAlike(name, tube.substance));
  const first = candidates[0];
  const ofTrue = candidates.filter(isTrue).reduce((sum, { probability }) => sum + probability, 0);
  return {
    readings: lines.length,
    probability: first?.probability ?? 0,
    isRight: first !== undefined && isTrue(first),
    isIdentified: verdict.kind === 'identified',
    logOfTrue: Math.log(Math.max(1e-6, ofTrue)),
  };
}

function scoreFirstReadings(name: string, bench: number, seed: number): BegunRow[] {
  const ownSeed = worldSeed(name, bench, seed);
  const world = simulateWorldBench(ownSeed, worldColumns.find((column) => column.name === name)!);
  const redFirst = world.lines.map((_, place) => place);
  const orders = [redFirst, redFirst.toReversed(), new Random(ownSeed + 1).shuffle(redFirst)];
  return counts
    .filter((count) => count < world.lines.length)
    .flatMap((count) => orders.map((order) => begun(world, order.slice(0, count))));
}

function table(name: string, rows: readonly BegunRow[]): string {
  const titles = [
    'readings',
    'lists',
    'first right %',
    'says %',
    'calibration error',
    'ln p',
    'identified',
    'wrongly',
  ];
  const mean = (own: readonly BegunRow[], value: (row: BegunRow) => number): number =>
    own.reduce((sum, row) => sum + value(row), 0) / own.length;
  return textTable(
    titles.map((title) => ({ title: title === 'readings' ? `${name}, readings` : title })),
    counts.map((count) => {
      const own = rows.filter(({ readings }) => readings === count);
      const identified = own.filter(({ isIdentified }) => isIdentified);
      return [
        String(count),
        String(own.length),
        (100 * mean(own, ({ isRight }) => (isRight ? 1 : 0))).toFixed(1),
        (100 * mean(own, ({ probability }) => probability)).toFixed(1),
        expectedCalibrationError(own).toFixed(3),
        mean(own, ({ logOfTrue }) => logOfTrue).toFixed(2),
        String(identified.length),
        String(identified.filter(({ isRight }) => !isRight).length),
      ];
    }),
  );
}

async function main(): Promise<void> {
  const options = readOptions(100);
  const results = await scoreColumns<BegunRow[]>(chosen(worldColumns, options.columns), options);
  process.stdout.write(
    `${[
      `Lists that are not done: ${options.benches} benches of the second world a column, seed ${options.seed}, three orders each.`,
      ...results.map(({ name, rows }) => table(name, rows.flat())),
    ].join('\n\n')}\n`,
  );
}

if (isWorker) scoreParts(scoreFirstReadings);
else await main();
