/** `whichgas compare RECORD OTHER`: the station then and now, and two partners at one tube. */
import { compareBenches } from '../../analysis/compare-benches.ts';
import { compareObject, compareText } from '../../present/compare-output.ts';
import { analyseRecord, complainOf, shownAnalysis } from '../analysed.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { print, printJson } from '../terminal.ts';
import { type ExitCode, exitCode, shownName, UserError } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const [file, other, ...more] = call.words;
  if (file === undefined || other === undefined || more.length > 0)
    throw new UserError('compare needs two records: the one of now, and the one it is compared with');
  const now = await analyseRecord(file, null);
  const before = await analyseRecord(other, null);
  if (before.analysis.calibration.unit !== now.analysis.calibration.unit) {
    throw new UserError(
      `${shownName(file)} cannot be compared with ${shownName(other)}: one has a divided circle, the other a scale`,
    );
  }
  const found = compareBenches(shownAnalysis(call, before), shownAnalysis(call, now));
  if (switchOption(call, 'json')) printJson(compareObject(file, other, found));
  else print(compareText({ now: file, before: other }, found));
  for (const { file: name, warnings } of [now, before])
    complainOf(name, ...warnings.map(({ message }) => message));
  return exitCode.done;
}
