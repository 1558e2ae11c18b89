/** `whichgas predict`: a crib sheet for a calibrated bench, or for a catalogue glass before there is one. */

import { cribLines, partedOn, usuallyPartedArcmin } from '../../analysis/crib-lines.ts';
import {
  type GlassStation,
  glassDeviationDeg,
  predictForGlass,
  predictOnCurve,
  type WantedLine,
  wantedLines,
} from '../../analysis/predict.ts';
import { quoteText } from '../../angle/quote-text.ts';
import { type Glass, glasses } from '../../calibrate/curve/glasses.ts';
import { predictedObject, predictedText } from '../../present/predict-output.ts';
import { readRecord } from '../../record/read-record.ts';
import { analyseRecord, benchToReadOn, needsRecord, otherCalibration } from '../analysed.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { shownName } from '../file-failure.ts';
import { unusableRecord } from '../load-bench.ts';
import { closestNames } from '../suggest.ts';
import { complain, print, printJson } from '../terminal.ts';
import { tubeArgument } from '../tube-arguments.ts';
import { type ExitCode, exitCode, UserError } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const glassName = textOption(call, 'glass');
  const predicted = glassName === null ? await onRecord(call) : forGlass(call, glassName);
  if (switchOption(call, 'json')) for (const line of predicted.lines) printJson(predictedObject(line));
  else if (predicted.isCalibrated) print(predictedText(predicted.lines, predicted.unit));
  return exitCode.done;
}

async function onRecord(call: CommandCall) {
  for (const name of ['apex', 'central', 'least-count', 'decreasing']) {
    if (call.options[name] !== undefined)
      throw new UserError(`--${name} belongs to --glass; a record says it itself`);
  }
  const [file, ...words] = call.words;
  if (file === undefined) throw needsRecord('predict');
  const lines = linesOf(words, switchOption(call, 'bright'));
  const calibrationFrom = await otherCalibration(call);
  const { analysis } = await analyseRecord(file, calibrationFrom);
  const { curve, unit } = analysis.calibration;
  if (curve === null)
    complain(`${shownName(file)}: too few known lines for a calibration, so nothing can be predicted`);
  const readOn = benchToReadOn(analysis.bench, calibrationFrom);
  const rows = curve === null ? lines : cribLines(lines, curve.ordinateAt, partedOn(analysis.bench, curve));
  return { lines: predictOnCurve(readOn, curve, rows), unit, isCalibrated: curve !== null };
}

function forGlass(call: CommandCall, glassName: string) {
  const text = (name: string): string => {
    const value = textOption(call, name);
    if (value === null) throw new UserError(`--glass needs --${name} too; see whichgas predict --help`);
    return value;
  };
  const station = stationOf(
    { leastCount: text('least-count'), apexAngle: text('apex'), central: text('central') },
    { glass: glassNamed(glassName), side: switchOption(call, 'decreasing') ? -1 : 1 },
  );
  const wanted = linesOf(call.words, switchOption(call, 'bright'));
  const rows = cribLines(wanted, (nm) => glassDeviationDeg(station, nm) * 60, usuallyPartedArcmin);
  const lines = predictForGlass(station, rows);
  if (lines.some(({ deviationDeg }) => Number.isNaN(deviationDeg))) {
    throw new UserError(
      `--apex: light does not pass a ${station.glass.name} prism of ${quoteText(text('apex'))}; 60° is usual`,
    );
  }
  return { lines, unit: 'arcmin' as const, isCalibrated: true };
}

/** A thinner prism spreads no light worth measuring (common practice, no source). */
const thinnestPrismDeg = 10;

/** The flags mean what the same words mean in a record, and have its bounds. */
function stationOf(
  flags: { readonly leastCount: string; readonly apexAngle: string; readonly central: string },
  rest: Pick<GlassStation, 'glass' | 'side'>,
): GlassStation {
  const { central, ...instrument } = flags;
  const record = { whichgas: 1, instrument: { method: 'central', ...instrument }, central: [central] };
  const read = readRecord(JSON.stringify(record));
  if (!read.ok) throw unusableRecord('--glass', read.problems, flagOf);
  for (const { message } of read.warnings) complain(message);
  const { apexAngle, leastCount, central: settings } = read.bench;
  const centralDeg = settings[0]?.kind === 'one-side' ? settings[0].windows[0] : undefined;
  if (apexAngle === null || centralDeg === undefined)
    throw new Error('a station without apex angle or central');
  if (apexAngle.valueDeg < thinnestPrismDeg) {
    throw new UserError(
      `--apex: ${quoteText(flags.apexAngle)} is too thin for the prism of a spectrometer, which is mostly near 60°`,
    );
  }
  return { ...rest, apexAngleDeg: apexAngle.valueDeg, centralDeg, leastCountArcmin: leastCount };
}

function flagOf(place: string): string {
  if (place.startsWith('instrument.leastCount')) return '--least-count';
  return place.startsWith('instrument.apexAngle') ? '--apex' : '--central';
}

function glassNamed(name: string): Glass {
  const plainName = (text: string) => text.replaceAll(/[\s-]/g, '').toUpperCase();
  const glass = glasses.find((each) => plainName(each.name) === plainName(name));
  if (glass !== undefined) return glass;
  const names = glasses.map((each) => each.name);
  const [closest] = closestNames(name, names);
  const cure = closest === undefined ? `it has ${names.join(', ')}` : `did you mean ${closest}?`;
  throw new UserError(`--glass: ${quoteText(name)} is not in the catalogue; ${cure}`);
}

function linesOf(words: readonly string[], brightOnly: boolean): WantedLine[] {
  if (words.length === 0)
    throw new UserError('predict needs the name of at least one tube, for instance helium');
  return words.map(tubeArgument).flatMap((substance) => wantedLines(substance, brightOnly));
}
