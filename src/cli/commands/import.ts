/** `whichgas import READINGS.csv`: a spreadsheet of readings made into a bench record. */
import { parseSmallAngle } from '../../angle/least-count.ts';
import { readRecord } from '../../record/read-record.ts';
import { readableText } from '../../record/readable-text.ts';
import type { BenchRecord } from '../../record/schema.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { parseCsvTable } from '../csv-table.ts';
import { readTextFile, shownName, writeTextFile } from '../files.ts';
import { recordFromRows } from '../record-from-rows.ts';
import { complain, printJson } from '../terminal.ts';
import { type ExitCode, exitCode, UserError } from '../user-error.ts';

const methods = ['central', 'both-sides', 'scale'] as const;
type Method = (typeof methods)[number];

export async function run(call: CommandCall): Promise<ExitCode> {
  const [file, extra] = call.words;
  if (file === undefined)
    throw new UserError('import needs a file of readings (CSV), or "-" for standard input');
  if (extra !== undefined) throw new UserError(`import takes one file at a time, not also ${extra}`);
  const instrument = instrumentOf(call);
  const title = textOption(call, 'title');
  const name = shownName(file);
  const { draft, rowAt } = recordFromRows(
    name,
    parseCsvTable(name, await readTextFile(file)),
    instrument.method,
  );
  const read = readRecord(
    JSON.stringify({ whichgas: 1, ...(title === null ? {} : { title }), instrument, ...draft }),
  );
  if (!read.ok) {
    throw new UserError(
      ...read.problems.map(({ place, message }) => `${name}: ${rowAt(place) ?? place}: ${message}`),
    );
  }
  for (const { message } of read.warnings) complain(`${name}: ${message}`);
  await writeRecord(call, read.record);
  return exitCode.done;
}

function instrumentOf(call: CommandCall) {
  const method = methods.find((each) => each === (textOption(call, 'method') ?? 'central'));
  if (method === undefined) throw new UserError(`--method must be one of ${methods.join(', ')}`);
  const windows = textOption(call, 'windows') ?? '1';
  if (windows !== '1' && windows !== '2') throw new UserError('--windows must be 1 or 2');
  return {
    method,
    leastCount: leastCountOf(call, method),
    ...(windows === '2' ? { windows: 2 } : {}),
  };
}

function leastCountOf(call: CommandCall, method: Method): string | number {
  const text = textOption(call, 'least-count');
  if (text === null) throw new UserError(`import needs --least-count, for instance --least-count "1'"`);
  if (method !== 'scale') {
    const leastCount = parseSmallAngle(text);
    if (!leastCount.ok) throw new UserError(`--least-count: ${leastCount.problem}`);
    return text;
  }
  const units = Number(text.replace(',', '.'));
  if (!(units > 0))
    throw new UserError(`--least-count ${text}: on a scale it is a number of units, such as 0.1`);
  return units;
}

async function writeRecord(call: CommandCall, record: BenchRecord): Promise<void> {
  const out = textOption(call, 'out');
  const written = readableText(record);
  if (!written.ok) {
    const [first] = written.problems;
    throw new UserError(`the record could not be opened again: ${first?.place}: ${first?.message}`);
  }
  if (out !== null) {
    await writeTextFile(out, written.text);
    if (switchOption(call, 'json')) printJson({ out });
    else complain(`the record is in ${out}`);
  } else if (switchOption(call, 'json')) {
    printJson(record);
  } else {
    process.stdout.write(written.text);
  }
}
