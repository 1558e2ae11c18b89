/** `whichgas report RECORD --out FILE`: the lab report. */
import { reportFormat } from '../../present/report-format.ts';
import { analyseRecord, complainOf, onlyRecord, otherCalibration, shownAnalysis } from '../analysed.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { baseLengthMm, unusedBase } from '../option-values.ts';
import { complain, printJson } from '../terminal.ts';
import { today } from '../today.ts';
import { type ExitCode, exitCode, shownName, UserError } from '../user-error.ts';
import { writeTextFile } from '../write-file.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const record = onlyRecord(call, 'report');
  if (call.words.length > 1)
    throw new UserError(`report writes one record at a time, not also ${shownName(call.words[1]!)}`);
  const out = textOption(call, 'out');
  if (out === null) throw new UserError('report needs --out FILE, its name ending in .html, .md or .csv');
  const format = reportFormat(out);
  if (format === null)
    throw new UserError(`--out ${shownName(out)}: the name must end in .html, .md or .csv`);
  const baseMm = baseLengthMm(call);
  const calibrationFrom = await otherCalibration(call);
  const analysed = await analyseRecord(record, calibrationFrom, switchOption(call, 'as-scale'));
  const { file, warnings } = analysed;
  const analysis = shownAnalysis(call, analysed);
  const { renderReport } = await import('../../present/report/write-report.ts');
  const text = renderReport(analysis, format, { file, generatedOn: today(), baseMm });
  await writeTextFile(out, text, 'no-record');
  complainOf(file, unusedBase(baseMm, analysed.analysis), ...warnings.map(({ message }) => message));
  if (switchOption(call, 'json')) printJson({ file, out, format });
  else complain(`the report of ${shownName(file)} is in ${shownName(out)}`);
  return exitCode.done;
}
