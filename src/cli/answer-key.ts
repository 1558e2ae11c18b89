/** What each tube should be: one name for all, or a key file. */
import { basename } from 'node:path';
import { type CommandCall, textOption } from './command.ts';
import { parseCsvTable } from './csv-table.ts';
import { readTextFile } from './files.ts';
import { tubeArgument } from './tube-arguments.ts';
import { UserError } from './user-error.ts';

/** The expected tube, or null where the key says nothing of it. */
export type AnswerKey = (file: string, tube: string) => string | null;

export async function answerKey(call: CommandCall): Promise<AnswerKey> {
  const expect = textOption(call, 'expect');
  const file = textOption(call, 'key');
  if ((expect === null) === (file === null)) {
    throw new UserError('verify needs either --expect NAME or --key KEY.csv, and not both');
  }
  if (expect !== null) {
    const substance = tubeArgument(expect);
    return () => substance;
  }
  return readKey(file ?? '');
}

async function readKey(file: string): Promise<AnswerKey> {
  const { columns, rows } = parseCsvTable(file, await readTextFile(file));
  const known = ['record', 'tube', 'expected'];
  const strange = columns.find((column) => column !== '' && !known.includes(column));
  if (!columns.includes('record') || !columns.includes('expected') || strange !== undefined) {
    const reason = strange === undefined ? '' : `, not "${strange}"`;
    throw new UserError(`${file}: the first row must be record,expected or record,tube,expected${reason}`);
  }
  const expectedBy = new Map<string, string>();
  for (const { row, cells } of rows) {
    const cell = (column: string) => cells.get(column) ?? '';
    if (cell('record') === '') throw new UserError(`${file}: row ${row}: the record is not named`);
    const place = keyPlace(cell('record'), cell('tube'));
    const substance = inRow(file, row, () => tubeArgument(cell('expected')));
    if (expectedBy.has(place) && expectedBy.get(place) !== substance) {
      throw new UserError(
        `${file}: row ${row}: ${cell('record')} is already expected to be ${expectedBy.get(place)}`,
      );
    }
    expectedBy.set(place, substance);
  }
  const named = (record: string, tube: string) =>
    expectedBy.get(keyPlace(record, tube)) ?? expectedBy.get(keyPlace(record, ''));
  return (record, tube) => named(record, tube) ?? named(basename(record), tube) ?? null;
}

function keyPlace(record: string, tube: string): string {
  return JSON.stringify([record, tube.toLowerCase()]);
}

function inRow<Value>(file: string, row: number, read: () => Value): Value {
  try {
    return read();
  } catch (error) {
    if (error instanceof UserError) throw new UserError(`${file}: row ${row}: ${error.message}`);
    throw error;
  }
}
