/** `whichgas calibrate RECORD...`, with `--against OTHER.json` as the station check. */
import { checkStation } from '../../analysis/station-check.ts';
import { calibrateText } from '../../present/calibrate-text.ts';
import { calibrateObject } from '../../present/identify-json.ts';
import { stationCheckText } from '../../present/station-check-text.ts';
import { type AnalysedRecord, analyseRecord, forEachRecord, namedRecords } from '../analysed.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { emphasis, print, printJson } from '../terminal.ts';
import { type ExitCode, UserError } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const against = textOption(call, 'against');
  const before = against === null ? null : await analyseRecord(against, null);
  let first = true;
  return forEachRecord(await namedRecords(call, 'calibrate'), async (file) => {
    const record = await analyseRecord(file, null);
    const check = before === null ? null : compare(before, record);
    if (switchOption(call, 'json')) {
      const object = calibrateObject(file, record.analysis, record.warnings);
      printJson(check === null ? object : { ...object, stationCheck: { against, ...check } });
      return;
    }
    if (!first) print('');
    first = false;
    print(calibrateText(file, record.analysis, record.warnings, emphasis()));
    if (check !== null) print(`\n${stationCheckText(against ?? '', check)}`);
  });
}

function compare(before: AnalysedRecord, now: AnalysedRecord) {
  if (before.analysis.calibration.unit !== now.analysis.calibration.unit) {
    throw new UserError(
      `${now.file}: cannot be compared with ${before.file}: one has a divided circle, the other a scale`,
    );
  }
  return checkStation(before.analysis, now.analysis);
}
