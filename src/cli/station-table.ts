/** What an instructor says of each station: flags for one, or a table with one row a station. */
import { isAbsolute, join } from 'node:path';
import { quoteText } from '../angle/quote-text.ts';
import { plainLabel } from '../record/plain-label.ts';
import { type CommandCall, textOption } from './command.ts';
import { type CsvTable, cellPlace } from './csv-table.ts';
import { tubeArgument } from './tube-arguments.ts';
import { atPlace, UserError } from './user-error.ts';

/** What may be said of a station: the flag for all of them, the column of a table, and the help of the flag. */
export const stationFields = {
  station: { flag: 'station', column: 'station' },
  title: { flag: 'title', column: 'title' },
  date: { flag: 'date', column: 'date' },
  method: { flag: 'method', column: 'method' },
  leastCount: { flag: 'least-count', column: 'least count' },
  windows: { flag: 'windows', column: 'windows' },
  lamp: { flag: 'lamp', column: 'lamp' },
  tube: { flag: 'tube', column: 'tube' },
  shelf: { flag: 'shelf', column: 'shelf' },
  expected: { flag: 'expect', column: 'expected' },
  prism: { flag: 'prism', column: 'prism' },
  apex: { flag: 'apex', column: 'apex' },
  glass: { flag: 'glass', column: 'glass' },
  central: { flag: 'central', column: 'central' },
  calibration: { flag: 'calibration', column: 'calibration' },
} as const;

export type StationField = keyof typeof stationFields;

export interface StationRow {
  /** Name of its record, without a folder, ending in .json; null where nothing names it. */
  readonly record: string | null;
  /** As written, null where nothing is. */
  readonly texts: Readonly<Record<StationField, string | null>>;
  /** `--lamp`, or `stations.csv: row 3, column 2 (lamp)`. */
  placeOf(field: StationField): string;
}

const fieldNames = Object.keys(stationFields) as StationField[];

/** Is it a table of stations, rather than a plain key? */
export const isStationTable = ({ columns }: CsvTable): boolean => columns.includes('station');

/** The one station that the flags of a call describe. */
export function stationOfFlags(call: CommandCall): StationRow {
  return {
    record: null,
    texts: textsOf((field) => flagText(call, field)),
    placeOf: (field) => `--${stationFields[field].flag}`,
  };
}

/**
 * The stations of a table; what a cell leaves open is as the flags say. `folder`: of the table, where the calibrations
 * that it names are looked for.
 */
export function stationsOfTable(table: CsvTable, call: CommandCall | null, folder = '.'): StationRow[] {
  checkColumns(table);
  const made = new Map<string, number>();
  if (table.rows.length === 0) throw new UserError(`${table.name}: there is no station below the first row`);
  return table.rows.map(({ row, cells }) => {
    const cell = (column: string): string | null => cells[table.columns.indexOf(column)] || null;
    const place = (column: string) => cellPlace(table, row, table.columns.indexOf(column));
    const station = cell('station');
    if (station === null) throw new UserError(`${table.name}: row ${row}: the station is not named`);
    const written = cell('record');
    const record =
      written === null ? recordOfStation(station, place('station')) : checkedName(written, place('record'));
    const before = made.get(record.toLowerCase());
    if (before !== undefined)
      throw new UserError(`${table.name}: row ${row}: row ${before} makes the record ${record} already`);
    made.set(record.toLowerCase(), row);
    const ofFlag = (field: StationField) => (call === null ? null : flagText(call, field));
    return {
      record,
      texts: textsOf((field) => {
        const written = cell(stationFields[field].column);
        if (written !== null && field === 'calibration')
          return isAbsolute(written) ? written : join(folder, written);
        return written ?? ofFlag(field);
      }),
      placeOf: (field) => {
        const { flag, column } = stationFields[field];
        if (cell(column) === null && ofFlag(field) !== null) return `--${flag}`;
        return table.columns.includes(column) ? place(column) : `${table.name}: row ${row}: ${column}`;
      },
    };
  });
}

function checkColumns(table: CsvTable): void {
  const known = ['record', ...fieldNames.map((field) => stationFields[field].column)];
  const strange = table.columns.findIndex((column) => column !== '' && !known.includes(column));
  if (strange >= 0) {
    throw new UserError(
      `${table.name}: row 1, column ${strange + 1}: the column ${quoteText(table.columns[strange]!)} is not known; known are ${known.join(', ')}`,
    );
  }
  if (!isStationTable(table))
    throw new UserError(`${table.name}: the first row must name the columns, one of them station`);
}

function textsOf(textOf: (field: StationField) => string | null): StationRow['texts'] {
  return Object.fromEntries(fieldNames.map((field) => [field, textOf(field)])) as StationRow['texts'];
}

function flagText(call: CommandCall, field: StationField): string | null {
  return textOption(call, stationFields[field].flag);
}

/** The record of a station that names none: `station-3.json`. */
function recordOfStation(station: string, place: string): string {
  const name = station
    .normalize('NFC')
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-+|-+$/g, '');
  if (name === '')
    throw new UserError(
      `${place}: ${quoteText(station)} makes no name of a file; give one in a column "record"`,
    );
  return checkedName(`station-${name}`, place);
}

/** A name that every system takes for a file in the folder at hand. */
function checkedName(written: string, place: string): string {
  const name = written.normalize('NFC').replace(/\.json$/i, '');
  const isPlain = /^[\p{L}\p{N}_][\p{L}\p{N}\p{M} ._()-]*$/u.test(name) && !/[ .]$/.test(name);
  const isDevice = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i.test(name);
  if (!isPlain || isDevice || name.length > 100) {
    throw new UserError(
      `${place}: ${quoteText(written)} is no name for a record; letters, digits, spaces and . _ - ( ) make one, without a folder`,
    );
  }
  return `${name}.json`;
}

/** The entries of a cell: `helium, neon` or `helium; neon`. */
export function listedIn(text: string | null): string[] {
  return (text ?? '')
    .split(/[,;]/)
    .map((entry) => entry.trim())
    .filter((entry) => entry !== '');
}

/** The tubes of a station by their labels; one without a label where none is named. Throws UserError: one twice. */
export function tubeLabels({ texts, placeOf }: StationRow): (string | null)[] {
  const labels = listedIn(texts.tube);
  const plain = labels.map(plainLabel);
  const twice = labels.find((label, at) => plain.indexOf(plainLabel(label)) < at);
  if (twice !== undefined)
    throw new UserError(
      `${placeOf('tube')}: ${quoteText(twice)} stands there twice; give each tube a label of its own`,
    );
  return labels.length === 0 ? [null] : labels;
}

/**
 * What is in each tube of a station, in their order, as substances of the line table; null where nothing says so.
 * Throws UserError, also where one is not among those that the station says it can be.
 */
export function expectedNames(row: StationRow): (string | null)[] {
  const labels = tubeLabels(row);
  const names = listedIn(row.texts.expected);
  if (names.length === 0) return labels.map(() => null);
  if (names.length !== labels.length) {
    const tubes = labels.length === 1 ? 'one tube' : `${labels.length} tubes`;
    throw new UserError(
      `${row.placeOf('expected')}: ${names.length === 1 ? 'one name' : `${names.length} names`} for ${tubes}; give one name for each tube, separated by commas`,
    );
  }
  return names.map((name) => atPlace(row.placeOf('expected'), () => onShelf(row, tubeArgument(name))));
}

/** The substance, which must be among those that the tubes of the station can be. Throws UserError. */
export function onShelf({ texts, placeOf }: StationRow, substance: string): string {
  const shelf = listedIn(texts.shelf).map((name) => atPlace(placeOf('shelf'), () => tubeArgument(name)));
  if (shelf.length === 0 || shelf.includes(substance)) return substance;
  throw new UserError(
    `${quoteText(substance)} is not on the shelf of the station, which has ${shelf.join(', ')}`,
  );
}
