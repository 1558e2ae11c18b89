/** When a process began: that tells a running program from a later one that the system has given its number. */
import { uptime } from 'node:os';
import type { Files } from './files.ts';

/**
 * On Linux as the system counts it, or `ended` of a process that waits to be taken away; elsewhere milliseconds since
 * 1970; null where nobody says.
 */
export type ProcessStart = string | number | null;

/** Two tellings of one start differ by less: `ps` gives whole seconds, and a process looks at the clock a little later. */
const sameStartMs = 10_000;

/** Asks the system by a program of its own; only needed where a lock is in the way. */
type Ask = (program: string, args: readonly string[]) => string;

export function startOf(
  pid: number,
  files: Pick<Files, 'readFileSync'>,
  system: NodeJS.Platform = process.platform,
  ask: Ask = askSystem,
): ProcessStart {
  if (system === 'linux') return startOnLinux(pid, files);
  if (pid === process.pid) return Math.round(performance.timeOrigin);
  const told =
    system === 'win32'
      ? Number.parseInt(
          ask('powershell', ['-NoProfile', '-NonInteractive', '-Command', startInPowerShell(pid)]),
          10,
        )
      : Date.parse(ask('ps', ['-o', 'lstart=', '-p', String(pid)]));
  return Number.isFinite(told) ? told : null;
}

function startOnLinux(pid: number, files: Pick<Files, 'readFileSync'>): ProcessStart {
  try {
    const afterName = files.readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)!;
    const [state, ...rest] = afterName.split(' ');
    // A process that was killed may linger until its parent takes note; it writes no more.
    return state === 'Z' || state === 'X' ? 'ended' : (rest[18] ?? null);
  } catch {
    return null;
  }
}

/** A whole number, because a fraction would have the comma of the country. */
const startInPowerShell = (pid: number): string =>
  `[long](Get-Process -Id ${pid}).StartTime.ToUniversalTime().Subtract([datetime]'1970-01-01').TotalMilliseconds`;

function askSystem(program: string, args: readonly string[]): string {
  // Loaded when it is used; an import would be at every start.
  const { spawnSync } = process.getBuiltinModule('node:child_process');
  const { stdout } = spawnSync(program, args, {
    encoding: 'utf8',
    env: { ...process.env, LC_ALL: 'C' },
    stdio: ['ignore', 'pipe', 'ignore'],
    timeout: 5000,
    windowsHide: true,
  });
  return stdout ?? '';
}

/** Whether the process that began `then` is the one that is there `now`. Where nobody says, its number has to do. */
export function isSameStart(now: ProcessStart, then: ProcessStart, sinceBootMs = uptime() * 1000): boolean {
  if (typeof now === 'number' && typeof then === 'number') return Math.abs(now - then) < sameStartMs;
  if (now !== null && then !== null) return now === then;
  const bootMs = Date.now() - sinceBootMs;
  return typeof then !== 'number' || then > bootMs - sameStartMs;
}
