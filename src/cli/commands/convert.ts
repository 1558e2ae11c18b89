/** `whichgas convert RECORD READING...`: the quick check, and with `--to` the way back. */
import { type ConvertedReading, calibratedBench, convertReading } from '../../analysis/convert.ts';
import { anyHeldBack } from '../../analysis/exercise.ts';
import { type PredictedLine, type WantedLine, wantedLines } from '../../analysis/predict.ts';
import { readingFrame } from '../../analysis/reading-frame.ts';
import { cribOnBench } from '../../analysis/station-lines.ts';
import { quoteText } from '../../angle/quote-text.ts';
import { colourAt } from '../../lines/colour.ts';
import { spectraOnShelf, tubes } from '../../lines/table.ts';
import { convertedObject, convertedText } from '../../present/convert-output.ts';
import { predictedObject, predictedText } from '../../present/predict-output.ts';
import type { Bench, UnknownTube } from '../../record/bench.ts';
import { statedNm } from '../../record/limits.ts';
import { otherUnitMeant } from '../../record/other-unit.ts';
import { readInstrument } from '../../record/read-instrument.ts';
import { readSetting } from '../../record/read-setting.ts';
import { type AnalysedRecord, analyseRecord, complainOf, onlyRecord, otherCalibration } from '../analysed.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { decimalNumber } from '../decimal-number.ts';
import { readingValue, settledReading } from '../reading-argument.ts';
import { complain, emphasis, print, printJson } from '../terminal.ts';
import { tubeArgument, tubeAskedFor } from '../tube-arguments.ts';
import { type ExitCode, exitCode, UserError } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const file = onlyRecord(call, 'convert');
  const readings = call.words.slice(1);
  const places = call.options.to;
  const targets = Array.isArray(places) ? places.map(String).flatMap(targetLines) : [];
  if (readings.length === 0 && targets.length === 0) {
    throw new UserError(
      'convert needs a reading, or --to with a wavelength or a tube; see whichgas convert --help',
    );
  }
  const calibrationFrom = await otherCalibration(call);
  const record = await analyseRecord(file, calibrationFrom);
  if (record.analysis.calibration.curve === null)
    complainOf(file, 'too few known lines for a calibration, so no wavelength can be given');

  const { bench, calibration } = record.analysis;
  const of = tubeAskedFor(call, file, bench);
  const calibrated = calibrationFrom === null ? bench : calibratedBench(calibrationFrom);
  const { converted, problems } = convertAll(record, readings, calibrated, of);
  const isExercise = anyHeldBack(record.analysis) && !switchOption(call, 'reveal');
  const shown = isExercise ? converted.map((reading) => ({ ...reading, near: [] })) : converted;
  const predicted = cribOnBench(readingFrame(bench, calibration, of, calibrated), targets);
  if (switchOption(call, 'json'))
    for (const each of [...shown.map(convertedObject), ...predicted.map(predictedObject)]) printJson(each);
  else printText(shown, predicted, record, isExercise);
  for (const problem of problems) complain(problem);
  return problems.length === 0 ? exitCode.done : exitCode.unusable;
}

function printText(
  converted: readonly ConvertedReading[],
  predicted: readonly PredictedLine[],
  { analysis }: AnalysedRecord,
  isExercise: boolean,
): void {
  const { bench, calibration } = analysis;
  const blocks = [
    ...(converted.length > 0 ? [convertedText(converted, bench, calibration, isExercise)] : []),
    ...(predicted.length > 0 ? [predictedText(predicted, calibration.unit, emphasis())] : []),
  ];
  if (blocks.length > 0) print(blocks.join('\n\n'));
}

/** Readings that mean something on this instrument, and a sentence for each that does not. */
function convertAll(
  { record, analysis }: AnalysedRecord,
  readings: readonly string[],
  calibrated: Bench,
  of: UnknownTube | null,
) {
  const converted: ConvertedReading[] = [];
  const problems: string[] = [];
  const form = readInstrument(record, { problem: () => {}, warn: () => {} })?.form;
  if (form === undefined) throw new Error('a record that was read has no instrument');
  // Where the record says which tubes it can be, only their lines are worth naming.
  const shelf = analysis.bench.tubes.flatMap((tube) => tube.shelf ?? []);
  const compared = shelf.length === 0 ? tubes : spectraOnShelf(shelf);
  for (const text of readings) {
    const value = readingValue(text, form.method);
    if (form.method === 'both-sides' && typeof value !== 'object') {
      problems.push(
        `${quoteText(text)} is one side only; type both, for instance "left 228 12 right 131 48"`,
      );
      continue;
    }
    const open: string[] = [];
    const settled = settledReading(value, form.circle, complain, (sentence) => open.push(sentence));
    if (open.length > 0) {
      problems.push(...open);
      continue;
    }
    const read = readSetting(settled, form);
    if (!read.ok) {
      problems.push(lookedFor(text) ?? read.problem);
      continue;
    }
    for (const { message } of read.odd) complain(message);
    const reading = { text, setting: read.setting };
    const found = convertReading(analysis.bench, analysis.calibration, reading, compared, calibrated, of);
    converted.push(found);
    const meant = found.wavelengthNm === null && analysis.calibration.curve !== null ? lookedFor(text) : null;
    if (meant !== null) complain(meant);
  }
  return { converted, problems };
}

/** The sentence for what is no reading here and looks like a wavelength of the visible spectrum; null else. */
function lookedFor(text: string): string | null {
  const plain = text.replace(/\s*nm$/i, '').trim();
  const wavelengthNm = decimalNumber(plain);
  if (wavelengthNm === null || wavelengthNm <= 360 || wavelengthNm > 800) return null;
  return `${quoteText(text)} is no reading of this bench; for the wavelength of ${plain} nm write --to ${plain}`;
}

/** A wavelength in nm, or all lines of a tube that are worth looking for. */
function targetLines(text: string): WantedLine[] {
  const wavelengthNm = decimalNumber(text.replace(/\s*nm$/i, ''));
  if (wavelengthNm === null) {
    if (!/^[+-]?\d/.test(text.trim())) return wantedLines(tubeArgument(text));
    throw new UserError(`--to ${quoteText(text)}: not a decimal number; a wavelength is written 546.07`);
  }
  if (wavelengthNm < statedNm.shortest || wavelengthNm > statedNm.longest) {
    throw new UserError(
      `--to ${quoteText(text)}: a wavelength is between ${statedNm.shortest} and ${statedNm.longest} nm${otherUnitMeant(wavelengthNm)}`,
    );
  }
  return [{ substance: null, wavelengthNm, colour: colourAt(wavelengthNm), brightness: null }];
}
