/** The calibration score as text tables, targets beside. */
import { textTable } from '../../src/present/text-table.ts';
import type { CleanResult, FaultResult, WavelengthScore } from './calibration-bench.ts';
import { type FaultName, faultNames, faults } from './calibration-plan.ts';
import { clusteredProportion, type Proportion, rootRatio } from './statistics.ts';

/** What came of one bench of a column. */
export interface BenchRow {
  readonly clean: CleanResult;
  readonly faulty: readonly {
    readonly fault: FaultName;
    readonly knownLines: number;
    readonly result: FaultResult;
  }[];
}

interface ColumnResult {
  readonly name: string;
  readonly rows: readonly BenchRow[];
}

const titled = (titles: readonly string[]) => titles.map((title) => ({ title }));

const percent = ({ value, standardError }: Proportion, digits = 1): string =>
  Number.isNaN(value) ? '-' : `${(100 * value).toFixed(digits)} ± ${(100 * standardError).toFixed(digits)}`;

const share = (hits: readonly boolean[], digits = 1): string =>
  percent(clusteredProportion(hits.map((hit) => ({ hits: hit ? 1 : 0, trials: 1 }))), digits);

const coverage = (scores: readonly WavelengthScore[], key: 'within1u' | 'within2u'): string =>
  percent(
    clusteredProportion(scores.map((score) => ({ hits: score[key], trials: score.trials - score.refused }))),
  );

function againstBound(scores: readonly WavelengthScore[]): string {
  const bounded = scores.flatMap(({ squaredError, squaredBound }) =>
    squaredBound === null || squaredBound === 0 ? [] : [{ above: squaredError, below: squaredBound }],
  );
  if (bounded.length === 0) return '-';
  const { value, standardError } = rootRatio(bounded);
  return `${value.toFixed(2)} ± ${standardError.toFixed(2)}`;
}

function rmsNm(scores: readonly WavelengthScore[]): string {
  const trials = scores.reduce((sum, score) => sum + score.trials - score.refused, 0);
  return Math.sqrt(scores.reduce((sum, score) => sum + score.squaredError, 0) / trials).toFixed(2);
}

/** Errors and coverage of the curve itself and of the readings of an unknown tube. */
export function wavelengthTable(columns: readonly ColumnResult[]): string {
  const within = (scores: readonly WavelengthScore[]) => [
    coverage(scores, 'within1u'),
    coverage(scores, 'within2u'),
  ];
  const rows = columns.map(({ name, rows }) => {
    const curve = rows.map(({ clean }) => clean.curve);
    const readings = rows.map(({ clean }) => clean.readings);
    const beyond = rows.map(({ clean }) => clean.beyond);
    const refused = [...curve, ...readings, ...beyond].reduce((sum, score) => sum + score.refused, 0);
    return [
      name,
      ...[rmsNm(curve), againstBound(curve), ...within(curve)],
      ...[rmsNm(readings), againstBound(readings), ...within(readings)],
      ...within(beyond),
      String(refused),
    ];
  });
  const perPart = (part: string) => [`${part}: rms nm`, 'x bound', '±u %', '±2u %'];
  const titles = ['column', ...perPart('curve'), ...perPart('readings'), 'beyond: ±u %', '±2u %', 'refused'];
  const inside = ['', '<= 1.15', '65-72', '94-97'];
  return textTable(titled(titles), [...rows, ['target', ...inside, ...inside, '', '', '']]);
}

/** How often something sound is doubted. */
export function accusationTable(columns: readonly ColumnResult[]): string {
  const rows = columns.map(({ name, rows }) => {
    const clean = rows.map((row) => row.clean);
    const faulty = rows.flatMap((row) => row.faulty.map(({ result }) => result));
    const lines = clean.map(({ accused, lines }) => ({ hits: accused, trials: lines }));
    const bystanders = faulty.map(({ accused, bystanders }) => ({ hits: accused, trials: bystanders }));
    return [
      name,
      percent(clusteredProportion(lines), 2),
      share(clean.map(({ doubts }) => doubts > 0)),
      percent(clusteredProportion(bystanders), 2),
    ];
  });
  const titles = [
    'column',
    'sound lines accused %',
    'sound benches with a doubt %',
    'sound lines beside a fault %',
  ];
  return textTable(titled(titles), [...rows, ['target', '<= 1', '', '']]);
}

/** Wanted of `corrected`; three lines and fewer cannot show which of them is wrong. */
function target(fault: FaultName, column: string): string {
  if (column.includes('lines')) return '';
  if (fault === "slip of 30'" || fault === 'slip of 1°') return '>= 97';
  const isCoarse = column.includes("5'");
  return 'naming' in faults[fault] && fault !== 'wrong lamp' && !isCoarse ? '>= 90' : '';
}

/** What became of each kind of planted fault. */
export function faultTable(columns: readonly ColumnResult[]): string {
  const rows = columns.flatMap(({ name, rows }) =>
    faultNames.flatMap((fault) => {
      const isNaming = 'naming' in faults[fault];
      // A name can only be doubted where there are enough other lines, and where it makes a difference.
      const counted = rows
        .flatMap((row) => row.faulty)
        .filter(
          (entry) => entry.fault === fault && entry.result.counts && (!isNaming || entry.knownLines >= 6),
        )
        .map((entry) => entry.result);
      if (counted.length === 0) return [];
      const shares = (['noticed', 'corrected', 'setAside'] as const).map((key) =>
        share(counted.map((result) => result[key])),
      );
      return [[name, fault, String(counted.length), ...shares, target(fault, name)]];
    }),
  );
  const titles = ['column', 'planted fault', 'benches', 'noticed %', 'corrected %', 'set aside %', 'target'];
  return textTable(titled(titles), rows);
}
