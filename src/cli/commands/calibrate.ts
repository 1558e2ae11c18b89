/** `whichgas calibrate RECORD...` */
import { calibrateText } from '../../present/calibrate-text.ts';
import { calibrateObject } from '../../present/identify-json.ts';
import { analyseRecord, complainOf, forEachRecord, namedRecords } from '../analysed.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { baseLengthMm, unusedBase } from '../option-values.ts';
import { emphasis, print, printJson } from '../terminal.ts';
import type { ExitCode } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const baseMm = baseLengthMm(call);
  let first = true;
  return forEachRecord(await namedRecords(call, 'calibrate'), async (file) => {
    const { analysis, warnings } = await analyseRecord(file, null, switchOption(call, 'as-scale'));
    complainOf(file, unusedBase(baseMm, analysis));
    if (switchOption(call, 'json')) return printJson(calibrateObject(file, analysis, warnings, baseMm));
    if (!first) print('');
    first = false;
    print(calibrateText(file, analysis, warnings, { emphasis: emphasis(), baseMm }));
  });
}
