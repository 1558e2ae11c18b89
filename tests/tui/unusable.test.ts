/** On a terminal an unusable record ends as on the command line: its sentence, exit 2, and no lock. */
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { removeUnfinished } from '../../src/tui/files.ts';
import { runInProcess } from '../fuzz/in-process.ts';
import { hasTmux, Terminal } from './terminal.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'unusable-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const isRoot = process.getuid?.() === 0;
const ESCAPES = 'a\u001b]0;owned\u0007\u001b[31m\u202eb';

const unusable: readonly { what: string; name: string; make: (path: string) => void }[] = [
  { what: 'a folder', name: 'bench.json', make: (path) => mkdirSync(path) },
  { what: 'a link to itself', name: 'bench.json', make: (path) => symlinkSync('bench.json', path) },
  { what: 'no JSON', name: 'bench.json', make: (path) => writeFileSync(path, 'nonsense') },
  { what: 'no record', name: 'bench.json', make: (path) => writeFileSync(path, '{"whichgas":1}') },
  {
    what: 'a name and keys that act on terminals',
    name: `${ESCAPES}.json`,
    make: (path) => writeFileSync(path, JSON.stringify({ whichgas: 1, [ESCAPES]: ESCAPES })),
  },
  ...(isRoot
    ? []
    : [
        {
          what: 'a file of another',
          name: 'bench.json',
          make: (path: string) => {
            writeFileSync(path, '{}');
            chmodSync(path, 0);
          },
        },
      ]),
];

describe.skipIf(!hasTmux)('on a terminal', () => {
  it.each(unusable)('$what', async ({ name, make }) => {
    const path = join(folder, name);
    make(path);
    const before = readdirSync(folder);
    const said = await runInProcess(['convert', path, '229 40']);
    expect(said).toMatchObject({ code: 2, out: '' });
    const terminal = new Terminal({ folder, columns: 250, args: [path] });
    try {
      expect(await terminal.ended()).toBe('2');
      const written = await terminal.writtenUpTo('\n');
      expect(written.replaceAll('\r', '').replaceAll(/Pane is dead.*/g, '')).toBe(said.err);
    } finally {
      await terminal.close();
    }
    expect(readdirSync(folder)).toEqual(before);
  });
});

describe('what a killed program left behind', () => {
  it('is cleared away, and nothing else', () => {
    const left = ['.bench.json.0123abcd.part', '.bench.json.trail.89abcdef.part'];
    const others = [
      'bench.json',
      '.other.json.0123abcd.part',
      '.bench.json.notes.part',
      'bench.json.0123abcd.part',
      '.bench.json.0123abcd.part.txt',
    ];
    for (const name of [...left, ...others]) writeFileSync(join(folder, name), name);
    removeUnfinished(join(folder, 'bench.json'));
    expect(readdirSync(folder).sort()).toEqual([...others].sort());
  });

  it('is in nobody’s way where the folder is gone', () => {
    expect(() => removeUnfinished(join(folder, 'gone', 'bench.json'))).not.toThrow();
  });
});
