/** Runs the built program as a person's shell does. `npm test` builds it first. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));
export const programFile = join(root, 'dist', 'whichgas.js');

/** Names of files in the checkout, as arguments. */
export const exampleFile = (name: string): string => join(root, 'data', 'examples', name);
export const examplesFolder = join(root, 'data', 'examples');

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

interface Surroundings {
  readonly stdin?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
  readonly cwd?: string;
}

/** Without a terminal on any stream, and without the colour switches of the test run's own environment. */
export function whichgas(args: readonly string[], { stdin = '', env = {}, cwd }: Surroundings = {}): Ended {
  const { NO_COLOR: _no, FORCE_COLOR: _force, ...inherited } = process.env;
  const { status, stdout, stderr, error } = spawnSync(process.execPath, [programFile, ...args], {
    input: stdin,
    env: { ...inherited, ...env },
    encoding: 'utf8',
    timeout: 60_000,
    maxBuffer: 64 * 1024 * 1024,
    ...(cwd === undefined ? {} : { cwd }),
  });
  if (status === null && error) throw error;
  return { code: status, out: stdout, err: stderr };
}

/** Every line of JSON output. */
export function jsonLines({ out }: Ended): unknown[] {
  return out
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as unknown);
}

/** A folder of its own with these files in it, for the time of `use`. */
export async function withFiles<Result>(
  files: Readonly<Record<string, string | Uint8Array>>,
  use: (folder: string) => Result | Promise<Result>,
): Promise<Result> {
  const folder = mkdtempSync(join(tmpdir(), 'whichgas-test-'));
  try {
    for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
    return await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
