/** `whichgas verify RECORD... --expect NAME | --key KEY.csv`: the instructor's check. */
import { benchExpecting, missingCheck, verifyTube } from '../../analysis/verify.ts';
import { tubesOf } from '../../present/identify-json.ts';
import type { ClassEntry } from '../../present/report/class-page.ts';
import { verifyCsvHeader, verifyCsvRow, verifyObject, verifyText } from '../../present/verify-output.ts';
import type { Bench } from '../../record/bench.ts';
import { analyseRecord, forEachRecord, namedRecords, otherCalibration } from '../analysed.ts';
import { answerKey } from '../answer-key.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { pageName } from '../option-values.ts';
import { complain, emphasis, print, printJson } from '../terminal.ts';
import { today } from '../today.ts';
import { type ExitCode, exitCode, shownName, UserError } from '../user-error.ts';
import { writeTextFile } from '../write-file.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const [json, csv] = [switchOption(call, 'json'), switchOption(call, 'csv')];
  if (json && csv) throw new UserError('verify prints either --json or --csv, not both');
  const out = pageName(call, 'out');
  const records = await namedRecords(call, 'verify');
  const key = await answerKey(call, records.files);
  const calibrationFrom = await otherCalibration(call);
  const page = out === null ? null : await import('../../present/report/write-report.ts');
  const entries: ClassEntry[] = [];
  const take = (entry: ClassEntry): void => {
    entries.push(entry);
    if (json) printJson(verifyObject(entry.check));
    if (csv) print(verifyCsvRow(entry.check));
  };
  const unusable: string[] = [];
  if (csv) print(verifyCsvHeader);
  const code = await forEachRecord(records, async (file) => {
    try {
      const { analysis, recorded } = await analyseRecord(file, calibrationFrom, false, (bench) =>
        benchExpecting(bench, ({ label }) => key.expectedOf(file, label, stationOf(bench))),
      );
      const shelfOf = (at: number) => recorded.tubes[at]?.shelf ?? null;
      const unnamed: string[] = [];
      for (const tube of tubesOf(analysis)) {
        const expected = key.expectedOf(file, tube.label, stationOf(analysis.bench));
        if (expected === null)
          unnamed.push(`${shownName(file)}: the key does not say what ${tube.label} should be`);
        else {
          const check = { file, ...verifyTube(analysis, tube, expected, shelfOf(tube.tubeIndex)) };
          take({ check, section: page?.classSection(check, analysis, tube) ?? null });
        }
      }
      if (unnamed.length > 0) throw new UserError(...unnamed);
    } catch (error) {
      unusable.push(...(error instanceof UserError ? error.sentences : [`${shownName(file)}: not checked`]));
      throw error;
    }
  });
  for (const { record, tube, expected, handedIn } of key.missing())
    take({ check: { file: record, ...missingCheck(expected, tube, handedIn) }, section: null });
  const checks = entries.map(({ check }) => check);
  if (!json && !csv) print(verifyText(checks, emphasis()));
  if (page !== null && out !== null) {
    await writeTextFile(out, page.renderClass(entries, { unusable, generatedOn: today() }), 'no-record');
    complain(`the page of the class is in ${shownName(out)}`);
  }
  if (code !== exitCode.done) return code;
  return checks.every(({ outcome }) => outcome === 'supported') ? exitCode.done : exitCode.notSupported;
}

const stationOf = ({ about }: Bench): string => [about.station ?? ''].flat().join(', ');
