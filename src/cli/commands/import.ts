/** `whichgas import READINGS.csv`: a spreadsheet of readings made into a bench record. */
import type { DecimalReading } from '../../angle/decimal-meaning.ts';
import { jsonText } from '../../present/safe-text.ts';
import { circleIn } from '../../record/read-instrument.ts';
import { readableText } from '../../record/readable-text.ts';
import type { BenchRecord } from '../../record/schema.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { parseCsvTable } from '../csv-table.ts';
import { readTextFile } from '../files.ts';
import { type InstrumentField, instrumentOf } from '../instrument-texts.ts';
import { loadBench, madeRecord } from '../load-bench.ts';
import { recordName } from '../option-values.ts';
import { recordFromRows } from '../record-from-rows.ts';
import { settledTable } from '../table-decimals.ts';
import { complain, print, printJson } from '../terminal.ts';
import { type ExitCode, exitCode, shownName, UserError } from '../user-error.ts';
import { writeTextFile } from '../write-file.ts';

export async function run(call: CommandCall): Promise<ExitCode> {
  const [file, extra] = call.words;
  if (file === undefined)
    throw new UserError('import needs a file of readings (CSV), or "-" for standard input');
  if (extra !== undefined)
    throw new UserError(`import takes one file at a time, not also ${shownName(extra)}`);
  const out = recordName(call);
  const prepared = await preparedRecord(call);
  const instrument = prepared?.instrument ?? instrumentOfCall(call);
  const name = shownName(file);
  const table = parseCsvTable(name, await readTextFile(file), ['note']);
  const { draft, leftOut, cellOf } = recordFromRows(table, instrument.method);
  const placeOf = (place: string) => flagOf(place) ?? cellOf(place) ?? `${name}: ${place}`;
  const chosen = decimalsOf(call);
  const record = { whichgas: 1, ...prepared, instrument, ...saidBy(call, prepared) };
  const asTyped = madeRecord(name, { ...record, ...draft }, placeOf);
  const sayOfTable = (sentence: string) => complain(`${name}: ${sentence}`);
  // A prepared station's own readings are no part of the table.
  const { known, unknown, central } = asTyped.record;
  const ofTable = { known, unknown, ...(draft.central && central ? { central } : {}) };
  const settled = settledTable(ofTable, circleIn(asTyped.record), chosen, placeOf, sayOfTable);
  const read = settled === ofTable ? asTyped : madeRecord(name, { ...record, ...settled }, placeOf);
  await writeRecord(call, out, read.record);
  for (const sentence of leftOut) complain(sentence);
  for (const { message } of read.warnings) complain(`${name}: ${message}`);
  return exitCode.done;
}

function decimalsOf(call: CommandCall): DecimalReading | null {
  const text = textOption(call, 'decimals');
  if (text === null || text === 'degrees' || text === 'minutes') return text;
  throw new UserError('--decimals must be degrees or minutes');
}

/** The station that the readings belong to: all of its record but lamps and tubes, which the table has. */
async function preparedRecord(call: CommandCall): Promise<Omit<BenchRecord, 'known' | 'unknown'> | null> {
  const file = textOption(call, 'station');
  if (file === null) return null;
  const said = Object.values(instrumentFlags).find((flag) => textOption(call, flag) !== null);
  if (said !== undefined)
    throw new UserError(`--${said}: the record of the station says it already; leave out one of the two`);
  const { record } = await loadBench(file);
  const { known, unknown, ...rest } = record;
  if ([...known, ...unknown].some(({ lines }) => lines.length > 0)) {
    throw new UserError(
      `--station ${shownName(file)}: has readings already; a prepared station has none (import makes a record of its own)`,
    );
  }
  return rest;
}

/** Title, observers and date as the flags say them. */
function saidBy(call: CommandCall, prepared: Pick<BenchRecord, 'about'> | null) {
  const title = textOption(call, 'title');
  const date = textOption(call, 'date');
  const observers = textOption(call, 'observers')
    ?.split(/[,;]/)
    .map((each) => each.trim());
  const about = {
    ...prepared?.about,
    ...(date === null ? {} : { date }),
    ...(observers === undefined ? {} : { observers: observers.filter((each) => each !== '') }),
  };
  return {
    ...(title === null ? {} : { title }),
    ...(Object.keys(about).length === 0 ? {} : { about }),
  };
}

const instrumentFlags = { method: 'method', windows: 'windows', leastCount: 'least-count' } as const;

function instrumentOfCall(call: CommandCall) {
  const textOf = (field: InstrumentField) => textOption(call, instrumentFlags[field]);
  const texts = { method: textOf('method'), windows: textOf('windows'), leastCount: textOf('leastCount') };
  return instrumentOf(texts, (field) => `--${instrumentFlags[field]}`);
}

/** The flag that a place of the record came from. */
function flagOf(place: string): string | null {
  if (place.startsWith('instrument.leastCount')) return '--least-count';
  if (place.startsWith('about.observers')) return '--observers';
  if (place.startsWith('about.date')) return '--date';
  return place.startsWith('title') ? '--title' : null;
}

async function writeRecord(call: CommandCall, out: string | null, record: BenchRecord): Promise<void> {
  const written = readableText(record);
  if (!written.ok) {
    const [first] = written.problems;
    throw new UserError(`the record could not be opened again: ${first?.place}: ${first?.message}`);
  }
  if (out !== null) {
    // The prepared record itself may be filled: nobody's readings are in it.
    const replaceable = out === textOption(call, 'station') ? 'no-readings' : 'nothing';
    await writeTextFile(out, written.text, switchOption(call, 'force') ? 'any-file' : replaceable);
    if (switchOption(call, 'json')) printJson({ out });
    else complain(`the record is in ${shownName(out)}`);
  } else if (switchOption(call, 'json')) {
    printJson(record);
  } else {
    print(jsonText(written.text).trimEnd());
  }
}
