/** The commands' only way to write a file: the whole of it or nothing, and what a person wrote is not replaced unasked. */
import type { Stats } from 'node:fs';
import { chmod, open, realpath, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { FileRefused, kindOf, readRegularFile } from '../disk/read-regular-file.ts';
import { renameOver } from '../disk/rename-over.ts';
import { readRecord } from '../record/read-record.ts';
import { asUserError, shownName } from './file-failure.ts';
import { readTextFile } from './files.ts';
import { UserError } from './user-error.ts';

/**
 * What may stand under the name and be replaced: no file at all, any file but a bench record, any file but a record
 * with readings in it, or any file.
 */
export type Replaceable = 'nothing' | 'no-record' | 'no-readings' | 'any-file';

/**
 * Writes the whole file or nothing: a new file beside it takes its place only when it is complete, with the mode of
 * the one it replaces. Throws UserError where the file cannot be written or is not `replaceable`.
 */
export async function writeTextFile(path: string, text: string, replaceable: Replaceable): Promise<void> {
  const target = await fileMeant(path);
  // The global `crypto` is loaded when it is used; an import would be at every start.
  const unfinished = join(dirname(target), `.${basename(target)}.${crypto.randomUUID()}.tmp`);
  try {
    const before = await stat(target).catch(() => null);
    if (before !== null) await checkReplaceable(path, target, before, replaceable);
    const handle = await open(unfinished, 'wx');
    try {
      await handle.writeFile(text, 'utf8');
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (!readRegularFile(unfinished, undefined, Number.POSITIVE_INFINITY).equals(Buffer.from(text)))
      throw new FileRefused('the disk gives back something else than was written');
    if (before !== null) await chmod(unfinished, before.mode & 0o7777);
    renameOver(unfinished, target);
  } catch (error) {
    await rm(unfinished, { force: true }).catch(() => {});
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

async function checkReplaceable(path: string, target: string, before: Stats, replaceable: Replaceable) {
  const name = shownName(path);
  if (!before.isFile()) throw new UserError(`${name}: ${kindOf(before)}; give the name of a file to write`);
  if (replaceable === 'nothing') {
    throw new UserError(`${name}: there is a file of that name already; --force replaces it`);
  }
  if (replaceable === 'any-file' || !(await holdsRecord(target))) return;
  if (replaceable === 'no-readings' && (await isWithoutReadings(target))) return;
  const what = replaceable === 'no-readings' ? 'a bench record with readings' : 'a bench record';
  throw new UserError(`${name}: this file holds ${what}, which is not replaced; give another name`);
}

/** Throws UserError where `writeTextFile` would find something that is not `replaceable`; before several are written. */
export async function refuseUnlessReplaceable(path: string, replaceable: Replaceable): Promise<void> {
  const target = await fileMeant(path);
  const before = await stat(target).catch(() => null);
  if (before !== null) await checkReplaceable(path, target, before, replaceable);
}

/** A record in which nobody has written a reading yet: a prepared station. */
async function isWithoutReadings(file: string): Promise<boolean> {
  const read = readRecord(await readTextFile(file).catch(() => ''));
  if (!read.ok) return false;
  const { central = [], check = [], known, unknown } = read.record;
  return (
    central.length + check.length === 0 &&
    known.every((lamp) => lamp.lines.length + (lamp.check?.length ?? 0) === 0) &&
    unknown.every(
      (tube) => tube.lines.length + (tube.central?.length ?? 0) + (tube.notSeen?.length ?? 0) === 0,
    )
  );
}

/** Also of a damaged record: somebody's readings are in it. */
async function holdsRecord(file: string): Promise<boolean> {
  // What cannot be read as text is no record.
  const text = await readTextFile(file).catch(() => '');
  return /^\s*\{/.test(text) && /"whichgas"\s*:/.test(text);
}
