/** `whichgas calibrate RECORD...` */
import { calibrateText } from '../../present/calibrate-text.ts';
import { calibrateObject } from '../../present/identify-json.ts';
import { analyseRecord, forEachRecord, namedRecords } from '../analysed.ts';
import { baseLengthMm, unusedBase } from '../base-length.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { shownName } from '../file-failure.ts';
import { complain, emphasis, print, printJson } from '../terminal.ts';
import type { ExitCode } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const baseMm = baseLengthMm(call);
  let first = true;
  return forEachRecord(await namedRecords(call, 'calibrate'), async (file) => {
    const { analysis, warnings } = await analyseRecord(file, null, undefined, switchOption(call, 'as-scale'));
    const unused = unusedBase(baseMm, analysis);
    if (unused !== null) complain(`${shownName(file)}: ${unused}`);
    if (switchOption(call, 'json')) {
      printJson(calibrateObject(file, analysis, warnings, baseMm));
      return;
    }
    if (!first) print('');
    first = false;
    print(calibrateText(file, analysis, warnings, { emphasis: emphasis(), baseMm }));
  });
}
