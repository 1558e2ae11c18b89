/** What is wrong with one record stays with it, even where it makes the program fail. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { insideFolder, runInProcess } from '../fuzz/in-process.ts';
import { exampleFile, jsonLines, whichgas, withFiles } from './run-program.ts';

vi.mock('../../src/analysis/analyse.ts', async (original) => {
  const sound = await original<typeof import('../../src/analysis/analyse.ts')>();
  return {
    ...sound,
    analyseBench: (...args: Parameters<typeof sound.analyseBench>) => {
      if (args[0].title === 'poison') throw new RangeError('Invalid array length\n\x1b[31m');
      return sound.analyseBench(...args);
    },
  };
});

afterEach(() => vi.unstubAllEnvs());

const sound = readFileSync(exampleFile('harbour-lane-bench-2.json'), 'utf8');
const poison = JSON.stringify({ ...(JSON.parse(sound) as object), title: 'poison' });
const files = { 'a.json': sound, 'b.json': poison, 'c.json': '{', 'd.json': sound };

describe.each([
  { words: ['identify', '--json'], each: /^\{"file":"[ad]\.json"/ },
  { words: ['verify', '--expect', 'neon', '--json'], each: /^\{"file":"[ad]\.json"/ },
  { words: ['verify', '--expect', 'neon', '--csv'], each: /^([ad]\.json|file),/ },
  { words: ['calibrate', '--json'], each: /^\{"file":"[ad]\.json"/ },
])('$words of a class with a record that makes the program fail', ({ words, each }) => {
  it.each([
    ['a folder', ['.']],
    ['files', ['a.json', 'b.json', 'c.json', 'd.json']],
    ['a pattern that no shell has expanded', ['*.json']],
  ])('does the rest of %s and ends with 3', (_what, records) =>
    insideFolder(files, async () => {
      const { code, out, err } = await runInProcess([...words, ...records]);
      expect(code).toBe(3);
      const lines = out.trimEnd().split('\n');
      expect(lines.filter((line) => /[ad]\.json/.test(line))).toHaveLength(2);
      for (const line of lines) expect(line).toMatch(each);
      const faults = err.split('\n').filter((line) => line.includes('fault of the program'));
      expect(faults).toEqual([
        'whichgas: b.json: a fault of the program, not yours: Invalid array length  (WHICHGAS_DEBUG=1 shows where)',
      ]);
      expect(err).toMatch(/^whichgas: c\.json: /m);
    }),
  );
});

describe.skipIf(process.platform === 'win32')('a folder with more in it than records', () => {
  it.each([
    ['identify', []],
    ['verify', ['--expect', 'neon']],
    ['calibrate', []],
  ])('is done by %s but for what is no file', (command, options) =>
    withFiles({ 'a.json': sound, 'z.json': sound }, (cwd) => {
      execFileSync('mkfifo', [join(cwd, 'pipe.json')]);
      mkdirSync(join(cwd, 'folder.json'));
      symlinkSync('loop.json', join(cwd, 'loop.json'));
      symlinkSync('none', join(cwd, 'nowhere.json'));
      symlinkSync('/dev/zero', join(cwd, 'zero.json'));
      const ended = whichgas([command, '.', ...options, '--json'], { cwd });
      expect(ended.code).toBe(2);
      expect(jsonLines(ended)).toMatchObject([{ file: 'a.json' }, { file: 'z.json' }]);
      expect(ended.err.trimEnd().split('\n')).toEqual([
        'whichgas: folder.json: a folder, where a file is needed',
        'whichgas: loop.json: cannot be read: the links go round in a circle',
        'whichgas: nowhere.json: cannot be read: there is no such file',
        'whichgas: pipe.json: a pipe, where a file is needed',
        'whichgas: zero.json: a device, where a file is needed',
      ]);
    }),
  );

  it.each([
    ['--key', /a pipe, where a file is needed/, ['verify', 'a.json', '--key', 'pipe']],
    ['--calibration', /a pipe, where/, ['identify', 'a.json', '--calibration', 'pipe']],
    ['compare', /a pipe, where/, ['compare', 'a.json', 'pipe']],
    ['a table of readings', /a pipe, where/, ['import', 'pipe', '--least-count', "1'"]],
    ['a folder for a table', /a folder, where/, ['import', '.', '--least-count', "1'"]],
    ['a folder for a key', /a folder, where/, ['verify', 'a.json', '--key', '.']],
    ['a report into a pipe', /a pipe; give/, ['report', 'a.json', '--out', 'pipe.md']],
    ['a page into a folder', /a folder; give/, ['verify', 'a.json', '--expect', 'neon', '--out', 'sub.html']],
  ])('is refused for %s', (_what, sentence, words) =>
    withFiles({ 'a.json': sound }, (cwd) => {
      for (const name of ['pipe', 'pipe.md']) execFileSync('mkfifo', [join(cwd, name)]);
      mkdirSync(join(cwd, 'sub.html'));
      const { code, err } = whichgas(words, { cwd });
      expect(code).toBe(2);
      expect(err).toMatch(sentence);
      expect(err).not.toMatch(/fault of the program/);
    }),
  );
});

describe('a refusal of the system that nobody has put into words', () => {
  it('is no fault of the program', async () => {
    vi.resetModules();
    const { reportFailure } = await import('../../src/cli/fault.ts');
    const said: string[] = [];
    const spy = vi.spyOn(process.stderr, 'write').mockImplementation((text) => said.push(String(text)) > 0);
    try {
      for (const code of ['EISDIR', 'ELOOP', 'EACCES', 'EBUSY', 'EPERM', 'ENOSPC']) {
        const refusal = Object.assign(new Error(code), { code, syscall: 'open', path: 'bench.json' });
        expect(reportFailure(refusal)).toBe(2);
        expect(reportFailure(Object.assign(new Error(code), { code }))).toBe(3);
      }
    } finally {
      spy.mockRestore();
    }
    expect(said[0]).toBe('whichgas: bench.json: cannot be used: a folder, where a file is needed\n');
  });
});
