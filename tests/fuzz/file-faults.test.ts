/** The disk fails at every step of writing a file: one sentence, exit 2, and what was there before is still there. */
import { chmodSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { exampleFile } from '../cli/run-program.ts';
import { endsWell, insideFolder } from './in-process.ts';

/** The step that fails next, and how; null while the disk is sound. */
const disk = vi.hoisted(() => ({ fault: null as { step: string; code: string } | null }));

/** Only the file that is being made fails, and not what is read. */
vi.mock('node:fs', async (original) => {
  const sound = await original<typeof import('node:fs')>();
  let made: number | null = null;
  const failing = (step: string): void => {
    if (disk.fault?.step !== step) return;
    const { code } = disk.fault;
    throw Object.assign(new Error(`${code}: ${step} failed`), { code });
  };
  return {
    ...sound,
    openSync: (path: string, flags: string | number, mode?: number) => {
      if (flags !== 'wx') return sound.openSync(path, flags, mode);
      failing('open');
      made = sound.openSync(path, flags, mode);
      return made;
    },
    writeSync: (file: number, bytes: Buffer, from: number) => {
      // A full disk takes a part of the file before it refuses the rest.
      if (file === made && disk.fault?.step === 'write')
        sound.writeSync(file, bytes, from, Math.floor(bytes.length / 2));
      if (file === made) failing('write');
      return sound.writeSync(file, bytes, from);
    },
    fsyncSync: (file: number) => {
      if (file === made) failing('sync');
      sound.fsyncSync(file);
    },
    closeSync: (file: number) => {
      sound.closeSync(file);
      if (file !== made) return;
      made = null;
      failing('close');
    },
    renameSync: (...args: Parameters<typeof sound.renameSync>) => {
      failing('rename');
      sound.renameSync(...args);
    },
  };
});

afterEach(() => {
  disk.fault = null;
});

const steps = ['open', 'write', 'sync', 'close', 'rename'] as const;
const faults = {
  ENOSPC: 'no space left on the disk',
  EACCES: 'permission denied',
  EROFS: 'the disk is read-only',
  EIO: 'the disk reports an error',
  EBUSY: 'another program keeps it to itself',
} as const;

const heldByAnother =
  'another program, perhaps a virus scanner, keeps it to itself, or it is write-protected';

const files = {
  'bench.json': readFileSync(exampleFile('harbour-lane-bench-4.json')),
  'readings.csv': `tube,reading\nC,229°39'\n`,
};
const writers = [
  { out: 'old.html', words: ['report', 'bench.json'] },
  { out: 'old.json', words: ['import', 'readings.csv', '--least-count', "1'", '--force'] },
] as const;

describe.each(writers)('$words.0 --out $out', ({ out, words }) => {
  test.each(
    steps.flatMap((step) => Object.entries(faults).map(([code, reason]) => ({ step, code, reason }))),
  )('when $step fails with $code', async ({ step, code, reason }) => {
    await insideFolder({ ...files, [out]: 'what was there before' }, async () => {
      disk.fault = { step, code };
      const ended = await endsWell([...words, '--out', out]);
      const isHeld = step === 'rename' && (code === 'EACCES' || code === 'EBUSY');
      const says = isHeld ? heldByAnother : `cannot be written: ${reason}`;
      expect(ended).toEqual({ code: 2, out: '', err: `whichgas: ${out}: ${says}\n` });
      expect(readFileSync(out, 'utf8')).toBe('what was there before');
      expect(readdirSync('.').sort()).toEqual([...Object.keys(files), out].sort());
    });
  });

  const asRoot = process.getuid?.() === 0;
  test.each([
    { where: `missing/${out}`, says: 'there is no such folder' },
    { where: `bench.json/${out}`, says: 'there is no such folder' },
    { where: `folder${out.slice(3)}`, says: 'a folder; give the name of a file' },
    { where: `circle${out.slice(3)}`, says: 'the links go round in a circle' },
    { where: `${'x'.repeat(300)}${out.slice(3)}`, says: 'the name is too long' },
    { where: `nul\0${out}`, says: 'no file can have this name' },
    ...(asRoot ? [] : [{ where: `locked/${out}`, says: 'permission denied' }]),
  ])('to $where', async ({ where, says }) => {
    await insideFolder(files, async () => {
      mkdirSync(`folder${out.slice(3)}`);
      mkdirSync('locked');
      chmodSync('locked', 0o555);
      symlinkSync(`circle${out.slice(3)}`, `circle${out.slice(3)}`);
      const before = readdirSync('.', { recursive: true });
      const ended = await endsWell([...words, '--out', where]);
      expect(ended.code).toBe(2);
      expect(ended.err).toContain(says);
      expect(ended.err.trim().split('\n')).toHaveLength(1);
      expect(readdirSync('.', { recursive: true })).toEqual(before);
    });
  });
});

describe('a record from another system', () => {
  const record = readFileSync(exampleFile('harbour-lane-bench-2.json'), 'utf8');

  test.each([
    ['with CRLF', record.replaceAll('\n', '\r\n')],
    ['with a byte order mark', `\ufeff${record}`],
    ['with both', `\ufeff${record.replaceAll('\n', '\r\n')}`],
  ])('%s says the same', async (_, text) => {
    await insideFolder({ 'a.json': record }, async () => {
      const plain = await endsWell(['identify', 'a.json', '--json']);
      expect(plain.code).toBe(0);
      writeFileSync('a.json', text);
      expect(await endsWell(['identify', 'a.json', '--json'])).toEqual(plain);
    });
  });

  test('may end in .JSON, alone, in a folder, and in the key', async () => {
    await insideFolder(
      { 'BENCH.JSON': record, 'KEY.CSV': '\ufeffrecord;expected\r\nBENCH.JSON;neon\r\n' },
      async () => {
        const alone = await endsWell(['BENCH.JSON']);
        expect(alone).toMatchObject({ code: 0, err: '' });
        expect(alone.out).toMatch(/neon/);
        expect((await endsWell(['identify', '.', '--json'])).out).toMatch(/^\{"file":"BENCH.JSON"/);
        const checked = await endsWell(['verify', '.', '--key', 'KEY.CSV', '--json']);
        expect(checked).toMatchObject({ code: 0, err: '' });
        expect(checked.out).toMatch(/"outcome":"supported"/);
        expect(await endsWell(['report', 'BENCH.JSON', '--out', 'REPORT.HTML'])).toMatchObject({ code: 0 });
      },
    );
  });
});
