/** The crib sheet as JSON and as plain text. */
import type { PredictedLine } from '../analysis/predict.ts';
import type { OrdinateUnit } from '../calibrate/types.ts';
import { listedText, uncertaintyText, unitMark } from './quantity-text.ts';
import { type Column, textTable, wrapText } from './text-table.ts';

/** What `predict --json` prints for one line. */
export function predictedObject(line: PredictedLine) {
  const { substance, wavelengthNm, reading, deviationDeg, colour, brightness, extrapolated } = line;
  const linesNm = line.linesNm ?? [wavelengthNm];
  return { substance, wavelengthNm, linesNm, reading, deviationDeg, color: colour, brightness, extrapolated };
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

/** One table in the order of the tubes asked for, red to violet within a tube. */
export function predictedText(lines: readonly PredictedLine[], unit: OrdinateUnit): string {
  if (lines.length === 0) return 'No line of these tubes is bright enough to be looked for.';
  const fromCatalogue = lines.every(({ standardUncertainty }) => standardUncertainty === null);
  const columns: (readonly [Column, (line: PredictedLine) => string])[] = [
    [{ title: 'reading' }, ({ reading }) => reading ?? 'out of reach'],
    [
      { title: `u${unitMark(unit)}`, align: 'right' },
      ({ standardUncertainty }) => uncertaintyText(standardUncertainty),
    ],
    [{ title: 'nm' }, (line) => `${placeText(line)}${line.extrapolated ? ' *' : ''}`],
    [{ title: 'colour' }, ({ colour }) => colour],
    [{ title: 'to the eye' }, ({ brightness }) => brightness ?? ''],
    [{ title: 'tube' }, ({ substance }) => substance ?? ''],
  ];
  const shown = fromCatalogue ? columns.toSpliced(1, 1) : columns;
  const table = textTable(
    shown.map(([column]) => column),
    lines.map((line) => shown.map(([, cell]) => cell(line))),
  );
  const notes = [
    ...(lines.some(({ linesNm }) => linesNm !== undefined)
      ? [wrapText('Lines that this bench shows as one are one row, placed where an eye sets on them.')]
      : []),
    ...(lines.some(({ extrapolated }) => extrapolated) ? ['* outside the range of the known lines'] : []),
    ...(fromCatalogue
      ? [
          wrapText(
            'Catalogue values at minimum deviation: another melt or apex angle shifts all readings, usually by less than half a degree.',
          ),
        ]
      : []),
  ];
  return [table, ...notes].join('\n');
}
