import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readTextFile } from '../../src/cli/files.ts';
import { recordFiles } from '../../src/cli/record-files.ts';
import { UserError } from '../../src/cli/user-error.ts';
import { writeTextFile } from '../../src/cli/write-file.ts';
import { whichgas, withFiles } from './run-program.ts';

const asRoot = process.getuid?.() === 0;

describe('reading a file', () => {
  it('takes UTF-8 with or without a byte order mark', () =>
    withFiles({ 'a.json': '\ufeff{"title":"Röhre"}' }, async (folder) => {
      expect(await readTextFile(join(folder, 'a.json'))).toBe('{"title":"Röhre"}');
    }));

  it('takes UTF-16 with its byte order mark, as older shells of Windows write with >', () => {
    const text = '{"title":"Röhre 228°52\'"}';
    const littleEndian = Buffer.from(`\ufeff${text}`, 'utf16le');
    const bigEndian = Buffer.from(littleEndian).swap16();
    return withFiles({ 'little.json': littleEndian, 'big.json': bigEndian }, async (folder) => {
      for (const name of ['little.json', 'big.json']) {
        expect(await readTextFile(join(folder, name))).toBe(text);
      }
    });
  });

  it.each(['cp437', 'latin1'])('says so where such a shell has spoilt the degree signs (%s)', (codePage) => {
    const bytes = Buffer.from("228°52'");
    const text = codePage === 'latin1' ? bytes.toString('latin1') : "228┬░52'";
    return withFiles({ 'a.json': Buffer.from(`\ufeff${text}`, 'utf16le') }, async (folder) => {
      await expect(readTextFile(join(folder, 'a.json'))).rejects.toThrow(/has made "(┬░|Â°)" of every °/);
    });
  });

  it('says so where the pipe of such a shell has lost them', () => {
    for (const marks of ['?', '??']) {
      const { code, err } = whichgas(['identify', '-'], { stdin: `{"central":["181${marks}04.5'"]}` });
      expect(code).toBe(2);
      expect(err).toBe(
        `whichgas: standard input: "181${marks}04.5'": the shell has made "?" of ° on the way; name the file instead of "-"\n`,
      );
    }
  });

  it.each([
    ['a missing file', 'none.json', /there is no such file/],
    ['a folder', '.', /a folder, where a file is needed/],
    ['a name that cannot be', 'x'.repeat(5000), /name is too long/],
    ['a name with a NUL', 'a\0b', /cannot be read/],
    ['other encodings', 'latin1.json', /not UTF-8/],
    ['half a letter of UTF-16', 'cut.json', /damaged UTF-16/],
    ['more than 16 MiB', 'big.json', /larger than 16 MiB/],
  ])('refuses %s with one sentence', (_what, name, sentence) =>
    withFiles(
      {
        'latin1.json': Uint8Array.from([0x22, 0xe4, 0x22]),
        'cut.json': Uint8Array.from([0xff, 0xfe, 0x22, 0x00, 0x22]),
        'big.json': new Uint8Array(16 * 1024 * 1024 + 1),
      },
      async (folder) => {
        const reading = readTextFile(join(folder, name));
        await expect(reading).rejects.toThrow(UserError);
        await expect(reading).rejects.toThrow(sentence);
      },
    ),
  );

  it('refuses pipes and devices without opening them', () =>
    withFiles({}, async (folder) => {
      execFileSync('mkfifo', [join(folder, 'pipe.json')]);
      await expect(readTextFile(join(folder, 'pipe.json'))).rejects.toThrow(/a pipe, where a file is needed/);
      await expect(readTextFile('/dev/zero')).rejects.toThrow(/a device, where a file is needed/);
      for (const there of ['pipe.json', '/dev/zero']) {
        const writing = writeTextFile(resolve(folder, there), 'x', 'any-file');
        await expect(writing).rejects.toThrow(/a (pipe|device); give the name of a file/);
      }
    }));

  it('takes a file that says it is empty and grows', () =>
    expect(readTextFile('/proc/self/status')).resolves.toMatch(/^Name:/));

  it.skipIf(asRoot)('refuses what may not be read', () =>
    withFiles({ 'a.json': '{}' }, async (folder) => {
      chmodSync(join(folder, 'a.json'), 0);
      await expect(readTextFile(join(folder, 'a.json'))).rejects.toThrow(/permission denied/);
    }),
  );
});

describe('writing a file', () => {
  it('leaves nothing but the file, new or replaced', () =>
    withFiles({ 'out.md': 'old' }, async (folder) => {
      await writeTextFile(join(folder, 'out.md'), 'new', 'any-file');
      await writeTextFile(join(folder, 'other.md'), 'new too', 'nothing');
      expect(readdirSync(folder).sort()).toEqual(['other.md', 'out.md']);
      expect(readFileSync(join(folder, 'out.md'), 'utf8')).toBe('new');
    }));

  it('writes through a link to the file it means', () =>
    withFiles({ 'real.md': 'old' }, async (folder) => {
      symlinkSync('real.md', join(folder, 'link.md'));
      await writeTextFile(join(folder, 'link.md'), 'new', 'any-file');
      expect(readFileSync(join(folder, 'real.md'), 'utf8')).toBe('new');
    }));

  it.each([
    ['a folder', 'sub', /a folder; give the name of a file/],
    ['in a folder that is missing', 'none/out.md', /cannot be written: there is no such folder/],
  ])('refuses %s', (_what, name, sentence) =>
    withFiles({}, async (folder) => {
      mkdirSync(join(folder, 'sub'));
      await expect(writeTextFile(join(folder, name), 'x', 'any-file')).rejects.toThrow(sentence);
      expect(readdirSync(folder)).toEqual(['sub']);
      expect(existsSync(join(folder, 'none'))).toBe(false);
    }),
  );
});

describe('a folder of records', () => {
  it('is its .json files in the order of their numbers, folders inside left alone', () =>
    withFiles({ 'b10.json': '', 'b9.JSON': '', 'key.csv': '' }, async (folder) => {
      mkdirSync(join(folder, 'more'));
      writeFileSync(join(folder, 'more', 'c.json'), '');
      expect(await recordFiles(folder)).toEqual([join(folder, 'b9.JSON'), join(folder, 'b10.json')]);
      expect(await recordFiles('-')).toEqual(['-']);
    }));
});

describe('a pattern that no shell has expanded', () => {
  it('is the records that match, in the order of their numbers', () =>
    withFiles(
      { 'b10.json': '', 'b9.JSON': '', 'a1.json': '', 'b.csv': '', 'c[1].json': '' },
      async (folder) => {
        const found = async (pattern: string) =>
          (await recordFiles(join(folder, pattern))).map((file) => file.slice(folder.length + 1));
        expect(await found('*.json')).toEqual(['a1.json', 'b9.JSON', 'b10.json', 'c[1].json']);
        expect(await found('b*')).toEqual(['b9.JSON', 'b10.json']);
        expect(await found('?1.json')).toEqual(['a1.json']);
        expect(await found('c[1]*')).toEqual(['c[1].json']);
        await expect(found('x*.json')).rejects.toThrow(/no record has such a name/);
        await expect(recordFiles(join(folder, 'none', '*.json'))).rejects.toThrow(/there is no such file/);
      },
    ));

  it('is a file of that name where there is one', () =>
    withFiles({ '*.json': '', 'a.json': '' }, async (folder) => {
      expect(await recordFiles(join(folder, '*.json'))).toEqual([join(folder, '*.json')]);
    }));
});

describe('what may be replaced', () => {
  it('is no bench record, sound or damaged, under whatever name', () =>
    withFiles(
      {
        'sound.md': '\ufeff{ "whichgas": 1 }',
        'damaged.md': '{\n  "whichgas": 1, "title": "',
        'notes.md': '# whichgas\n',
        'binary.md': Uint8Array.from([0xff, 0xfe, 0x00]),
      },
      async (folder) => {
        symlinkSync('sound.md', join(folder, 'link.md'));
        for (const name of ['sound.md', 'damaged.md', 'link.md']) {
          const write = writeTextFile(join(folder, name), 'report', 'no-record');
          await expect(write).rejects.toThrow(/holds a bench record/);
        }
        for (const name of ['notes.md', 'binary.md'])
          await writeTextFile(join(folder, name), 'report', 'no-record');
        expect(readFileSync(join(folder, 'notes.md'), 'utf8')).toBe('report');
        expect(readFileSync(join(folder, 'sound.md'), 'utf8')).toContain('whichgas');
        expect(readdirSync(folder)).toHaveLength(5);
      },
    ));

  it.skipIf(process.platform === 'win32')('is no pipe', () =>
    withFiles({}, async (folder) => {
      execFileSync('mkfifo', [join(folder, 'pipe.md')]);
      const write = writeTextFile(join(folder, 'pipe.md'), 'report', 'no-record');
      await expect(write).rejects.toThrow(/a pipe; give/);
    }),
  );

  it.skipIf(process.platform === 'win32').each([0o600, 0o640, 0o664, 0o444])('keeps its mode %o', (mode) =>
    withFiles({ 'r.md': 'old' }, async (folder) => {
      chmodSync(join(folder, 'r.md'), mode);
      await writeTextFile(join(folder, 'r.md'), 'new', 'no-record');
      expect(statSync(join(folder, 'r.md')).mode & 0o7777).toBe(mode);
      expect(readFileSync(join(folder, 'r.md'), 'utf8')).toBe('new');
    }),
  );
});
