/** The report written from the screen: the one of the command, and nothing replaced unasked. */
import * as nodeFiles from 'node:fs';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { today } from '../../src/cli/today.ts';
import { computation } from '../../src/tui/computation.ts';
import { type BenchForm, formText } from '../../src/tui/form.ts';
import { writeReport } from '../../src/tui/report-file.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { insideFolder, runInProcess } from '../fuzz/in-process.ts';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { enter } = KEYS;
const said = (bench: ReturnType<typeof openBench>) => linearSentences(bench.state(), false).join('\n');
type Bench = ReturnType<typeof openBench>;

const benchWithDisk = (form: BenchForm): Bench =>
  openBench(form, undefined, undefined, {
    report: (wanted, by) => writeReport(wanted, by, '2026-02-03'),
  });

/** Waits for what the disk answers. */
async function answered(bench: Bench): Promise<Bench> {
  await vi.waitFor(() => expect(bench.state().notice?.text).not.toBe('The report is being written.'), 10_000);
  return bench;
}

/** Chooses the action and types a name in the place of the one that is offered. */
async function reportTo(bench: Bench, path: string): Promise<Bench> {
  bench.type(act('report'), '\x15', path, enter);
  return answered(bench);
}

describe('the report', () => {
  it.each(['.html', '.md', '.csv'])('is byte for byte that of the command: %s', async (ending) => {
    await insideFolder({ 'bench.json': formText(FILLED) }, async () => {
      const form = { ...FILLED, known: [...FILLED.known, { lines: [] }] } as BenchForm;
      const wanted = { form, recordName: 'bench.json', path: `screen${ending}`, mayReplace: false };
      const outcome = await writeReport(wanted, computation, today());
      expect(outcome).toEqual({ kind: 'written', path: resolve(`screen${ending}`) });
      const { code } = await runInProcess(['report', 'bench.json', '--out', `command${ending}`]);
      expect(code).toBe(0);
      expect(readFileSync(`screen${ending}`, 'utf8')).toBe(readFileSync(`command${ending}`, 'utf8'));
    });
  });

  it('is offered on every stage, beside the record, and says where it is', async () => {
    await insideFolder({}, async () => {
      const bench = benchWithDisk(FILLED);
      bench.type('/report');
      expect(said(bench)).toContain('write the report');
      bench.type(enter);
      expect(bench.state().entry).toMatchObject({ purpose: { kind: 'report' }, text: 'bench-report.html' });
      bench.type(enter);
      await answered(bench);
      expect(said(bench)).toContain(`The report is in ${resolve('bench-report.html')}`);
      expect(readFileSync('bench-report.html', 'utf8')).toMatch(/^<!doctype html>/i);
    });
  });

  it('replaces a file only when it is said so, and a bench record never', async () => {
    await insideFolder({ 'notes.md': 'my notes', 'other.json': '', 'r.md': formText(FILLED) }, async () => {
      const bench = await reportTo(benchWithDisk(FILLED), 'notes.md');
      expect(said(bench)).toContain('notes.md is there already.');
      expect(said(bench)).toContain('Enter writes over it, Esc leaves it as it is.');
      bench.type(KEYS.escape, KEYS.escape);
      expect(readFileSync('notes.md', 'utf8')).toBe('my notes');
      await reportTo(bench, 'notes.md');
      bench.type(enter);
      await answered(bench);
      expect(readFileSync('notes.md', 'utf8')).toContain('neon');
      await reportTo(bench, 'r.md');
      expect(bench.state().entry.refusal).toMatch(/r\.md cannot be written: this file holds a bench record/);
      // As another program on Windows writes it: marked UTF-16.
      writeFileSync('wide.md', Buffer.from(`\uFEFF${formText(FILLED)}`, 'utf16le'));
      bench.type(KEYS.escape);
      await reportTo(bench, 'wide.md');
      expect(bench.state().entry.refusal).toMatch(
        /wide\.md cannot be written: this file holds a bench record/,
      );
      bench.type(KEYS.escape);
      await reportTo(bench, 'other.json');
      expect(bench.state().entry.refusal).toMatch(/ends in \.html, \.md or \.csv/);
    });
  });

  it('says in one sentence what the disk refuses, and keeps the name for another try', async () => {
    await insideFolder({}, async () => {
      mkdirSync('folder.html');
      const bench = await reportTo(benchWithDisk(FILLED), 'nowhere/bench.html');
      expect(bench.state().entry).toMatchObject({
        text: 'nowhere/bench.html',
        refusal: 'bench.html cannot be written: the folder is gone.',
      });
      bench.type(KEYS.escape);
      await reportTo(bench, 'folder.html');
      expect(bench.state().entry.refusal).toMatch(/^folder\.html cannot be written: .*folder/);
    });
  });

  it('leaves nothing half written on a full disk, nor the file that was there harmed', async () => {
    await insideFolder({ 'old.html': 'yesterday' }, async () => {
      const full = {
        ...nodeFiles,
        writeSync: () => {
          throw Object.assign(new Error('full'), { code: 'ENOSPC' });
        },
      } as unknown as Parameters<typeof writeReport>[3];
      for (const path of ['old.html', 'new.html']) {
        const wanted = { form: FILLED, recordName: 'bench.json', path, mayReplace: true };
        expect(await writeReport(wanted, computation, today(), full)).toEqual({
          kind: 'refused',
          problem: `${path} cannot be written: the disk is full.`,
        });
      }
      expect(readFileSync('old.html', 'utf8')).toBe('yesterday');
      expect(nodeFiles.readdirSync('.')).toEqual(['old.html']);
    });
  });

  it('keeps back what an exercise keeps back', async () => {
    await insideFolder({}, async () => {
      const bench = await reportTo(benchWithDisk({ ...FILLED, ranking: 'after-answer' }), 'x.md');
      expect(said(bench)).toContain('The report is in');
      expect(readFileSync('x.md', 'utf8')).not.toMatch(/neon|argon/);
    });
  });

  it('needs the central image, and says so', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(act('report'), enter);
    expect(bench.state().entry.refusal).toMatch(/central image first/);
    expect(existsSync('bench-report.html')).toBe(false);
  });

  it('takes nothing away that is typed while it is written', async () => {
    await insideFolder({ 'a.html': 'mine' }, async () => {
      const bench = benchWithDisk(FILLED);
      bench.type(KEYS.tab, KEYS.tab, act('report'), '\x15', 'a.html', enter, '229 4');
      await vi.waitFor(() => expect(bench.state().notice?.text).toMatch(/a\.html is there already/), 10_000);
      expect(bench.state().entry.text).toBe('229 4');
      writeFileSync('a.html', 'mine');
    });
  });
});
