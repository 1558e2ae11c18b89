/** Windows on Linux: the Node of Windows, run by wine, so that the same program can be tried on both. */
import { spawnSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The node.exe to use; `.ci/run` gets one. */
const windowsNode = process.env.WHICHGAS_WINDOWS_NODE;

export type System = 'linux' | 'windows';

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Wine answers nothing where a standard stream is a pipe, so all three are files. */
export function runOn(
  system: System,
  args: readonly string[],
  { cwd = process.cwd(), stdin = '' }: { readonly cwd?: string; readonly stdin?: string | Uint8Array } = {},
): Ended {
  const folder = mkdtempSync(join(tmpdir(), 'whichgas-streams-'));
  const [input, output, errors] = ['in', 'out', 'err'].map((name) => join(folder, name)) as [
    string,
    string,
    string,
  ];
  writeFileSync(input, stdin);
  const streams = [openSync(input, 'r'), openSync(output, 'w'), openSync(errors, 'w')];
  try {
    const [command, words] =
      system === 'windows' ? ['wine', [windowsNode!, ...args]] : [process.execPath, args];
    const { NO_COLOR: _no, FORCE_COLOR: _force, ...inherited } = process.env;
    const { status, error } = spawnSync(command, words, {
      cwd,
      stdio: streams as [number, number, number],
      // Wine reads the words of a command line by the language of the surroundings.
      env: {
        ...inherited,
        LC_ALL: 'C.UTF-8',
        WINEDEBUG: '-all',
        WINEARCH: 'win64',
        WINEDLLOVERRIDES: 'mscoree,mshtml=',
      },
      timeout: 100_000,
    });
    if (status === null && error) throw error;
    return { code: status, out: readFileSync(output, 'utf8'), err: readFileSync(errors, 'utf8') };
  } finally {
    for (const stream of streams) closeSync(stream);
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Wine and a Node that it can run. */
export const hasWindows =
  windowsNode !== undefined &&
  spawnSync('wine', ['--version']).status === 0 &&
  runOn('windows', ['--print', 'process.platform']).out.trim() === 'win32';
if (!hasWindows) console.warn('no wine with a Node of Windows: the program is not tried on Windows.');
