/** `whichgas station`: the records of an exercise, sheets to print, and the instructor's answers. */
import { mkdir } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { wantedLines } from '../../analysis/predict.ts';
import {
  lampLinesAt,
  partedLines,
  placesAt,
  type StationOptics,
  spreadLines,
} from '../../analysis/station-lines.ts';
import { answersHtml, type StationAnswers } from '../../present/station/answers.ts';
import { type StationSheet, sheetsHtml } from '../../present/station/sheet.ts';
import { type AnswerKey, keyOfTable } from '../answer-key.ts';
import { type CommandCall, switchOption, textOption } from '../command.ts';
import { parseCsvTable } from '../csv-table.ts';
import { readTextFile } from '../files.ts';
import { pageName, recordName } from '../option-values.ts';
import { type PreparedStation, preparedStation } from '../prepared-station.ts';
import { type KnownOptics, withOptics } from '../station-optics.ts';
import { expectedNames, onShelf, stationOfFlags, stationsOfTable } from '../station-table.ts';
import { complain, printJson } from '../terminal.ts';
import { today } from '../today.ts';
import { asUserError, atPlace, type ExitCode, exitCode, shownName, UserError } from '../user-error.ts';
import {
  type Replaceable,
  refuseUnlessApart,
  refuseUnlessReplaceable,
  writeTextFile,
} from '../write-file.ts';

/** A station with the file that its record becomes. */
interface Written extends PreparedStation {
  readonly path: string;
}

export async function run(call: CommandCall): Promise<ExitCode> {
  const [table, extra] = call.words;
  if (extra !== undefined)
    throw new UserError(`station takes one table of stations, not also ${shownName(extra)}`);
  const [sheet, answers] = [pageName(call, 'sheet'), pageName(call, 'answers')];
  if (answers === null && textOption(call, 'key') !== null)
    throw new UserError('--key says what is in the tubes for the answers; add --answers FILE.html');
  const stations = await withOptics(await (table === undefined ? oneStation(call) : stationsOf(table, call)));
  const pages: (readonly [path: string, text: string])[] = [];
  if (sheet !== null) pages.push([sheet, sheetsHtml(stations.map(sheetOf))]);
  if (answers !== null) {
    const key = await keyOf(call, stations);
    const told = stations.map((station) => answersOf(station, key));
    pages.push([answers, answersHtml(told, today())]);
  }
  const folder = table === undefined ? null : textOption(call, 'out');
  await writeAll(call, stations, pages, folder);
  say(call, stations, { sheet, answers }, folder);
  return exitCode.done;
}

async function oneStation(call: CommandCall): Promise<Written[]> {
  const out = recordName(call);
  if (out === null)
    throw new UserError('station needs --out FILE.json, or a table of stations and --out FOLDER');
  return [{ ...preparedStation(stationOfFlags(call)), path: out }];
}

async function stationsOf(file: string, call: CommandCall): Promise<Written[]> {
  const out = textOption(call, 'out');
  if (out === null) throw new UserError('station needs --out FOLDER for the records of a table');
  if (out === '' || out.toLowerCase().endsWith('.json'))
    throw new UserError(`--out ${shownName(out)}: the records of a table go into a folder`);
  if (textOption(call, 'station') !== null)
    throw new UserError('--station belongs to one station; a table names them itself');
  const rows = stationsOfTable(parseCsvTable(shownName(file), await readTextFile(file)), call, dirname(file));
  return rows.map((row) => ({ ...preparedStation(row), path: join(out, row.record ?? '') }));
}

const labelsOf = ({ bench }: Written): string[] => bench.tubes.map(({ label }) => label);

function sheetOf(station: Written & KnownOptics): StationSheet {
  const { bench, record, row, optics } = station;
  const lamp = record.known[0]?.lamp ?? '';
  return {
    file: fileName(station),
    record,
    bench,
    leastCount: row.texts.leastCount ?? String(record.instrument.leastCount),
    lamp,
    known: lampLinesAt(optics, lamp),
    shelf: (bench.tubes[0]?.shelf ?? []).map((tube) => ({
      tube,
      lines: spreadLines(brightLines(optics, tube), listedOfATube),
    })),
  };
}

/** Lines of a possible tube that a sheet has room for. */
const listedOfATube = 9;

const brightLines = (optics: StationOptics, tube: string) => partedLines(optics, wantedLines(tube, true));

/** A tube with fewer bright lines is known by its weak ones too. */
const enoughBright = 8;

function cribOf(optics: StationOptics, tube: string) {
  const bright = brightLines(optics, tube);
  return placesAt(optics, bright.length >= enoughBright ? bright : partedLines(optics, wantedLines(tube)));
}

/** What is in the tubes: of the key of a call, or as flags and table say. */
async function keyOf(call: CommandCall, stations: readonly Written[]): Promise<AnswerKey | null> {
  const file = textOption(call, 'key');
  if (file === null) return null;
  const twice = stations.find(({ row }) => row.texts.expected !== null);
  if (twice !== undefined) {
    throw new UserError(
      `${twice.row.placeOf('expected')}: --key says what is in the tubes too; say it in one place`,
    );
  }
  const paths = stations.map(({ path }) => path);
  return keyOfTable(file, paths);
}

function answersOf(station: Written & KnownOptics, key: AnswerKey | null): StationAnswers {
  const { bench, record, row, path, optics, basis } = station;
  const lamp = record.known[0]?.lamp ?? '';
  const names = expectedNames(row);
  const file = fileName(station);
  const tubes = labelsOf(station).map((label, at) => {
    const keyed = key?.expectedOf(path, label) ?? null;
    const known = keyed && atPlace(`--key: ${label} of ${file}`, () => onShelf(row, keyed));
    const expected = known ?? names[at] ?? null;
    if (expected === null)
      throw new UserError(
        `${row.placeOf('expected')}: nothing says what is in ${label} of ${file}, which the answers need`,
      );
    return { label, expected, lines: cribOf(optics, expected) };
  });
  return {
    record: file,
    station: record.about?.station ?? '',
    lamp,
    lampLines: placesAt(optics, lampLinesAt(optics, lamp)),
    tubes,
    optics: optics.kind,
    readable: optics.kind !== 'unknown' && optics.readable,
    basis,
    bench,
  };
}

const fileName = ({ path }: Written): string => path.split(/[/\\]/).at(-1) ?? path;

/** Nothing is written before it is known that all of it may be. */
async function writeAll(
  call: CommandCall,
  stations: readonly Written[],
  pages: readonly (readonly [path: string, text: string])[],
  folder: string | null,
): Promise<void> {
  const force = switchOption(call, 'force');
  const files = [
    ...stations.map(({ path, text }) => ({ path, text, replaceable: force ? 'no-work' : 'nothing' })),
    ...pages.map(([path, text]) => ({ path, text, replaceable: force ? 'no-record' : 'nothing' })),
  ] as { readonly path: string; readonly text: string; readonly replaceable: Replaceable }[];
  const paths = files.map(({ path }) => path);
  await refuseUnlessApart(paths, folder);
  for (const { path, replaceable } of files) await refuseUnlessReplaceable(path, replaceable);
  if (folder !== null) await makeFolder(folder);
  for (const { path, text, replaceable } of files) await writeTextFile(path, text, replaceable);
}

async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw asUserError(error, folder, 'written');
  }
}

function say(
  call: CommandCall,
  stations: readonly Written[],
  { sheet, answers }: { readonly sheet: string | null; readonly answers: string | null },
  folder: string | null,
): void {
  if (switchOption(call, 'json')) {
    for (const station of stations) {
      const { title, about, known, shelf = null } = station.record;
      const of = { title, station: about?.station ?? null, lamp: known[0]?.lamp, tubes: labelsOf(station) };
      printJson({ out: station.path, ...of, shelf, sheet, answers });
    }
    return;
  }
  const records =
    stations.length === 1 ? 'the record of one station is' : `the records of ${stations.length} stations are`;
  if (folder === null) complain(`the station's record is in ${shownName(stations[0]!.path)}`);
  else complain(`${records} in ${shownName(folder)}`);
  if (sheet !== null) complain(`to print: ${shownName(sheet)}`);
  if (answers !== null) complain(`for the instructor, not for the benches: ${shownName(answers)}`);
}
