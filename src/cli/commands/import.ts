/** `whichgas import READINGS.csv`: a spreadsheet of readings made into a bench record. */
import { parseSmallAngle } from '../../angle/least-count.ts';
import { quoteText } from '../../angle/quote-text.ts';
import { jsonText } from '../../present/safe-text.ts';
import { readRecord } from '../../record/read-record.ts';
import { readableText } from '../../record/readable-text.ts';
import type { BenchRecord } from '../../record/schema.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { parseCsvTable } from '../csv-table.ts';
import { decimalNumber } from '../decimal-number.ts';
import { shownName } from '../file-failure.ts';
import { readTextFile } from '../files.ts';
import { unusableRecord } from '../load-bench.ts';
import { recordFromRows } from '../record-from-rows.ts';
import { complain, print, printJson } from '../terminal.ts';
import { type ExitCode, exitCode, UserError } from '../user-error.ts';
import { writeTextFile } from '../write-file.ts';

const methods = ['central', 'both-sides', 'scale'] as const;
type Method = (typeof methods)[number];

export async function run(call: CommandCall): Promise<ExitCode> {
  const [file, extra] = call.words;
  if (file === undefined)
    throw new UserError('import needs a file of readings (CSV), or "-" for standard input');
  if (extra !== undefined)
    throw new UserError(`import takes one file at a time, not also ${shownName(extra)}`);
  const out = textOption(call, 'out');
  if (out !== null && !out.toLowerCase().endsWith('.json')) {
    throw new UserError(`--out ${shownName(out)}: the name of a record must end in .json`);
  }
  const instrument = instrumentOf(call);
  const title = textOption(call, 'title');
  const name = shownName(file);
  const table = parseCsvTable(name, await readTextFile(file), ['note']);
  const { draft, leftOut, cellOf } = recordFromRows(table, instrument.method);
  const read = readRecord(
    JSON.stringify({ whichgas: 1, ...(title === null ? {} : { title }), instrument, ...draft }),
  );
  if (!read.ok) {
    throw unusableRecord(
      name,
      read.problems,
      (place) => flagOf(place) ?? cellOf(place) ?? `${name}: ${place}`,
    );
  }
  await writeRecord(call, out, read.record);
  for (const sentence of leftOut) complain(sentence);
  for (const { message } of read.warnings) complain(`${name}: ${message}`);
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
  const units = decimalNumber(text);
  if (units === null || units <= 0)
    throw new UserError(`--least-count ${quoteText(text)}: on a scale it is a number of units, such as 0.1`);
  return units;
}

/** The flag that a place of the record came from. */
function flagOf(place: string): string | null {
  if (place.startsWith('instrument.leastCount')) return '--least-count';
  return place.startsWith('title') ? '--title' : null;
}

async function writeRecord(call: CommandCall, out: string | null, record: BenchRecord): Promise<void> {
  const written = readableText(record);
  if (!written.ok) {
    const [first] = written.problems;
    throw new UserError(`the record could not be opened again: ${first?.place}: ${first?.message}`);
  }
  if (out !== null) {
    await writeTextFile(out, written.text, switchOption(call, 'force') ? 'any-file' : 'nothing');
    if (switchOption(call, 'json')) printJson({ out });
    else complain(`the record is in ${shownName(out)}`);
  } else if (switchOption(call, 'json')) {
    printJson(record);
  } else {
    print(jsonText(written.text).trimEnd());
  }
}
