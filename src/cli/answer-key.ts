/** What each tube should be: one name for all, or a key file. */
import { resolve } from 'node:path';
import { quoteText } from '../angle/quote-text.ts';
import { plainLabel } from '../record/plain-label.ts';
import { type CommandCall, textOption } from './command.ts';
import { type CsvTable, cellPlace, parseCsvTable } from './csv-table.ts';
import { readTextFile } from './files.ts';
import { expectedNames, isStationTable, stationsOfTable, tubeLabels } from './station-table.ts';
import { tubeArgument } from './tube-arguments.ts';
import { atPlace, shownName, UserError } from './user-error.ts';

/** One row of a key. */
export interface KeyRow {
  /** As the key writes it. */
  readonly record: string;
  /** "" where the row is about every tube of the record. */
  readonly tube: string;
  readonly expected: string;
}

export interface AnswerKey {
  /**
   * The expected tube, or null where the key says nothing of it. Throws UserError where it says two things. `station`:
   * as the record itself names it, "" where it does not; a table of stations finds a record under another name by it.
   */
  expectedOf(file: string, tube: string, station?: string): string | null;
  /** After all records have been asked about: what the key expects and nobody handed in. */
  missing(): readonly (KeyRow & {
    /** The record was, and the tube is not in it. */
    readonly handedIn: boolean;
  })[];
}

/** The key of a call for these records. */
export async function answerKey(call: CommandCall, files: readonly string[]): Promise<AnswerKey> {
  const expect = textOption(call, 'expect');
  const file = textOption(call, 'key');
  if ((expect === null) === (file === null)) {
    throw new UserError('verify needs either --expect NAME or --key KEY.csv, and not both');
  }
  if (expect !== null) {
    const substance = tubeArgument(expect);
    return { expectedOf: () => substance, missing: () => [] };
  }
  return keyOfTable(file ?? '', files);
}

/** The key in a file: a table of its own, or the one that `station` prepared the stations from. */
export async function keyOfTable(file: string, files: readonly string[]): Promise<AnswerKey> {
  const name = shownName(file);
  const table = parseCsvTable(name, await readTextFile(file));
  return matchedKey(name, isStationTable(table) ? rowsOfStations(table) : readRows(table), files);
}

interface PlacedRow extends KeyRow {
  readonly path: RecordPath;
  /** Of a table of stations; "" in a plain key. */
  readonly station: string;
}

function readRows(table: CsvTable): PlacedRow[] {
  const { name, columns } = table;
  const known = ['record', 'tube', 'expected'];
  const strange = columns.find((column) => column !== '' && !known.includes(column));
  if (!columns.includes('record') || !columns.includes('expected') || strange !== undefined) {
    const reason = strange === undefined ? '' : `, not ${quoteText(strange)}`;
    throw new UserError(`${name}: the first row must be record,expected or record,tube,expected${reason}`);
  }
  const expectedBy = new Map<string, string>();
  return table.rows.map(({ row, cells }) => {
    const cell = (column: string) => cells[columns.indexOf(column)] ?? '';
    const [record, tube] = [cell('record'), cell('tube')];
    if (record === '') throw new UserError(`${name}: row ${row}: the record is not named`);
    const path = writtenPath(record);
    const expected = atPlace(cellPlace(table, row, columns.indexOf('expected')), () =>
      tubeArgument(cell('expected')),
    );
    const place = JSON.stringify([path, plainLabel(tube)]);
    const before = expectedBy.get(place) ?? expected;
    if (before !== expected)
      throw new UserError(`${name}: row ${row}: ${shownName(record)} is already expected to be ${before}`);
    expectedBy.set(place, expected);
    return { record, tube, expected, path, station: '' };
  });
}

/** One row for each tube of each station that names what is in it. */
function rowsOfStations(table: CsvTable): PlacedRow[] {
  if (!table.columns.includes('expected'))
    throw new UserError(`${table.name}: a key needs a column expected, which says what is in the tubes`);
  return stationsOfTable(table, null).flatMap((row) => {
    const record = row.record ?? '';
    const names = expectedNames(row);
    return tubeLabels(row).flatMap((label, at) => {
      const expected = names[at] ?? null;
      if (expected === null) return [];
      const station = plainLabel(row.texts.station ?? '');
      return [{ record, tube: label ?? '', expected, path: writtenPath(record), station }];
    });
  });
}

/** A row belongs to the record, or to the several of one name, whose path agrees best with what the key writes. */
function matchedKey(name: string, rows: readonly PlacedRow[], files: readonly string[]): AnswerKey {
  const byName = groupedByName(files);
  const rowsOf = new Map<string, { readonly row: PlacedRow; readonly agreeing: number }[]>();
  const filesOf = new Map<PlacedRow, string[]>();
  for (const row of rows) {
    const found = (byName.get(nameOf(row.path)) ?? []).map(({ file, path }) => ({
      file,
      agreeing: agreement(row.path, path),
    }));
    const best = Math.max(...found.map(({ agreeing }) => agreeing));
    const meant = found.filter(({ agreeing }) => agreeing === best);
    const files = meant.map(({ file }) => file);
    filesOf.set(row, files);
    for (const file of files) rowsOf.set(file, [...(rowsOf.get(file) ?? []), { row, agreeing: best }]);
  }
  const asked = new Set<string>();
  const answered = new Set<PlacedRow>();
  /** Rows whose record was handed in under another name. */
  const found = new Set<PlacedRow>();
  return {
    expectedOf(file, tube, station = '') {
      asked.add(file);
      const of = rowsOf.get(file) ?? ofStation(rows, station);
      if (!rowsOf.has(file)) for (const { row } of of) found.add(row);
      const labelled = of.filter(({ row }) => row.tube !== '' && plainLabel(row.tube) === plainLabel(tube));
      const about = labelled.length > 0 ? labelled : of.filter(({ row }) => row.tube === '');
      for (const { row } of labelled) answered.add(row);
      const best = Math.max(...about.map(({ agreeing }) => agreeing));
      const rowsMeant = about.filter(({ agreeing }) => agreeing === best).map(({ row }) => row);
      const [first, ...others] = rowsMeant;
      if (first !== undefined && others.some(({ expected }) => expected !== first.expected)) {
        const records = rowsMeant.map(({ record }) => shownName(record)).join(' and ');
        throw new UserError(
          `${shownName(file)}: ${name} has several rows that can mean it (${records}); name it with its folder there`,
        );
      }
      return first?.expected ?? null;
    },
    missing: () =>
      rows.flatMap((row) => {
        const of = filesOf.get(row) ?? [];
        const handedIn = of.length > 0 || found.has(row);
        // A record that could not be read is not missing; what is wrong with it has been said.
        const without = row.tube !== '' && !answered.has(row) && of.every((file) => asked.has(file));
        return handedIn && !without ? [] : [{ ...row, handedIn }];
      }),
  };
}

/** The rows of a station by its own name, for a record whose name is not in the table. */
function ofStation(rows: readonly PlacedRow[], station: string) {
  const named = plainLabel(station);
  return named === '' ? [] : rows.filter((row) => row.station === named).map((row) => ({ row, agreeing: 1 }));
}

const nameOf = (path: RecordPath): string => path.at(-1)?.toLowerCase() ?? '';

function groupedByName(files: readonly string[]) {
  const groups = new Map<string, { readonly file: string; readonly path: RecordPath }[]>();
  for (const file of new Set(files)) {
    const path = filePath(file);
    groups.set(nameOf(path), [...(groups.get(nameOf(path)) ?? []), { file, path }]);
  }
  return groups;
}

/** Folders and name of a record, the outermost first; without what says only where to begin, and without `.json`. */
type RecordPath = readonly string[];

/** As somebody wrote it in a table. */
function writtenPath(text: string): RecordPath {
  const parts = text.normalize('NFC').split(/[/\\]/);
  const name = (parts.pop() ?? '').replace(/\.json$/i, '');
  return [...parts.filter((part) => part !== '' && part !== '.' && part !== '..'), name];
}

/** Of a file on this computer, from the root on. */
function filePath(file: string): RecordPath {
  return file === '-' ? ['-'] : writtenPath(resolve(file));
}

/**
 * Is this the record that is meant? By its name alone or with its folders: how much of the two paths agrees from the name backwards, in folders; 0 where the names differ. The same letters
 * in the same size agree a little better, for there are disks on which that makes two files.
 */
function agreement(one: RecordPath, other: RecordPath): number {
  const back = (path: RecordPath, at: number) => path[path.length - 1 - at];
  const most = Math.min(one.length, other.length);
  let agreeing = 0;
  while (agreeing < most && back(one, agreeing)?.toLowerCase() === back(other, agreeing)?.toLowerCase()) {
    agreeing += 1;
  }
  return agreeing > 0 && back(one, 0) === back(other, 0) ? agreeing + 0.5 : agreeing;
}
