/** Whatever writes a record, and whatever reads one: what is written is read again as it was, or is not written. */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { loadBench } from '../../src/cli/load-bench.ts';
import { most } from '../../src/record/limits.ts';
import { type RecordResult, readRecord } from '../../src/record/read-record.ts';
import { readableText } from '../../src/record/readable-text.ts';
import type { BenchRecord } from '../../src/record/schema.ts';
import { type BenchForm, BLANK_FORM, formOf, isSameForm } from '../../src/tui/form.ts';
import { Journal } from '../../src/tui/journal.ts';
import { START_PLACE } from '../../src/tui/state.ts';
import { historyEdited, startHistory } from '../../src/tui/trail.ts';
import type { Budget } from './budget.ts';
import { holes, textOf } from './hostile-text.ts';
import { endsWell, insideFolder } from './in-process.ts';
import { anyRecord } from './random-record.ts';

const file = 'bench.json';
const edit = { kind: 'edit', what: 'an edit' } as const;

/** The record in the file as each reader has it. */
async function expectRead(read: RecordResult & { ok: true }): Promise<void> {
  const again = readRecord(readFileSync(file, 'utf8'));
  expect(again).toEqual(read);
  const loaded = await loadBench(file).catch(() => null);
  // Lines without a central image are for the screen only.
  if (loaded !== null)
    expect([loaded.record, loaded.bench, loaded.warnings]).toEqual([read.record, read.bench, read.warnings]);
  expect(isSameForm(await opened(), formOf(read.record))).toBe(true);
}

async function opened(): Promise<BenchForm> {
  const journal = new Journal(file);
  const { history } = await journal.open(BLANK_FORM);
  journal.close();
  return history.record;
}

/** The bench screen saves a record after a sound one. */
async function checkScreen(record: BenchRecord, read: RecordResult): Promise<void> {
  for (const name of [file, `${file}.trail`, 'elsewhere.json', 'elsewhere.json.trail'])
    rmSync(name, { force: true });
  const journal = new Journal(file);
  await journal.open(BLANK_FORM);
  await journal.prepare();
  const start = startHistory(BLANK_FORM, START_PLACE);
  expect(journal.save(start, { kind: 'again' })).toMatchObject({ kind: 'saved' });
  const before = readFileSync(file, 'utf8');
  const history = historyEdited(start, formOf(record), START_PLACE, 'an edit');
  const outcome = journal.save(history, edit);
  const moved = journal.moveTo('elsewhere.json', history);
  journal.close();
  if (!read.ok) {
    expect([outcome.kind, moved.kind]).toEqual(['failed', 'failed']);
    if (outcome.kind === 'failed') expectSentence(outcome.problem);
    expect(readFileSync(file, 'utf8')).toBe(before);
    expect(existsSync('elsewhere.json')).toBe(false);
    return;
  }
  expect([outcome, moved]).toEqual(Array(2).fill({ kind: 'saved', trailProblem: null }));
  expect(isSameForm(await opened(), history.record)).toBe(true);
  expect(readFileSync('elsewhere.json', 'utf8')).toBe(readFileSync(file, 'utf8'));
  rmSync(file);
  expect(isSameForm(await opened(), history.record)).toBe(true);
}

function expectSentence(text: string): void {
  expect(text.length).toBeLessThan(600);
  expect(text).not.toMatch(holes);
  expect(text).not.toMatch(/\p{Cc}/u);
}

async function checkRecord(record: BenchRecord): Promise<void> {
  const read = readRecord(JSON.stringify(record));
  const written = readableText(record);
  expect(written.ok).toBe(read.ok);
  if (!read.ok) {
    expect(read.problems.length).toBeGreaterThan(0);
    for (const { place, message } of read.problems) expectSentence(`${place}: ${message}`);
  }
  if (read.ok && written.ok) {
    rmSync(`${file}.trail`, { force: true });
    writeFileSync(file, written.text);
    await expectRead(read);
  }
  await checkScreen(record, read);
}

const cell = textOf(most.noteCharacters);

export function describeWriters({ inputs }: Budget): void {
  // Each of them is on the disk many times.
  const runs = Math.ceil(inputs / 4);
  describe('a record that is written', { timeout: 3_600_000 }, () => {
    test('is read again as it was by whatever reads one, or is not written', async () => {
      const tried = { taken: 0, refused: 0 };
      await insideFolder({}, () =>
        fc.assert(
          fc.asyncProperty(anyRecord, async (record) => {
            tried[readRecord(JSON.stringify(record)).ok ? 'taken' : 'refused'] += 1;
            await checkRecord(record);
          }),
          { numRuns: runs },
        ),
      );
      expect(Math.min(tried.taken, tried.refused)).toBeGreaterThan(runs / 20);
    });

    test('also one made of a spreadsheet', async () => {
      await insideFolder({}, () =>
        fc.assert(
          fc.asyncProperty(cell, cell, cell, async (label, color, note) => {
            const rows = [
              { tube: '', lamp: 'central', reading: "181°04'", color: '', note: '' },
              { tube: '', lamp: 'mercury', reading: "229°39'", color, note },
              { tube: label, lamp: '', reading: "229°20'", color, note },
            ];
            writeFileSync('readings.csv', Papa.unparse(rows));
            for (const name of [file, `${file}.trail`]) rmSync(name, { force: true });
            const ended = await endsWell(['import', 'readings.csv', '--least-count', "1'", '--out', file]);
            expect(existsSync(file)).toBe(ended.code === 0);
            if (ended.code !== 0) return;
            const read = readRecord(readFileSync(file, 'utf8'));
            if (!read.ok) throw new Error(JSON.stringify(read.problems));
            await expectRead(read);
          }),
          { numRuns: runs },
        ),
      );
    });
  });
}
