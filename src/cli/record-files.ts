/** The files that the words of a command line mean: as given, of a folder, or by a pattern that no shell has expanded. */
import { readdir, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { asUserError, shownName, UserError } from './user-error.ts';

/** A file as given; for a folder the records in it (names ending in .json); for `class/*.json` those that match. */
export async function recordFiles(path: string): Promise<string[]> {
  if (path === '-') return [path];
  const there = await stat(path).catch(() => null);
  if (there?.isDirectory()) {
    const names = await recordNames(path);
    if (names.length === 0)
      throw new UserError(`${shownName(path)}: no record in this folder (records end in .json)`);
    return names.map((name) => join(path, name));
  }
  const pattern = basename(path);
  if (there !== null || !/[*?]/.test(pattern)) return [path];
  const folder = dirname(path);
  const matching = (await recordNames(folder)).filter((name) => matches(pattern, name));
  if (matching.length === 0) throw new UserError(`${shownName(path)}: no record has such a name`);
  return matching.map((name) => join(folder, name));
}

/** In the order of their names, numbers by their value. */
async function recordNames(folder: string): Promise<string[]> {
  try {
    const names = (await readdir(folder)).filter((name) => name.toLowerCase().endsWith('.json'));
    return names.sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  } catch (error) {
    throw asUserError(error, folder, 'read');
  }
}

/** `*` stands for any letters, `?` for one; large and small letters are the same, as where no shell expands. */
function matches(pattern: string, name: string): boolean {
  const source = pattern
    .replace(/[.+^${}()|[\]\\]/g, '\\$&')
    .replace(/\*+/g, '.*')
    .replaceAll('?', '.');
  return new RegExp(`^${source}$`, 'isu').test(name);
}
