import { spawnSync } from 'node:child_process';
import * as files from 'node:fs';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir, uptime } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { RecordLock } from '../../src/tui/lock.ts';
import { isSameStart, startOf } from '../../src/tui/process-start.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'whichgas-lock-'));
  path = join(folder, 'bench.json.lock');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const holder = (of: object): string => JSON.stringify({ host: hostname(), started: null, ...of });
const taken = (lock: string): string | null => {
  writeFileSync(path, lock);
  return new RecordLock(files, path).take();
};

describe('the lock beside a record', () => {
  it('names a program that runs, and one on another computer', () => {
    const started = startOf(process.ppid, files);
    expect(taken(holder({ pid: process.ppid, started }))).toContain(`process ${process.ppid}`);
    expect(taken(holder({ pid: 1, host: 'another-computer' }))).toBe('a bench screen on another-computer');
  });

  it.each([
    ['of a program that has ended', () => holder({ pid: spawnSync(process.execPath, ['-e', '0']).pid })],
    [
      'of an earlier program with the number of one that runs',
      () => holder({ pid: process.ppid, started: '1' }),
    ],
    ['that is older than the last start of the computer', () => holder({ pid: process.ppid, started: 1 })],
    ['written by half', () => holder({ pid: process.ppid }).slice(0, 20)],
    ['that names nobody', () => 'null'],
    ['that names no computer', () => JSON.stringify({ pid: process.ppid })],
  ])('is taken from what is there no longer: a lock %s', (_what, lock) => {
    expect(taken(lock())).toBeNull();
    expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({ pid: process.pid });
  });
});

describe('when a process began', () => {
  const nobody = () => '';
  const startHere = Math.round(performance.timeOrigin);

  it('is known of oneself without asking', () => {
    for (const system of ['win32', 'darwin'] as const)
      expect(startOf(process.pid, files, system, () => expect.unreachable())).toBe(startHere);
  });

  it('is asked of the system, and unknown where that does not say', () => {
    const asked: string[] = [];
    const telling = (answer: string) => (program: string, words: readonly string[]) => {
      asked.push([program, ...words].join(' '));
      return answer;
    };
    expect(startOf(4711, files, 'win32', telling('1764150000123\r\n'))).toBe(1764150000123);
    expect(startOf(4711, files, 'darwin', telling('Wed Nov 26 09:40:00 2025\n'))).toBe(
      new Date(2025, 10, 26, 9, 40).getTime(),
    );
    for (const question of asked) expect(question).toContain('4711');
    for (const system of ['win32', 'darwin'] as const)
      expect(startOf(4711, files, system, nobody)).toBeNull();
  });

  it.skipIf(spawnSync('ps', ['--version']).status !== 0)(
    'is told by ps as the process itself tells it',
    () => {
      // Asked as macOS is, of a process that tells its own.
      const child = spawnSync(
        process.execPath,
        [
          '-e',
          "console.log(performance.timeOrigin, require('child_process').execFileSync('ps', ['-o', 'lstart=', '-p', process.pid], { env: { ...process.env, LC_ALL: 'C' } }) + '')",
        ],
        { encoding: 'utf8' },
      ).stdout;
      const [, own, told] = /^(\S+) (.*)/.exec(child)!;
      const asMac = startOf(4711, files, 'darwin', () => told!);
      expect(isSameStart(asMac, Number(own))).toBe(true);
      expect(startOf(process.ppid, files, 'darwin')).toBeLessThanOrEqual(startHere + 1000);
    },
  );

  it('tells a program from a later one with its number', () => {
    expect(isSameStart(startHere + 9_000, startHere)).toBe(true);
    expect(isSameStart(startHere + 11_000, startHere)).toBe(false);
    expect(isSameStart('123', '123')).toBe(true);
    expect(isSameStart('124', '123')).toBe(false);
    expect(isSameStart('ended', '123')).toBe(false);
  });

  it('unknown, leaves the number to decide, and the last start of the computer', () => {
    const sinceBootMs = uptime() * 1000;
    expect(isSameStart(null, null)).toBe(true);
    expect(isSameStart(null, '123')).toBe(true);
    expect(isSameStart(null, Date.now() - sinceBootMs + 60_000, sinceBootMs)).toBe(true);
    expect(isSameStart(null, Date.now() - sinceBootMs - 60_000, sinceBootMs)).toBe(false);
  });
});
