/** Which lamp to read next, as JSON and as plain text. */
import type { Advice, AdvisedLine } from '../analysis/advise-lamp.ts';
import type { OrdinateUnit } from '../calibrate/types.ts';
import { placeText, readingTitle, rowReading, sidesApart } from './predict-output.ts';
import { picked } from './safe-text.ts';
import { fitting, right, textTable, wrapText } from './text-table.ts';

/** What `predict --advise --json` prints for one lamp. */
export function advisedObjects({ of, nowNm, bestNm, lamps }: Advice) {
  return lamps.map(({ lamp, lines, rmsNm }) => ({
    lamp,
    lines: lines.map((line) => ({
      wavelengthNm: line.wavelengthNm,
      linesNm: line.linesNm ?? [line.wavelengthNm],
      reading: line.reading,
      color: line.colour,
      ...picked(line, 'brightness', 'extrapolated'),
      rmsUncertaintyNm: line.rmsNm,
    })),
    rmsUncertaintyNm: rmsNm,
    nowNm,
    bestNm,
    tubes: of,
  }));
}

/** Lamps differ little, so that a digit more than usual is shown. */
const threeDigits = (nm: number): string => nm.toPrecision(3);

/** One table: the lamps in the order of their help, each with its lines in the order in which to read them. */
export function adviceText({ of, places, nowNm, bestNm, lamps }: Advice, unit: OrdinateUnit): string {
  const whose = of.length <= 6 ? of.join(', ') : `${of.length} tubes`;
  const intro = wrapText(
    `Where it matters: ${places.length} strong and medium lines of ${whose}. A wavelength read there has u = ${threeDigits(nowNm)} nm now (root mean square); with the curve known exactly it would have ${threeDigits(bestNm)} nm.`,
  );
  const readings = lamps.flatMap(({ lines }) => lines.map(({ reading }) => reading));
  const place = readingTitle(readings, unit === 'scale' ? 'at' : 'look at');
  const columns = ['lamp', 'line to read, nm', place, 'colour', right('then u, nm')];
  const rowOf = (lamp: string, line: AdvisedLine): string[] => [
    lamp,
    `${placeText(line)}${line.extrapolated ? ' *' : ''}`,
    rowReading(line.reading),
    line.colour,
    threeDigits(line.rmsNm),
  ];
  const rows = lamps.flatMap(({ lamp, lines, rmsNm }) =>
    lines.length === 0
      ? [[lamp, 'nothing to gain', '', '', threeDigits(rmsNm)]]
      : lines.map((line, at) => rowOf(at === 0 ? lamp : '', line)),
  );
  const tableOf = (of: readonly string[][]) => () => textTable(columns, of);
  const outside = lamps.some(({ lines }) => lines.some(({ extrapolated }) => extrapolated));
  return [
    intro,
    '',
    fitting(tableOf(rows), tableOf(rows.flatMap((row) => sidesApart(row, 2)))),
    ...(outside ? ['* outside the range of the known lines'] : []),
    wrapText(
      'Lines that are read already, and weak ones, are not counted; each u holds with the lines above it read too.',
    ),
  ].join('\n');
}
