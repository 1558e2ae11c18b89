import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import { hasTmux, key, Terminal } from '../tui/terminal.ts';

const ROUNDS = 50;

/** Readings of the tube in the file; null while there is no file. */
function readingsOnDisk(folder: string): readonly string[] | null {
  let text: string;
  try {
    text = readFileSync(join(folder, 'bench.json'), 'utf8');
  } catch {
    return null;
  }
  const read = readRecord(text);
  if (!read.ok) throw new Error(`the record on disk is broken: ${JSON.stringify(read.problems)}`);
  return (read.record.unknown[0]?.lines ?? []).map(({ readings }) => String(readings[0]));
}

/** Rows of the tube's list as the screen shows them while the heading says that all is saved. */
function readingsShownAsSaved(screen: string): readonly string[] {
  if (!/bench\.json: saved/.test(screen)) return [];
  return [...screen.matchAll(/^[ ▸]+\d+ {2}(\d+ \d\d) /gm)].map((row) => row[1]!);
}

describe.skipIf(!hasTmux)('killed at random moments', () => {
  it(`${ROUNDS} times: every reading that was shown as saved is there again`, {
    timeout: 600_000,
  }, async () => {
    const delaysMs = fc.sample(fc.integer({ min: 0, max: 400 }), ROUNDS);
    const folder = mkdtempSync(join(tmpdir(), 'soak-'));
    let minute = 0;
    let checked = 0;
    try {
      for (const [round, delayMs] of delaysMs.entries()) {
        const terminal = new Terminal({ folder, rows: 60, args: ['bench.json'] });
        try {
          await terminal.waitFor(round === 0 ? 'What is read' : 'next line ›');
          if (round === 0) {
            terminal.type(key('Tab'));
            await terminal.waitFor('Which known lamp?');
            terminal.type(key('Escape'), key('Tab'));
            await terminal.waitFor('next line ›');
          }
          for (let count = 0; count < 3; count += 1) {
            minute += 1;
            terminal.type(
              `${200 + Math.floor(minute / 60)} ${String(minute % 60).padStart(2, '0')}`,
              key('Enter'),
            );
          }
          await new Promise((resolve) => setTimeout(resolve, delayMs));
          const screen = terminal.screen();
          const shown = readingsShownAsSaved(screen);
          await terminal.kill();
          const kept = readingsOnDisk(folder) ?? [];
          const lost = shown.filter((reading) => !kept.includes(reading));
          expect(lost, `shown as saved and not on disk in round ${round}; the screen was\n${screen}`).toEqual(
            [],
          );
          checked += shown.length;
        } finally {
          await terminal.close();
        }
      }
      expect(checked).toBeGreaterThan(ROUNDS);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
