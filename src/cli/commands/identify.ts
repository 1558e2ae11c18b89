/** `whichgas identify RECORD...` */
import { identifyObjects } from '../../present/identify-json.ts';
import { identifyText } from '../../present/identify-text.ts';
import {
  type AnalysedRecord,
  analyseRecord,
  forEachRecord,
  namedRecords,
  otherCalibration,
  shownAnalysis,
} from '../analysed.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { emphasis, print, printJson } from '../terminal.ts';
import type { ExitCode } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const calibrationFrom = await otherCalibration(call);
  let first = true;
  return forEachRecord(await namedRecords(call, 'identify'), async (file) => {
    const record = await analyseRecord(file, calibrationFrom, switchOption(call, 'as-scale'));
    if (!first && !switchOption(call, 'json')) print('');
    first = false;
    printIdentification({ ...record, analysis: shownAnalysis(call, record) }, call);
  });
}

/** One record's identification as the call wants it, text or JSON. */
export function printIdentification(
  { file, analysis, warnings }: Pick<AnalysedRecord, 'file' | 'analysis' | 'warnings'>,
  call: CommandCall,
): void {
  if (switchOption(call, 'json')) {
    for (const object of identifyObjects(file, analysis, warnings)) printJson(object);
  } else {
    print(identifyText(file, analysis, warnings, emphasis()));
  }
}
