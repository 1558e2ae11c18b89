/** `whichgas predict`: a crib sheet for a calibrated bench, or for a catalogue glass before there is one. */

import {
  type GlassStation,
  predictForGlass,
  predictOnCurve,
  type WantedLine,
  wantedLines,
} from '../../analysis/predict.ts';
import { parseSmallAngle } from '../../angle/least-count.ts';
import { parseAngle } from '../../angle/parse-angle.ts';
import { type Glass, glasses } from '../../calibrate/curve/glasses.ts';
import { predictedObject, predictedText } from '../../present/predict-output.ts';
import { analyseRecord, benchToReadOn, needsRecord, otherCalibration } from '../analysed.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { shownName } from '../files.ts';
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
  return { lines: predictOnCurve(readOn, curve, lines), unit, isCalibrated: curve !== null };
}

function forGlass(call: CommandCall, glassName: string) {
  const text = (name: string): string => {
    const value = textOption(call, name);
    if (value === null) throw new UserError(`--glass needs --${name} too; see whichgas predict --help`);
    return value;
  };
  const leastCount = parseSmallAngle(text('least-count'));
  if (!leastCount.ok) throw new UserError(`--least-count: ${leastCount.problem}`);
  const station: GlassStation = {
    glass: glassNamed(glassName),
    apexAngleDeg: angleOption('apex', text('apex')),
    centralDeg: angleOption('central', text('central')),
    leastCountArcmin: leastCount.arcmin,
    side: switchOption(call, 'decreasing') ? -1 : 1,
  };
  const lines = predictForGlass(station, linesOf(call.words, switchOption(call, 'bright')));
  if (lines.some(({ deviationDeg }) => Number.isNaN(deviationDeg))) {
    throw new UserError(`--apex: light does not pass a ${glassName} prism of ${text('apex')}; 60° is usual`);
  }
  return { lines, unit: 'arcmin' as const, isCalibrated: true };
}

function angleOption(name: string, text: string): number {
  const angle = parseAngle(text);
  if (!angle.ok) throw new UserError(`--${name}: ${angle.problem}`);
  return angle.degrees;
}

function glassNamed(name: string): Glass {
  const plainName = (text: string) => text.replaceAll(/[\s-]/g, '').toUpperCase();
  const glass = glasses.find((each) => plainName(each.name) === plainName(name));
  if (glass !== undefined) return glass;
  const names = glasses.map((each) => each.name);
  const [closest] = closestNames(name, names);
  const cure = closest === undefined ? `it has ${names.join(', ')}` : `did you mean ${closest}?`;
  throw new UserError(`--glass: "${name}" is not in the catalogue; ${cure}`);
}

function linesOf(words: readonly string[], brightOnly: boolean): WantedLine[] {
  if (words.length === 0)
    throw new UserError('predict needs the name of at least one tube, for instance helium');
  return words.map(tubeArgument).flatMap((substance) => wantedLines(substance, brightOnly));
}
