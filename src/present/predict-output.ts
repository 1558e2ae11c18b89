/** The crib sheet as JSON and as plain text. */
import type { PredictedLine } from '../analysis/predict.ts';
import type { OrdinateUnit } from '../calibrate/types.ts';
import { unitMark } from './quantity-text.ts';
import { textTable, wrapText } from './text-table.ts';

/** What `predict --json` prints for one line. */
export function predictedObject(line: PredictedLine) {
  const { substance, wavelengthNm, reading, deviationDeg, colour, brightness, extrapolated } = line;
  return { substance, wavelengthNm, reading, deviationDeg, color: colour, brightness, extrapolated };
}

/** One table in the order of the tubes asked for, red to violet within a tube. */
export function predictedText(lines: readonly PredictedLine[], unit: OrdinateUnit): string {
  if (lines.length === 0)
    return 'No line of these tubes is bright enough to be looked for (--faint lists all).';
  const rows = lines.map((line) => [
    line.reading ?? 'out of reach',
    line.standardUncertainty === null ? '' : line.standardUncertainty.toFixed(1),
    `${line.wavelengthNm.toFixed(2)}${line.extrapolated ? ' *' : ''}`,
    line.colour,
    line.brightness ?? '',
    line.substance ?? '',
  ]);
  const table = textTable(
    [
      { title: 'reading' },
      { title: `u${unitMark(unit)}`, align: 'right' },
      { title: 'nm' },
      { title: 'colour' },
      { title: 'to the eye' },
      { title: 'tube' },
    ],
    rows,
  );
  const notes = [
    ...(lines.some(({ extrapolated }) => extrapolated) ? ['* outside the range of the known lines'] : []),
    ...(lines.every(({ standardUncertainty }) => standardUncertainty === null)
      ? [
          wrapText(
            'Catalogue values at minimum deviation: another melt or apex angle shifts all readings, usually by less than half a degree.',
          ),
        ]
      : []),
  ];
  return [table, ...notes].join('\n');
}
