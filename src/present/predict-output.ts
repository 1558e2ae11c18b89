/** The crib sheet as JSON and as plain text. */
import type { PredictedLine } from '../analysis/predict.ts';
import type { OrdinateUnit } from '../calibrate/types.ts';
import { lineSrgb } from '../lines/screen-colour.ts';
import { type Emphasis, plain } from './emphasis.ts';
import { listedText, readingsText, uncertaintyText, unitMark } from './quantity-text.ts';
import { type Column, fitting, right, textTable, wrapText } from './text-table.ts';

/** What `predict --json` prints for one line. */
export function predictedObject(line: PredictedLine) {
  const { substance, wavelengthNm, reading, deviationDeg, colour, brightness, extrapolated } = line;
  const linesNm = line.linesNm ?? [wavelengthNm];
  return {
    substance,
    lamp: line.lamp ?? null,
    wavelengthNm,
    linesNm,
    reading,
    deviationDeg,
    color: colour,
    brightness,
    extrapolated,
  };
}

/** `587.56`; two lines read as one `589.00 + 589.59`, more of them `501.27-502.33 (3)`. */
export function placeText({
  wavelengthNm,
  linesNm,
}: Pick<PredictedLine, 'wavelengthNm' | 'linesNm'>): string {
  if (linesNm === undefined) return listedText(wavelengthNm);
  const [shortest, longest] = [Math.min(...linesNm), Math.max(...linesNm)].map(listedText);
  return linesNm.length === 2 ? `${shortest} + ${longest}` : `${shortest}-${longest} (${linesNm.length})`;
}

/** `left 210°35' right 94°02'` as a row of a table has it: `210°35' | 94°02'`. */
export function rowReading(reading: string | null): string {
  return reading === null ? 'out of reach' : readingsText([reading], reading.length);
}

/** Title of a column of readings. */
export function readingTitle(readings: readonly (string | null)[], title: string): string {
  return readings.some((reading) => reading?.startsWith('left ')) ? `${title}, left | right` : title;
}

/** A row whose first cell is too long as two rows, the right side under the left. */
export function sidesApart(row: readonly string[], at: number): string[][] {
  const [left = '', right] = (row[at] ?? '').split(' | ');
  if (right === undefined) return [[...row]];
  return [
    row.map((cell, column) => (column === at ? left : cell)),
    row.map((_, column) => (column === at ? right : '')),
  ];
}

type LineColumn = readonly [Column, (line: PredictedLine) => string];

/** One table in the order of the tubes asked for, red to violet within a tube; where it is too wide one for each tube. */
export function predictedText(
  lines: readonly PredictedLine[],
  unit: OrdinateUnit,
  { tinted }: Pick<Emphasis, 'tinted'> = plain,
): string {
  if (lines.length === 0) return 'No line of these tubes is bright enough to be looked for.';
  const fromCatalogue = lines.every(({ standardUncertainty }) => standardUncertainty === null);
  const title = readingTitle(
    lines.map(({ reading }) => reading),
    'reading',
  );
  const uncertainties: LineColumn = [
    right(`u${unitMark(unit)}`),
    ({ standardUncertainty }) => uncertaintyText(standardUncertainty),
  ];
  // Of a lamp of several substances beside another its lines are told from those of the other.
  const isOneLamp = new Set(lines.map(({ lamp }) => lamp)).size === 1;
  const tubeOf = ({ substance, lamp }: PredictedLine): string =>
    lamp === undefined || isOneLamp ? (substance ?? '') : `${substance} (${lamp})`;
  const columns: LineColumn[] = [
    [title, ({ reading }) => rowReading(reading)],
    ...(fromCatalogue ? [] : [uncertainties]),
    ['nm', (line) => `${placeText(line)}${line.extrapolated ? ' *' : ''}`],
    ['colour', ({ colour, wavelengthNm }) => tinted(colour, lineSrgb(wavelengthNm))],
    ['to the eye', ({ brightness }) => brightness ?? ''],
    ['tube', tubeOf],
  ];
  const tableOf = (shown: typeof columns, of: readonly PredictedLine[], apart: boolean): string => {
    const rows = of.map((line) => shown.map(([, cell]) => cell(line)));
    return textTable(
      shown.map(([column]) => column),
      apart ? rows.flatMap((row) => sidesApart(row, 0)) : rows,
    );
  };
  const byTube = (apart: boolean) => (): string =>
    [...new Set(lines.map(tubeOf))]
      .map((tube) => {
        const of = lines.filter((line) => tubeOf(line) === tube);
        return `${tube === '' ? '' : `${tube}\n`}${tableOf(columns.slice(0, -1), of, apart)}`;
      })
      .join('\n\n');
  const table = fitting(() => tableOf(columns, lines, false), byTube(false), byTube(true));
  return [
    table,
    lines.some(({ linesNm }) => linesNm !== undefined) &&
      wrapText('Lines that this bench shows as one are one row, placed where an eye sets on them.'),
    lines.some(({ extrapolated }) => extrapolated) && '* outside the range of the known lines',
    fromCatalogue &&
      wrapText(
        'Catalogue values at minimum deviation: another melt or apex angle shifts all readings, usually by less than half a degree.',
      ),
  ]
    .filter(Boolean)
    .join('\n');
}
