/**
 * npm run score:measured [-- --only b17]
 *
 * The published benches of tests/reference/benches through the whole program, one row each, and the totals.
 */
import { parseArgs } from 'node:util';
import { percentText } from '../../src/numeric/percent-text.ts';
import { textTable } from '../../src/present/text-table.ts';
import { judgedBenches, type MeasuredResult, measuredBenches, totalsOf, within } from './measured-benches.ts';

const { values } = parseArgs({ options: { only: { type: 'string', default: '' } } });
const start = performance.now();
const results = judgedBenches(measuredBenches().filter(({ id }) => id.includes(values.only)));
if (results.length === 0) throw new RangeError(`no measured bench has "${values.only}" in its name`);

function row(result: MeasuredResult): string[] {
  const { measured, tube } = result;
  const verdict = tube === null ? '-' : tube.verdict.kind;
  const truth = measured.tube ?? (measured.plausibleTubes.map((name) => `${name}?`).join(' ') || '-');
  return [
    measured.id.slice(0, 34),
    tube === null ? '-' : truth,
    tube === null ? '-' : `${verdict}${result.isIdentifiedWrongly ? ' WRONGLY' : ''}`,
    tube === null ? '-' : firstThree(tube),
    `${result.accused.length} of ${result.sound}${listed(result.accused)}`,
    measured.faults.length === 0
      ? '-'
      : `${result.noticed.length} of ${measured.faults.length}${listed(result.missed, 'missed ')}`,
  ];
}

function firstThree({ candidates }: NonNullable<MeasuredResult['tube']>): string {
  return candidates
    .slice(0, 3)
    .map(
      (one) =>
        `${[one.substance, ...one.with].join('+')}${one.indistinguishable.length > 0 ? '~' : ''} ${percentText(one.probability, '>', '<')}`,
    )
    .join(', ');
}

const listed = (nm: readonly number[], word = ''): string =>
  nm.length === 0 ? '' : ` (${word}${nm.join(' ')})`;

const share = (count: number, total: number): string =>
  `${count} of ${total} (${total === 0 ? '-' : `${((100 * count) / total).toFixed(1)} %`})`;

function coverage(name: string, misses: readonly number[]): string {
  const of = (limit: number) => share(within(misses, limit), misses.length);
  return `${name}: within u ${of(1)}, within 2u ${of(2)}`;
}

const total = totalsOf(results);
const titles = ['bench', 'tube', 'verdict', 'first three', 'sound lines accused', 'faults noticed'];
process.stdout.write(
  [
    textTable(
      titles.map((title) => ({ title })),
      results.map(row),
    ),
    '',
    `certain tubes first ${share(total.firstRight, total.certain)}, identified wrongly ${total.identifiedWrongly}`,
    `sound lines accused ${share(total.accused, total.sound)}`,
    `faults noticed ${share(total.noticed, total.faults)}, used as they were meant ${share(total.mended, total.mendable)}`,
    coverage(
      "wavelengths of the certain tubes' lines",
      results.flatMap((result) => result.tubeMisses),
    ),
    coverage(
      'known lines held out',
      results.flatMap((result) => result.heldOutMisses),
    ),
    `${((performance.now() - start) / 1000).toFixed(1)} s`,
    '',
  ].join('\n'),
);
