/** `whichgas verify RECORD... --expect NAME | --key KEY.csv`: the instructor's check. */
import { benchExpecting, verifyTube } from '../../analysis/verify.ts';
import { tubesOf } from '../../present/identify-json.ts';
import {
  type FileCheck,
  verifyCsvHeader,
  verifyCsvRow,
  verifyObject,
  verifyText,
} from '../../present/verify-output.ts';
import { analyseRecord, forEachRecord, namedRecords, otherCalibration } from '../analysed.ts';
import { answerKey } from '../answer-key.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { emphasis, print, printJson } from '../terminal.ts';
import { type ExitCode, exitCode, UserError } from '../user-error.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  if (switchOption(call, 'json') && switchOption(call, 'csv')) {
    throw new UserError('verify prints either --json or --csv, not both');
  }
  const records = await namedRecords(call, 'verify');
  const key = await answerKey(call, records.files);
  const calibrationFrom = await otherCalibration(call);
  const checks: FileCheck[] = [];
  if (switchOption(call, 'csv')) print(verifyCsvHeader);
  const code = await forEachRecord(records, async (file) => {
    const { analysis } = await analyseRecord(file, calibrationFrom, (bench) =>
      benchExpecting(bench, ({ label }) => key.expectedOf(file, label)),
    );
    const unnamed: string[] = [];
    for (const tube of tubesOf(analysis)) {
      const expected = key.expectedOf(file, tube.label);
      if (expected === null) {
        unnamed.push(`${file}: the key does not say what ${tube.label} should be`);
        continue;
      }
      const check = { file, ...verifyTube(analysis, tube, expected) };
      checks.push(check);
      if (switchOption(call, 'json')) printJson(verifyObject(check));
      if (switchOption(call, 'csv')) print(verifyCsvRow(check));
    }
    if (unnamed.length > 0) throw new UserError(...unnamed);
  });
  if (!switchOption(call, 'json') && !switchOption(call, 'csv')) print(verifyText(checks, emphasis()));
  if (code !== exitCode.done) return code;
  return checks.every(({ outcome }) => outcome === 'supported') ? exitCode.done : exitCode.notSupported;
}
