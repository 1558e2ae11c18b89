/** Converted readings as JSON and as plain text. */
import type { ConvertedReading } from '../analysis/convert.ts';
import type { Bench } from '../record/bench.ts';
import { deviationText, wavelengthText } from './quantity-text.ts';
import { safeShortText } from './safe-text.ts';
import { wrapText } from './text-table.ts';

/** Lines named beside a reading; more are only counted. */
const namedLines = 6;

/** What `convert --json` prints for one reading. */
export function convertedObject(converted: ConvertedReading) {
  const { reading, deviationDeg, wavelengthNm, standardUncertaintyNm, extrapolated, colour, near } =
    converted;
  return { reading, deviationDeg, wavelengthNm, standardUncertaintyNm, extrapolated, color: colour, near };
}

/** Two lines for every reading: what it is, and which listed lines it can be. */
export function convertedText(readings: readonly ConvertedReading[], bench: Bench): string {
  return readings.map((reading) => `${measured(reading, bench)}\n${possibleLines(reading)}`).join('\n');
}

function measured(converted: ConvertedReading, bench: Bench): string {
  const reading = safeShortText(converted.reading, 60);
  if (converted.wavelengthNm === null) return `${reading}: beyond what the calibration reaches`;
  const deviation =
    converted.deviationDeg === null ? '' : `deviation ${deviationText(converted.deviationDeg, bench)}, `;
  const range = converted.extrapolated ? 'outside the calibrated range' : 'inside the calibrated range';
  const wavelength = wavelengthText(converted.wavelengthNm, converted.standardUncertaintyNm);
  return wrapText(`${reading}: ${deviation}${wavelength} nm, ${converted.colour}, ${range}`, '  ');
}

function possibleLines({ near, wavelengthNm }: ConvertedReading): string {
  if (wavelengthNm === null) return '  no wavelength, so no line';
  if (near.length === 0) return '  no listed line within twice the uncertainty';
  const named = near
    .slice(0, namedLines)
    .map(({ substance, wavelengthNm: nm }) => `${substance} ${nm.toFixed(2)}`);
  const more = near.length > namedLines ? ` and ${near.length - namedLines} more` : '';
  return `  ${wrapText(`could be ${named.join(', ')}${more}`, '    ', 76)}`;
}
