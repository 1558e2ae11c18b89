import { execFileSync } from 'node:child_process';
import * as files from 'node:fs';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import type { Files } from '../../src/tui/files.ts';
import { freePath } from '../../src/tui/files.ts';
import { type BenchForm, formText, isSameForm } from '../../src/tui/form.ts';
import { Journal, RecordUnusable } from '../../src/tui/journal.ts';
import { START_PLACE } from '../../src/tui/state.ts';
import {
  type History,
  historyEdited,
  historyUndone,
  readTrail,
  startHistory,
  trailLine,
  writeTrail,
} from '../../src/tui/trail.ts';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'bench-'));
  path = join(folder, 'bench.json');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** A history of central readings, one edit each. */
function historyOf(count: number): History {
  let history = startHistory(BLANK_FORM, START_PLACE);
  for (let at = 0; at < count; at += 1) history = edited(history, at);
  return history;
}

function edited(history: History, at: number): History {
  const central = [...(history.record.central ?? []), `181°0${at % 10}'`];
  return historyEdited(history, { ...history.record, central }, START_PLACE, `reading ${at}`);
}

const edit = { kind: 'edit', what: 'reading' } as const;

const real: Files = { ...files };

function fault(code: string): Error {
  return Object.assign(new Error(code), { code });
}

/** The real file operations, but the ones named fail. */
function failing(code: string, names: readonly (keyof Files)[], isOn: () => boolean): Files {
  const broken = Object.fromEntries(
    names.map((name) => [
      name,
      (...args: never[]) => {
        if (isOn()) throw fault(code);
        return (real[name] as (...given: never[]) => unknown)(...args);
      },
    ]),
  );
  return { ...files, ...broken } as Files;
}

function formOnDisk(): BenchForm {
  const read = readRecord(readFileSync(path, 'utf8'));
  if (!read.ok) throw new Error('the record on disk is not readable');
  return read.record as BenchForm;
}

describe('the journal', () => {
  it.skipIf(process.platform === 'win32')('keeps the mode of the record, whatever the mask', async () => {
    const journal = new Journal(path);
    await journal.open(BLANK_FORM);
    await journal.prepare();
    journal.save(historyOf(1), edit);
    files.chmodSync(path, 0o664);
    expect(journal.save(historyOf(2), edit)).toMatchObject({ kind: 'saved' });
    expect(files.statSync(path).mode & 0o7777).toBe(0o664);
    journal.close();
  });

  it.skipIf(process.platform === 'win32')(
    'never opens a private record to others, not while it is written',
    async () => {
      const seen: number[] = [];
      const watching = {
        ...files,
        renameSync: (from: string, to: string) => {
          if (to === path) seen.push(files.statSync(from).mode & 0o7777);
          files.renameSync(from, to);
        },
        // The mode is that of the file as it is made.
        chmodSync: (at: string) => {
          throw new Error(`${at} is opened first and closed to others later`);
        },
      } as Files;
      files.writeFileSync(path, formText(historyOf(0).record), { mode: 0o600 });
      const journal = new Journal(path, watching);
      await journal.open(BLANK_FORM);
      await journal.prepare();
      expect(journal.save(historyOf(1), edit)).toMatchObject({ kind: 'saved' });
      expect(seen.at(-1)).toBe(0o600);
      journal.close();
    },
  );

  it('saves where the file system takes no mode', async () => {
    const journal = new Journal(
      path,
      failing('EPERM', ['chmodSync'], () => true),
    );
    await journal.open(BLANK_FORM);
    await journal.prepare();
    journal.save(historyOf(1), edit);
    files.chmodSync(path, 0o664);
    expect(journal.save(historyOf(2), edit)).toEqual({ kind: 'saved', trailProblem: null });
    journal.close();
  });

  it('has a readable record on disk after every save, and leaves no temporary file', async () => {
    const journal = new Journal(path);
    await journal.open(BLANK_FORM);
    await journal.prepare();
    let history = startHistory(BLANK_FORM, START_PLACE);
    for (let at = 0; at < 5; at += 1) {
      history = edited(history, at);
      expect(journal.save(history, edit)).toEqual({ kind: 'saved', trailProblem: null });
      expect(isSameForm(formOnDisk(), history.record)).toBe(true);
    }
    journal.close();
    expect(readdirSync(folder).sort()).toEqual(['bench.json', 'bench.json.trail']);
  });

  it('opens again with its place, undo and redo', async () => {
    const journal = new Journal(path);
    await journal.open(BLANK_FORM);
    await journal.prepare();
    let history = startHistory(BLANK_FORM, START_PLACE);
    for (let at = 0; at < 4; at += 1) {
      history = edited(history, at);
      journal.save(history, { kind: 'edit', what: `reading ${at}` });
    }
    history = historyUndone(history);
    journal.save(history, { kind: 'undo' });
    history = { ...history, place: { stage: 'tube', lamp: 0, tube: 0, row: 2 }, rankingSeen: [0] };
    journal.save(history, { kind: 'go' });
    journal.close();
    const { history: again, notice } = await new Journal(path).open(BLANK_FORM);
    expect(notice).toBeNull();
    expect(again).toEqual(history);
  });

  it('notices a record changed while it was closed, and keeps the old one an undo away', async () => {
    const journal = new Journal(path);
    await journal.open(BLANK_FORM);
    await journal.prepare();
    const history = historyOf(2);
    journal.save(history, edit);
    journal.close();
    writeFileSync(path, formText(FILLED));
    const { history: again, notice } = await new Journal(path).open(BLANK_FORM);
    expect(notice).toContain('changed by another program');
    expect(isSameForm(again.record, FILLED)).toBe(true);
    expect(isSameForm(historyUndone(again).record, history.record)).toBe(true);
  });

  it('notices a record changed while it is open, and overwrites nothing', async () => {
    const journal = new Journal(path);
    await journal.open(BLANK_FORM);
    await journal.prepare();
    journal.save(historyOf(1), edit);
    writeFileSync(path, formText(FILLED));
    expect(journal.look()).toMatchObject({ kind: 'changed-outside' });
    expect(journal.save(historyOf(2), edit)).toMatchObject({ kind: 'changed-outside' });
    expect(readFileSync(path, 'utf8')).toBe(formText(FILLED));
    const kept = journal.keepOutside();
    expect(readFileSync(kept, 'utf8')).toBe(formText(FILLED));
    expect(journal.save(historyOf(2), { kind: 'again' })).toMatchObject({ kind: 'saved' });
    expect(isSameForm(formOnDisk(), historyOf(2).record)).toBe(true);
  });

  it('tells the second bench screen on one record, and recognises a lock left by a crash', async () => {
    writeFileSync(
      `${path}.lock`,
      JSON.stringify({ pid: process.ppid, host: hostname(), started: startOf(process.ppid) }),
    );
    expect((await new Journal(path).open(BLANK_FORM)).heldBy).toContain(`process ${process.ppid}`);
    writeFileSync(
      `${path}.lock`,
      JSON.stringify({ pid: process.ppid, host: hostname(), started: 'long ago' }),
    );
    expect((await new Journal(path).open(BLANK_FORM)).heldBy).toBeNull();
    writeFileSync(`${path}.lock`, 'half a li');
    expect((await new Journal(path).open(BLANK_FORM)).heldBy).toBeNull();
  });

  it('never puts a record on disk that could not be opened again, and says so', async () => {
    const journal = new Journal(path);
    await journal.open(BLANK_FORM);
    await journal.prepare();
    const sound = historyOf(1);
    journal.save(sound, edit);
    const before = readFileSync(path, 'utf8');
    const spoilt: readonly BenchForm[] = [
      { ...sound.record, central: ["181°75'"] },
      { ...sound.record, central: [Number.NaN] },
      { ...sound.record, titel: 'x' } as BenchForm,
      { ...sound.record, unknown: [{ lines: [{ readings: [] }] }] },
    ];
    let history = sound;
    for (const form of spoilt) {
      history = historyEdited(history, form, START_PLACE, 'spoilt');
      const outcome = journal.save(history, edit);
      expect(outcome).toMatchObject({ kind: 'failed' });
      expect(outcome.kind === 'failed' && outcome.problem).toMatch(
        /^Not written, because the file could not be opened again: .*\S\. What was saved last stays as it is\.$/,
      );
      expect(readFileSync(path, 'utf8')).toBe(before);
    }
    expect(journal.moveTo(join(folder, 'other.json'), history)).toMatchObject({ kind: 'failed' });
    expect(existsSync(join(folder, 'other.json'))).toBe(false);
    // What is sound again is written, and the trail still leads to it.
    history = historyEdited(history, historyOf(2).record, START_PLACE, 'mended');
    expect(journal.save(history, edit)).toMatchObject({ kind: 'saved' });
    journal.close();
    rmSync(path);
    const again = await new Journal(path).open(BLANK_FORM);
    expect(isSameForm(again.history.record, historyOf(2).record)).toBe(true);
    expect(again.history.past).toHaveLength(history.past.length);
  });

  it.each(["the record's", "the trail's", "the lock's"])(
    'opens no pipe, socket, device or folder under %s name',
    async (whose) => {
      const name = { "the record's": path, "the trail's": `${path}.trail`, "the lock's": `${path}.lock` }[
        whose
      ]!;
      const things: Readonly<Record<string, () => void>> = {
        'a pipe': () => void execFileSync('mkfifo', [name]),
        'a folder': () => files.mkdirSync(name),
        'a device': () => files.symlinkSync('/dev/zero', name),
      };
      for (const [what, make] of Object.entries(things)) {
        make();
        const there = readdirSync(folder);
        await expect(new Journal(path).open(BLANK_FORM)).rejects.toThrow(`${what}, where a file is needed`);
        await expect(new Journal(path).open(BLANK_FORM)).rejects.toThrow(RecordUnusable);
        expect(readdirSync(folder)).toEqual(there);
        rmSync(name, { recursive: true });
      }
    },
  );

  it('refuses a file that is not UTF-8, or that the system keeps back, and leaves it and no lock', async () => {
    const bytes = Buffer.from(formText({ ...FILLED, title: 'Röhre' }), 'latin1');
    writeFileSync(path, bytes);
    await expect(new Journal(path).open(BLANK_FORM)).rejects.toThrow(/not UTF-8/);
    expect(readFileSync(path)).toEqual(bytes);
    writeFileSync(path, formText(FILLED));
    for (const [code, words] of [
      ['EACCES', 'permission denied'],
      ['ELOOP', 'in a circle'],
      ['EBUSY', 'another program'],
    ] as const) {
      const opened = new Journal(
        path,
        failing(code, ['openSync'], () => true),
      ).open(BLANK_FORM);
      await expect(opened).rejects.toThrow(words);
      await expect(opened).rejects.toThrow(RecordUnusable);
    }
    expect(readdirSync(folder)).toEqual(['bench.json']);
  });

  it('sets aside byte by byte what another program put in its place', async () => {
    const journal = new Journal(path);
    await journal.open(BLANK_FORM);
    await journal.prepare();
    journal.save(historyOf(1), edit);
    const theirs = Buffer.from('{ "title": "R\xf6hre" }', 'latin1');
    writeFileSync(path, theirs);
    expect(journal.save(historyOf(2), edit)).toEqual({ kind: 'changed-outside', theirs: null });
    expect(readFileSync(journal.keepOutside())).toEqual(theirs);
  });

  it('takes the lines of a trail before one that is not UTF-8', async () => {
    const journal = new Journal(path);
    await journal.open(BLANK_FORM);
    await journal.prepare();
    journal.save(historyOf(1), edit);
    journal.close();
    rmSync(path);
    files.appendFileSync(
      `${path}.trail`,
      Buffer.from(trailLine(historyOf(3), edit).replace('reading', 'r\xe9'), 'latin1'),
    );
    files.appendFileSync(`${path}.trail`, trailLine(historyOf(2), edit));
    const { history } = await new Journal(path).open(BLANK_FORM);
    expect(isSameForm(history.record, historyOf(1).record)).toBe(true);
  });

  it('refuses a file that is no record with sentences', async () => {
    writeFileSync(path, '{ "whichgas": 1, "instrumnt": {} }');
    await expect(new Journal(path).open(BLANK_FORM)).rejects.toThrow(RecordUnusable);
  });

  it('never takes a name that exists', async () => {
    writeFileSync(path, '');
    writeFileSync(join(folder, 'bench-2.json'), '');
    expect(freePath(path)).toBe(join(folder, 'bench-3.json'));
    const journal = new Journal(join(folder, 'new.json'));
    await journal.open(BLANK_FORM);
    await journal.prepare();
    expect(journal.moveTo(path, historyOf(1))).toMatchObject({ kind: 'failed' });
    expect(readFileSync(path, 'utf8')).toBe('');
  });
});

function startOf(pid: number): string | null {
  return existsSync(`/proc/${pid}/stat`)
    ? (readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)?.split(' ')[19] ?? null)
    : null;
}

describe('a disk that fails', () => {
  const faults: readonly (readonly [string, readonly (keyof Files)[], string])[] = [
    ['ENOSPC', ['writeSync'], 'the disk is full'],
    ['EACCES', ['openSync'], 'no permission'],
    ['EROFS', ['openSync'], 'read-only'],
    ['EIO', ['fsyncSync'], 'fault'],
    ['ENOENT', ['renameSync'], 'the folder is gone'],
    ['EPERM', ['renameSync'], 'another program, perhaps a virus scanner, keeps it to itself'],
    ['EBUSY', ['renameSync'], 'another program, perhaps a virus scanner, keeps it to itself'],
    ['EBUSY', ['openSync'], 'another program keeps it to itself'],
  ];
  it.each(faults)(
    '%s in %j: says so, keeps the old record, and saves again when it can',
    async (code, names, words) => {
      let isOn = false;
      const journal = new Journal(
        path,
        failing(code, names, () => isOn),
      );
      await journal.open(BLANK_FORM);
      await journal.prepare();
      journal.save(historyOf(1), edit);
      isOn = true;
      const outcome = journal.save(historyOf(2), edit);
      expect(outcome).toMatchObject({ kind: 'failed' });
      expect(outcome.kind === 'failed' && outcome.problem).toContain(words);
      expect(isSameForm(formOnDisk(), historyOf(1).record)).toBe(true);
      isOn = false;
      expect(journal.save(historyOf(3), edit)).toMatchObject({ kind: 'saved' });
      journal.close();
      expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
      expect(isSameForm((await new Journal(path).open(BLANK_FORM)).history.record, historyOf(3).record)).toBe(
        true,
      );
    },
  );

  it.each(['EPERM', 'EACCES', 'EBUSY'])(
    'that refuses a few times to rename (%s), as under a virus scanner, is asked again',
    async (code) => {
      let refused = 0;
      const journal = new Journal(
        path,
        failing(code, ['renameSync'], () => refused++ < 3),
      );
      await journal.open(BLANK_FORM);
      await journal.prepare();
      expect(journal.save(historyOf(1), edit)).toEqual({ kind: 'saved', trailProblem: null });
      expect(refused).toBeGreaterThan(3);
      expect(isSameForm(formOnDisk(), historyOf(1).record)).toBe(true);
      journal.close();
    },
  );

  it('is told on the screen; typing goes on in memory, and another place can be chosen', async () => {
    let isOn = true;
    const journal = new Journal(
      path,
      failing('ENOSPC', ['writeSync'], () => isOn),
    );
    await journal.prepare();
    const bench = openBench(BLANK_FORM, journal);
    bench.type(KEYS.enter, KEYS.enter, KEYS.enter, KEYS.enter, '181 04\r');
    expect(bench.state().keeping).toMatchObject({ kind: 'memory-only' });
    expect(bench.state().notice?.text).toContain('the disk is full');
    bench.type('\x03');
    expect(bench.hasQuit()).toBe(false);
    bench.type(KEYS.escape);
    isOn = false;
    const elsewhere = join(folder, 'elsewhere.json');
    bench.type(act('save-as'), ...Array<string>(60).fill(KEYS.backspace), elsewhere, KEYS.enter);
    expect(bench.state().keeping).toEqual({ kind: 'saved' });
    expect(readFileSync(elsewhere, 'utf8')).toBe(formText(bench.state().history.record));
  });

  it('killed before any single operation, loses at most the edit being saved', async () => {
    for (let last = 0; ; last += 1) {
      rmSync(folder, { recursive: true });
      files.mkdirSync(folder);
      let operations = 0;
      const counted =
        (name: keyof Files) =>
        (...args: never[]) => {
          operations += 1;
          if (operations > last) throw fault('EKILLED');
          return (real[name] as (...given: never[]) => unknown)(...args);
        };
      const names = ['openSync', 'writeSync', 'fsyncSync', 'closeSync', 'renameSync', 'unlinkSync'] as const;
      const killed = { ...files, ...Object.fromEntries(names.map((name) => [name, counted(name)])) } as Files;
      const journal = new Journal(path, killed);
      let saved = 0;
      try {
        await journal.open(BLANK_FORM);
        await journal.prepare();
        for (let count = 1; count <= 3; count += 1) {
          if (journal.save(historyOf(count), edit).kind === 'saved') saved = count;
          if (operations > last) break;
        }
      } catch {
        // Killed while opening: nothing was saved yet.
      }
      const again = new Journal(path);
      await again.prepare();
      const { history: reopened, isBehind } = await again.open(BLANK_FORM);
      if (isBehind) again.save(reopened, { kind: 'again' });
      if (existsSync(path)) expect(isSameForm(formOnDisk(), reopened.record)).toBe(true);
      const present = reopened.record.central?.length ?? 0;
      expect(present).toBeGreaterThanOrEqual(saved);
      expect(present).toBeLessThanOrEqual(3);
      if (operations <= last) break;
    }
  });
});

describe('a trail cut at any byte', () => {
  it('gives a state that was, and never an error', async () => {
    const history = historyUndone(historyOf(6));
    const text = writeTrail(history);
    const states = [
      ...history.past.map(({ record }) => record),
      history.record,
      ...history.future.map(({ record }) => record),
    ];
    for (let bytes = 0; bytes <= text.length; bytes += 1) {
      const read = readTrail(text.slice(0, bytes), (value) => value as BenchForm);
      if (read !== null) expect(states.some((state) => isSameForm(state, read.record))).toBe(true);
    }
    expect(readTrail(text, (value) => value as BenchForm)).toEqual(history);
  });
});
