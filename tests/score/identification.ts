/**
 * npm run score:identification [-- --benches N --seed S --columns "flint 1',stress" --processes P]
 *
 * Simulated benches through the whole program: is the first choice right, and do the probabilities mean what they
 * say? Beside it, on the same benches, the references.
 */
import { textTable } from '../../src/present/text-table.ts';
import { type IdentificationRow, scoreIdentification } from './identification-bench.ts';
import { type IdentificationColumn, identificationColumns } from './identification-plan.ts';
import { isWorker, scoreColumns, scoreParts } from './in-processes.ts';
import { chosen, readOptions } from './options.ts';
import { expectedCalibrationError, median, upperBound95 } from './statistics.ts';

const titled = (titles: readonly string[]) => titles.map((title) => ({ title }));

const share = (count: number, total: number): number => count / total;
const percent = (value: number): string => (100 * value).toFixed(1);

function withError(rows: readonly IdentificationRow[], isHit: (row: IdentificationRow) => boolean): string {
  const value = share(rows.filter(isHit).length, rows.length);
  return `${percent(value)} ± ${percent(Math.sqrt((value * (1 - value)) / rows.length))}`;
}

interface ColumnResult {
  readonly column: IdentificationColumn;
  readonly rows: readonly IdentificationRow[];
}

function mainTable(results: readonly ColumnResult[]): string {
  const rows = results.map(({ column, rows }) => {
    const wrong = rows.filter((row) => row.isDecided && !row.isFirstRight).length;
    const claims = rows.map((row) => ({ probability: row.firstProbability, isRight: row.isFirstRight }));
    return [
      column.name,
      String(rows.length),
      withError(rows, (row) => row.isFirstRight),
      column.target,
      withError(rows, (row) => row.isInFirstThree),
      withError(rows, (row) => row.isDecided),
      (100 * share(wrong, rows.length)).toFixed(2),
      (100 * upperBound95(wrong, rows.length)).toFixed(2),
      column.leaveOutChance === 1 ? '<= 1' : '<= 0.5',
      expectedCalibrationError(claims).toFixed(3),
      column.targetError,
      median(rows.map((row) => row.milliseconds)).toFixed(1),
    ];
  });
  const titles = [
    'column',
    'benches',
    'first right %',
    'target',
    'in first three %',
    'decided %',
    'decided wrongly %',
    '95 % bound',
    'target',
    'calibration error',
    'target',
    'ms (median)',
  ];
  return textTable(titled(titles), rows);
}

function referenceTable(results: readonly ColumnResult[]): string {
  const rows = results
    .filter(({ column }) => column.leaveOutChance === undefined)
    .map(({ column, rows }) => [
      column.name,
      withError(rows, (row) => row.nearestLine),
      withError(rows, (row) => row.plainAlignment),
      withError(rows, (row) => row.isFirstRight),
      rows.some((row) => row.slipOracle !== null) ? withError(rows, (row) => row.slipOracle === true) : '-',
      withError(rows, (row) => row.oracle),
    ]);
  const titles = [
    'first right %',
    'nearest line',
    'plain alignment',
    'this program',
    'oracle, slips unknown',
    'oracle',
  ];
  return textTable(titled(titles), rows);
}

function byLinesTable(results: readonly ColumnResult[]): string {
  const counts = Array.from({ length: 9 }, (_, k) => k + 2);
  const rows = results.map(({ column, rows }) => [
    column.name,
    ...counts.map((count) => {
      const own = rows.filter(
        (row) => row.recordedLines === count || (count === 10 && row.recordedLines > 10),
      );
      if (own.length === 0) return '-';
      return `${percent(share(own.filter((row) => row.isFirstRight).length, own.length))} (${own.length})`;
    }),
  ]);
  return textTable(titled(['first right % (benches), by recorded lines', ...counts.map(String)]), rows);
}

function confusions({ column, rows }: ColumnResult): string {
  const counts = new Map<string, number>();
  for (const row of rows.filter((r) => !r.isFirstRight)) {
    const pair = `${row.substance} taken for ${row.first}`;
    counts.set(pair, (counts.get(pair) ?? 0) + 1);
  }
  const most = [...counts].sort((a, b) => b[1] - a[1]).slice(0, 6);
  return `${column.name}: ${most.map(([pair, count]) => `${pair} ${count}`).join(', ') || 'none'}`;
}

async function main(): Promise<void> {
  const options = readOptions(2000);
  const columns = chosen(identificationColumns, options.columns);
  const scored = await scoreColumns<IdentificationRow | null>(columns, options);
  const results = columns.map((column, k) => ({
    column,
    rows: scored[k]!.rows.filter((row) => row !== null),
  }));
  process.stdout.write(
    [
      `Identification score: ${options.benches} simulated benches a column, seed ${options.seed}. Every tube of the line table is equally`,
      'likely, two recorded lines at least, both lamps. A tube in one row with the true one counts as right. Oracle:',
      'knows the true curve, the reading error and every slip; slips unknown: knows how often each kind of slip is',
      'made, and not which readings are slips. "left out": the true tube and those like it are not on the shelf; right',
      'is "unlisted", and decided is decided wrongly. "as they come": slips in none, 3 or 8 % of the readings of a bench, a',
      'seventh of the tubes as in the stress column, one tube in seventy not on the shelf.',
      '',
      mainTable(results),
      '',
      referenceTable(results),
      '',
      byLinesTable(results),
      '',
      'Most frequent confusions:',
      ...results.map(confusions),
      '',
    ].join('\n'),
  );
}

if (isWorker) {
  scoreParts((name, bench, seed) =>
    scoreIdentification(identificationColumns.find((column) => column.name === name)!, bench, seed),
  );
} else await main();
