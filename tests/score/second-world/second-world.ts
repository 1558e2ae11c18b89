/**
 * npm run score:second-world [-- --benches N --seed S --columns "flint 1',crown" --processes P --oracle --confusions]
 *
 * The program on benches of a world that is not the one it was tuned in: another author, another law of what is seen,
 * other hands and instruments, brightness facts moved by their uncertainty. `assumptions.ts` has every choice.
 * `--oracle` adds the ceiling (slow), `--confusions` prints for each tube which it was taken for, and where benches of
 * a kind are lost.
 */
import { parseArgs } from 'node:util';
import { textTable } from '../../../src/present/text-table.ts';
import { isWorker, scoreColumns, scoreParts } from '../in-processes.ts';
import { chosen, readOptions } from '../options.ts';
import { clusteredProportion, expectedCalibrationError, median, upperBound95 } from '../statistics.ts';
import { circumstanceNames } from './circumstances.ts';
import { worldColumns } from './plan.ts';
import { scoreWorldBench, type WorldRow } from './score-world.ts';

interface ColumnResult {
  readonly name: string;
  readonly rows: readonly WorldRow[];
}

const oracleMark = ' + oracle';
const percent = (value: number): string => (100 * value).toFixed(1);

/** Share of rows with its binomial standard error, per cent. */
function share(rows: readonly WorldRow[], isHit: (row: WorldRow) => boolean): string {
  const value = rows.filter(isHit).length / rows.length;
  return `${percent(value)} ± ${percent(Math.sqrt((value * (1 - value)) / rows.length))}`;
}

/** Share of wavelengths within so many u, with the error between benches, per cent. */
function coverage(rows: readonly WorldRow[], within: number): string {
  const clusters = rows.map(({ errors }) => ({
    hits: errors.filter((error) => Math.abs(error) <= within).length,
    trials: errors.length,
  }));
  const { value, standardError } = clusteredProportion(clusters);
  return `${percent(value)} ± ${percent(standardError)}`;
}

function mainTable(results: readonly ColumnResult[], isOracleAsked: boolean): string {
  const rows = results.map(({ name, rows }) => {
    const wrong = rows.filter((row) => row.isIdentified && !row.isRight).length;
    const claims = rows.map(({ probability, isRight }) => ({ probability, isRight }));
    return [
      name,
      String(rows.length),
      share(rows, (row) => row.isRight),
      ...(isOracleAsked ? [share(rows, (row) => row.oracle?.isRight === true)] : []),
      share(rows, (row) => row.isIdentified),
      `${wrong} (< ${percent(upperBound95(wrong, rows.length))} %)`,
      expectedCalibrationError(claims).toFixed(3),
      coverage(rows, 1),
      coverage(rows, 2),
      median(rows.map((row) => row.milliseconds)).toFixed(0),
      Math.max(...rows.map((row) => row.milliseconds)).toFixed(0),
    ];
  });
  const titles = [
    'column',
    'benches',
    'first right %',
    ...(isOracleAsked ? ['oracle %'] : []),
    'identified %',
    'wrongly (95 % bound)',
    'calibration error',
    'λ within u %',
    'within 2u %',
    'ms (median)',
    'ms (worst)',
  ];
  return textTable(
    titles.map((title) => ({ title })),
    rows,
  );
}

/** Where the oracle and the program part, bench by bench. */
function partings(results: readonly ColumnResult[]): string[] {
  return results.map(({ name, rows }) => {
    const count = (isProgramRight: boolean, isOracleRight: boolean) =>
      rows.filter((row) => row.isRight === isProgramRight && row.oracle?.isRight === isOracleRight).length;
    return `${name}: both right ${count(true, true)}, oracle only ${count(false, true)}, program only ${count(true, false)}, neither ${count(false, false)}`;
  });
}

/** For each true tube, over all columns: how often it was met and lost, and to which; those lost most stand first. */
function confusions(results: readonly ColumnResult[]): string[] {
  const rows = results.flatMap((result) => result.rows);
  return [...new Set(rows.map((row) => row.substance))]
    .map((substance) => {
      const own = rows.filter((row) => row.substance === substance);
      const lost = own.filter((row) => !row.isRight);
      const avoidable = lost.filter((row) => row.oracle?.isRight === true).length;
      const counts = new Map<string, number>();
      for (const { first } of lost) counts.set(first, (counts.get(first) ?? 0) + 1);
      const takenFor = [...counts].sort((a, b) => b[1] - a[1]).map(([name, count]) => `${name} ${count}`);
      const byOracle = own.some((row) => row.oracle !== null)
        ? `, ${avoidable} of them not by the oracle`
        : '';
      return { substance, own: own.length, lost: lost.length, byOracle, takenFor };
    })
    .sort((a, b) => b.lost - a.lost)
    .map(
      ({ substance, own, lost, byOracle, takenFor }) =>
        `${substance}: ${lost} of ${own} lost${lost > 0 ? `${byOracle}: ${takenFor.join(', ')}` : ''}`,
    );
}

/** First choice right by what the benches were like, over all columns. */
function byCircumstance(results: readonly ColumnResult[], isOracleAsked: boolean): string {
  const all = results.flatMap(({ rows }) => rows);
  const rows = circumstanceNames.flatMap((name) => {
    const own = all.filter(({ circumstances }) => circumstances.includes(name));
    if (own.length === 0) return [];
    const oracle = isOracleAsked ? [share(own, (row) => row.oracle?.isRight === true)] : [];
    return [[name, String(own.length), share(own, (row) => row.isRight), ...oracle]];
  });
  const titles = ['benches with', 'number', 'first right %', ...(isOracleAsked ? ['oracle %'] : [])];
  return textTable(
    titles.map((title) => ({ title })),
    rows,
  );
}

async function main(): Promise<void> {
  const args = process.argv.slice(2);
  const own = ['--oracle', '--confusions'];
  const { values: flags } = parseArgs({
    args: args.filter((argument) => own.includes(argument)),
    options: { oracle: { type: 'boolean' }, confusions: { type: 'boolean' } },
  });
  // The options shared by all scores are read without the two that only this one has.
  process.argv.splice(2, args.length, ...args.filter((argument) => !own.includes(argument)));
  const options = readOptions(400);
  const columns = chosen(worldColumns, options.columns);
  const isOracleAsked = flags.oracle === true;
  const marked = columns.map(({ name }) => ({ name: isOracleAsked ? name + oracleMark : name }));
  const results = (await scoreColumns<WorldRow>(marked, options)).map(({ rows }, k) => ({
    name: columns[k]!.name,
    rows,
  }));
  process.stdout.write(
    [
      `Second world: ${options.benches} simulated benches a column, seed ${options.seed}. Any tube, two lines or more. A tube in one row`,
      'with the true one, or one that shows the same visible lines, counts as right. Wavelengths: those read without',
      'a slip. Milliseconds of processor time.',
      '',
      mainTable(results, isOracleAsked),
      ...(isOracleAsked
        ? [
            '',
            'The oracle knows curve, bench, scatter, slips, slit and the law of what is seen; not the tube, its',
            'strengths, its impurities or its observer. Its chances are Monte Carlo sums: what it reaches can be reached.',
            ...partings(results),
          ]
        : []),
      ...(flags.confusions === true
        ? ['', byCircumstance(results, isOracleAsked), '', 'Tubes lost:', ...confusions(results)]
        : []),
      '',
    ].join('\n'),
  );
}

if (isWorker) {
  scoreParts((name, bench, seed) => {
    const isOracleAsked = name.endsWith(oracleMark);
    const own = isOracleAsked ? name.slice(0, -oracleMark.length) : name;
    return scoreWorldBench(worldColumns.find((column) => column.name === own)!, bench, seed, isOracleAsked);
  });
} else await main();
