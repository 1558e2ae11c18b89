/** `whichgas demo`: the bench screen on the bundled example, or its identification without a terminal. */
import example from '../../../data/examples/harbour-lane-bench-2.json' with { type: 'json' };
import { analyseBench } from '../../analysis/analyse.ts';
import { readRecord } from '../../record/read-record.ts';
import { type CommandCall, switchOption } from '../command.ts';
import { hasTerminal } from '../terminal.ts';
import { type ExitCode, exitCode, shownName, UserError } from '../user-error.ts';
import { printIdentification } from './identify.ts';

const exampleName = 'harbour-lane-bench-2.json';

export async function run(call: CommandCall): Promise<ExitCode> {
  if (call.words.length > 0)
    throw new UserError(`demo takes no record; for yours: whichgas ${shownName(call.words[0]!)}`);
  if (hasTerminal() && !switchOption(call, 'json')) {
    const { startBenchScreen } = await import('../../tui/start.tsx');
    const ascii = switchOption(call, 'ascii');
    return (await startBenchScreen({ recordPath: null, demo: true, ascii })) as ExitCode;
  }
  const record = readRecord(JSON.stringify(example));
  if (!record.ok)
    throw new Error(`the bundled example is not a valid record: ${record.problems[0]?.message}`);
  const analysis = analyseBench(record.bench);
  printIdentification({ file: exampleName, analysis, warnings: record.warnings }, call);
  return exitCode.done;
}
