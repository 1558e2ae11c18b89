/** `whichgas predict`: a crib sheet for a calibrated bench, or for a catalogue glass before there is one. */
import { adviseLamps } from '../../analysis/advise-lamp.ts';
import { calibratedBench } from '../../analysis/convert.ts';
import { type WantedLine, wantedLines } from '../../analysis/predict.ts';
import { readingFrame } from '../../analysis/reading-frame.ts';
import { cribAt, cribOnBench } from '../../analysis/station-lines.ts';
import { CALIBRATION_LAMPS } from '../../calibrate/assumptions.ts';
import { adviceText, advisedObjects } from '../../present/advice-output.ts';
import { predictedObject, predictedText } from '../../present/predict-output.ts';
import { analyseRecord, benchToReadOn, complainOf, onlyRecord, otherCalibration } from '../analysed.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { type GlassField, glassStation, noLight } from '../glass-station.ts';
import { emphasis, print, printJson } from '../terminal.ts';
import { tubeArgument, tubeAskedFor } from '../tube-arguments.ts';
import { type ExitCode, exitCode, UserError } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const glassName = textOption(call, 'glass');
  if (switchOption(call, 'advise')) return advise(call);
  const predicted = glassName === null ? await onRecord(call) : forGlass(call, glassName);
  if (switchOption(call, 'json')) for (const line of predicted.lines) printJson(predictedObject(line));
  else if (predicted.isCalibrated) print(predictedText(predicted.lines, predicted.unit, emphasis()));
  return exitCode.done;
}

async function advise(call: CommandCall): Promise<ExitCode> {
  const wrong = ['glass', 'bright', 'tube'].find((name) => call.options[name] !== undefined);
  if (wrong !== undefined)
    throw new UserError(
      `--advise and --${wrong} do not go together: advice needs the known lines of a record`,
    );
  checkNoGlass(call);
  const file = onlyRecord(call, 'predict');
  const words = call.words.slice(1);
  const lamps = words.length === 0 ? CALIBRATION_LAMPS : [...new Set(words.map(tubeArgument))];
  const calibrationFrom = await otherCalibration(call);
  const { analysis } = await analyseRecord(file, calibrationFrom);
  const { calibration } = analysis;
  if (calibration.curve === null) {
    complainOf(file, 'too few known lines for a calibration, so no lamp can be weighed against another');
    return exitCode.done;
  }
  const bench = benchToReadOn(analysis.bench, calibrationFrom);
  const advice = adviseLamps(bench, calibration, calibration.curve, lamps);
  if (switchOption(call, 'json')) for (const lamp of advisedObjects(advice)) printJson(lamp);
  else print(adviceText(advice, calibration.unit));
  return exitCode.done;
}

function checkNoGlass(call: CommandCall): void {
  for (const name of ['apex', 'central', 'least-count', 'decreasing']) {
    if (call.options[name] !== undefined)
      throw new UserError(`--${name} belongs to --glass; a record says it itself`);
  }
}

async function onRecord(call: CommandCall) {
  checkNoGlass(call);
  const file = onlyRecord(call, 'predict');
  const lines = linesOf(call.words.slice(1), switchOption(call, 'bright'));
  const calibrationFrom = await otherCalibration(call);
  const { analysis } = await analyseRecord(file, calibrationFrom);
  const { bench, calibration } = analysis;
  const { curve, unit } = calibration;
  if (curve === null) complainOf(file, 'too few known lines for a calibration, so nothing can be predicted');
  const calibrated = calibrationFrom === null ? bench : calibratedBench(calibrationFrom);
  const frame = readingFrame(bench, calibration, tubeAskedFor(call, file, bench), calibrated);
  return { lines: cribOnBench(frame, lines), unit, isCalibrated: curve !== null };
}

function forGlass(call: CommandCall, glassName: string) {
  if (call.options.tube !== undefined) throw new UserError('--tube belongs to a record; --glass has none');
  const text = (name: string): string => {
    const value = textOption(call, name);
    if (value === null) throw new UserError(`--glass needs --${name} too; see whichgas predict --help`);
    return value;
  };
  const flags = { leastCount: text('least-count'), apex: text('apex'), central: text('central') };
  const side = switchOption(call, 'decreasing') ? -1 : 1;
  const station = glassStation({ ...flags, glass: glassName, side }, flagOf);
  const wanted = linesOf(call.words, switchOption(call, 'bright'));
  const lines = cribAt({ kind: 'glass', glass: station, readable: true }, wanted);
  if (lines.some(({ deviationDeg }) => Number.isNaN(deviationDeg)))
    throw noLight(station, flags.apex, '--apex');
  return { lines, unit: 'arcmin' as const, isCalibrated: true };
}

const flagOf = (field: GlassField): string => (field === 'leastCount' ? '--least-count' : `--${field}`);

function linesOf(words: readonly string[], brightOnly: boolean): WantedLine[] {
  if (words.length === 0)
    throw new UserError('predict needs the name of at least one tube, for instance helium');
  return words.map(tubeArgument).flatMap((substance) => wantedLines(substance, brightOnly));
}
