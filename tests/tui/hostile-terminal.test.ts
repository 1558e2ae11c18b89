/** What acts on a terminal, in a record, its trail, its lock and its name: the bytes that reach a real one. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type BenchForm, formText } from '../../src/tui/form.ts';
import { START_PLACE } from '../../src/tui/state.ts';
import { historyEdited, startHistory, writeTrail } from '../../src/tui/trail.ts';
import { obeyedByTerminals } from '../fuzz/hostile-text.ts';
import { FILLED } from './fixture.ts';
import { hasTmux, key, Terminal } from './terminal.ts';

/** A terminal sequence and whatever else acts there, in one text. */
const OWNED =
  'own\u001b]0;OWNED\u0007\u001b]52;c;T1dORUQ=\u0007\u001b]8;;http://x\u001b\\ed\u001b[5m\u001b[38;5;201m\u009b3J\u202e\u200b\ttab\nline';

/** What Ink and the program themselves send where NO_COLOR is set. */
const OUR_OWN = /\u001b\[(?:\?25[hl]|\?2004[hl]|\?2026[hl]|2K|1A|G)/g;

describe.skipIf(!hasTmux)('in a real terminal', () => {
  it('the bytes of record, trail, lock and file name are drawn and not obeyed', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'hostile-'));
    const name = `${OWNED.replaceAll('/', '')}.json`;
    const path = join(folder, name);
    const line = { color: OWNED, note: OWNED };
    const record: BenchForm = {
      ...FILLED,
      title: OWNED,
      about: { station: OWNED, observers: [OWNED], remarks: OWNED },
      known: FILLED.known.map((lamp) => ({
        ...lamp,
        lines: lamp.lines.map((each) => ({ ...each, ...line })),
      })),
      unknown: FILLED.unknown.map((tube) => ({
        ...tube,
        label: OWNED,
        answer: OWNED,
        lines: tube.lines.map((each) => ({ ...each, ...line })),
      })),
    };
    const history = historyEdited(startHistory(FILLED, START_PLACE), record, START_PLACE, OWNED);
    writeFileSync(path, formText(record));
    writeFileSync(`${path}.trail`, writeTrail(history));
    writeFileSync(`${path}.lock`, JSON.stringify({ pid: 1, host: OWNED, started: null }));
    const terminal = new Terminal({ folder, args: [path], columns: 200, rows: 50, env: { NO_COLOR: '1' } });
    try {
      await terminal.waitFor('a bench screen on owned tab line has this record open');
      terminal.type(key('Tab'));
      await terminal.waitFor('435.83');
      terminal.type(key('Tab'), key('Home'));
      await terminal.waitFor('Note: owned tab line');
      terminal.type(key('Tab'));
      await terminal.waitFor('Your answer: owned tab line');
      terminal.type(key('BTab'));
      terminal.paste(`${OWNED} 229 39\n${OWNED}`);
      await terminal.waitFor('Pasted: 4 lines');
      terminal.type(key('Escape'));
      await terminal.waitFor('next line ›');
      terminal.type(key('C-z'));
      await terminal.waitFor('Undone: owned tab line.');
      terminal.type(key('C-c'));
      await terminal.waitFor('Leave now?');
      terminal.type(key('C-c'));
      await terminal.ended();
      const written = (await terminal.writtenUpTo('\u001b[?2004l')).replaceAll(OUR_OWN, '');
      expect(written.replaceAll('\r\n', '\n')).not.toMatch(obeyedByTerminals);
    } finally {
      await terminal.close();
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
