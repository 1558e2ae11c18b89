/** The commands' only way to write a file: the whole of it or nothing, and what a person wrote is not replaced unasked. */
import { realpath, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { kindOf } from '../disk/read-regular-file.ts';
import { replaceWhole } from '../disk/write-whole.ts';
import { holdsRecord } from '../record/holds-record.ts';
import { readRecord } from '../record/read-record.ts';
import type { BenchRecord } from '../record/schema.ts';
import { readTextFile } from './files.ts';
import { asUserError, shownName, UserError } from './user-error.ts';

/**
 * What may stand under the name and be replaced: no file at all, any file but a bench record, any file but a record
 * with readings or answers in it, any file but a record on which anybody has worked, or any file.
 */
export type Replaceable = 'nothing' | 'no-record' | 'no-readings' | 'no-work' | 'any-file';

/** The whole file or nothing. Throws UserError where it cannot be written or is not `replaceable`. */
export async function writeTextFile(path: string, text: string, replaceable: Replaceable): Promise<void> {
  await refuseUnlessReplaceable(path, replaceable);
  const target = await fileMeant(path);
  try {
    replaceWhole(target, text);
  } catch (error) {
    throw asUserError(error, path, 'written');
  }
}

/** The file that a path means, through links; the path itself where there is nothing yet. */
async function fileMeant(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return path;
    throw asUserError(error, path, 'written');
  }
}

/** Throws UserError where `writeTextFile` would find something that is not `replaceable`; before several are written. */
export async function refuseUnlessReplaceable(path: string, replaceable: Replaceable): Promise<void> {
  const target = await fileMeant(path);
  const before = await stat(target).catch(() => null);
  if (before === null) return;
  const name = shownName(path);
  if (!before.isFile()) throw new UserError(`${name}: ${kindOf(before)}; give the name of a file to write`);
  if (replaceable === 'nothing') {
    throw new UserError(`${name}: there is a file of that name already; --force replaces it`);
  }
  // What cannot be read as text is no record.
  const text = await readTextFile(target).catch(() => '');
  if (replaceable === 'any-file' || !holdsRecord(text)) return;
  const kept = replaceable === 'no-record' ? null : keptRecords[replaceable];
  if (kept !== null) {
    const read = readRecord(text);
    if (read.ok && !kept.isKept(read.record)) return;
  }
  const what = kept?.what ?? 'a bench record';
  throw new UserError(`${name}: this file holds ${what}, which is not replaced; give another name`);
}

/**
 * Before several files are written: throws UserError where the folder of one is missing (`made`: a folder that will be
 * made first), or where two names mean one file, also where they differ in capitals only.
 */
export async function refuseUnlessApart(paths: readonly string[], made: string | null): Promise<void> {
  const taken = new Map<string, string>();
  for (const path of paths) {
    const meant = await placeMeant(path, made);
    const before = taken.get(meant.toLowerCase());
    if (before !== undefined)
      throw new UserError(`${shownName(path)} and ${shownName(before)} are one file; give each its own name`);
    taken.set(meant.toLowerCase(), path);
  }
}

/** The absolute path of a file that is to be written, through links. */
async function placeMeant(path: string, made: string | null): Promise<string> {
  const meant = await fileMeant(path);
  const folder = dirname(meant);
  try {
    return join(await realpath(folder), basename(meant));
  } catch (error) {
    if (made !== null && resolve(folder) === resolve(made)) return resolve(meant);
    throw asUserError(error, path, 'written');
  }
}

const keptRecords = {
  'no-readings': { what: 'a bench record with readings or an answer', isKept: hasReadings },
  'no-work': { what: 'a bench record with readings, an answer, observers or notes', isKept: hasWork },
} as const;

/** Has anybody written a reading, or what is in a tube? */
function hasReadings({ central = [], check = [], answer, known, unknown }: BenchRecord): boolean {
  return (
    answer !== undefined ||
    central.length + check.length > 0 ||
    known.some((lamp) => lamp.lines.length + (lamp.check?.length ?? 0) > 0) ||
    unknown.some(
      ({ lines, central: own = [], notSeen = [], answer: tubeAnswer, complete }) =>
        lines.length + own.length + notSeen.length > 0 || tubeAnswer !== undefined || complete !== undefined,
    )
  );
}

/** What a prepared station says of itself; all else about a bench has been written by those who sit at it. */
const preparedAbout = ['date', 'station', 'prism'];

/** Has anybody written anything into a prepared station? */
function hasWork(record: BenchRecord): boolean {
  const about = Object.keys(record.about ?? {});
  return hasReadings(record) || about.some((key) => !preparedAbout.includes(key));
}
