/** Converted readings as JSON and as plain text. */
import type { ConvertedReading, NearLine } from '../analysis/convert.ts';
import type { ToldCalibration } from '../analysis/types.ts';

import type { Bench } from '../record/bench.ts';
import { writingText } from '../words/rounded-readings.ts';
import { deviationText, listedText, wavelengthText } from './quantity-text.ts';
import { safeShortText } from './safe-text.ts';
import { pageWidth, wrapText } from './text-table.ts';

/** Lines named beside a reading; more are only counted. */
const namedLines = 6;

/** What `convert --json` prints for one reading. */
export function convertedObject(converted: ConvertedReading) {
  const { reading, deviationDeg, wavelengthNm, standardUncertaintyNm, extrapolated, colour } = converted;
  const near = converted.near.map((line) => ({ substance: line.substance, wavelengthNm: line.wavelengthNm }));
  return { reading, deviationDeg, wavelengthNm, standardUncertaintyNm, extrapolated, color: colour, near };
}

/** Two lines for every reading: what it is, and which listed lines it can be, unless an exercise keeps them back. */
export function convertedText(
  readings: readonly ConvertedReading[],
  bench: Bench,
  { curve }: Pick<ToldCalibration, 'curve'>,
  heldBack = false,
): string {
  const without =
    curve === null ? 'no wavelength without a calibration' : 'beyond what the calibration reaches';
  const blocks = readings.map((converted) => {
    const { reading, deviationDeg, wavelengthNm, standardUncertaintyNm, extrapolated, colour } = converted;
    const deviation = deviationDeg === null ? '' : `deviation ${deviationText(deviationDeg, bench)}, `;
    const writing = converted.writing === null ? '' : `${writingText(bench, converted.writing)}: `;
    const start = `${safeShortText(reading, 60)}: ${writing}${deviation}`;
    if (wavelengthNm === null) return start + without;
    const wavelength = wavelengthText(wavelengthNm, standardUncertaintyNm);
    const range = extrapolated ? 'outside the calibrated range' : 'inside the calibrated range';
    const possible = heldBack ? KEPT_BACK : possibleLines(converted.near);
    const measured = wrapText(`${start}${wavelength} nm, ${colour}, ${range}`, '  ');
    return `${measured}\n  ${wrapText(possible, '    ', pageWidth - 2)}`;
  });
  return blocks.join('\n');
}

const KEPT_BACK = 'no gas is named in this exercise before an answer is written in the record';

function possibleLines(near: readonly NearLine[]): string {
  if (near.length === 0) return 'no listed line within twice the uncertainty';
  const likeliest = [...near].sort((a, b) => b.weight - a.weight).slice(0, namedLines);
  const named = near
    .filter((line) => likeliest.includes(line))
    .map(({ substance, wavelengthNm }) => `${substance} ${listedText(wavelengthNm)}`);
  const more = near.length - named.length;
  return `could be ${named.join(', ')}${more === 0 ? '' : ` and ${more} less likely`}`;
}
