/** The terminal closes under the program: the record is whole, its lock is gone, and nothing is written into the void. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import { formText } from '../../src/tui/form.ts';
import { FILLED } from './fixture.ts';
import { hasTmux, key, quoted, Terminal, until } from './terminal.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'hang-up-'));
  writeFileSync(join(folder, 'bench.json'), formText(FILLED));
  writeFileSync(join(folder, 'watch.cjs'), WATCH);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Loaded before the program: notes down whatever it still writes to a terminal that is none any more. */
const WATCH = `
const { appendFileSync } = require('node:fs');
const { isatty, WriteStream } = require('node:tty');
const folder = process.cwd();
for (const name of ['_write', '_writeGeneric']) {
  const write = WriteStream.prototype[name];
  WriteStream.prototype[name] = function (...args) {
    if (!isatty(1)) appendFileSync(folder + '/written', JSON.stringify(String(args.find((arg) => typeof arg !== 'boolean'))));
    return write.apply(this, args);
  };
}
`;

/**
 * A frame may be due in the very moment, or half drawn: its next write fails, whichever part of it that is, and no other
 * follows. Both of the functions watched see the one write.
 */
const ONE_WRITE_OR_NONE = /^(?:("(?:[^"\\]|\\.)*")\1?)?$/;

function written(path: string): string {
  return existsSync(path) ? readFileSync(path, 'utf8') : '';
}

type Closing = (terminal: Terminal) => void | Promise<void>;
const closeWindow: Closing = (terminal) => terminal.closeWindow();
const endServer: Closing = (terminal) => terminal.close();

/** The shell lives on to tell the exit status; the program hears the signal all the same. */
const told = (program: string): string => `trap '' HUP; ${program} 2> said; echo $? > status`;
/** In a session of its own no signal tells the program that its terminal is gone: only reading and writing do. */
const untold = (program: string): string =>
  `trap '' HUP; setsid -w sh -c ${quoted(`${program} 2> said; echo $? > status`)}`;

const ways: readonly { what: string; line: (program: string) => string; closing: Closing }[] = [
  { what: 'the window is closed', line: told, closing: closeWindow },
  { what: 'the whole terminal program ends', line: told, closing: endServer },
  { what: 'the window is closed and no signal comes', line: untold, closing: closeWindow },
];

const doing: readonly { doing: string; act: (terminal: Terminal) => void | Promise<void> }[] = [
  { doing: 'nothing', act: () => {} },
  {
    doing: 'a reading half typed',
    act: async (terminal) => {
      terminal.type('229 4');
      await terminal.waitFor('› 229 4');
    },
  },
  { doing: 'readings being typed', act: (terminal) => terminal.type('229 45', key('Enter'), '229 5') },
];

describe.skipIf(!hasTmux)('a terminal that goes', () => {
  for (const { what, line, closing } of ways)
    it.each(doing)(`${what} during $doing`, async ({ act }) => {
      const path = (name: string): string => join(folder, name);
      const terminal = new Terminal({
        folder,
        line,
        args: ['bench.json'],
        env: { NODE_OPTIONS: `--require ${path('watch.cjs')}` },
      });
      try {
        await terminal.waitFor('saved');
        terminal.type(key('Tab'), key('Tab'));
        await terminal.waitFor('next line ›');
        await act(terminal);
        expect(existsSync(path('bench.json.lock'))).toBe(true);
        await closing(terminal);
        await until(
          () => existsSync(path('status')) && readFileSync(path('status'), 'utf8') !== '',
          () => 'the program did not end',
        );
        expect(readFileSync(path('status'), 'utf8')).toBe('129\n');
        // The shell may say so; the program has nothing to say.
        expect(readFileSync(path('said'), 'utf8')).toMatch(/^(Hangup\n)?$/);
        expect(written(path('written'))).toMatch(ONE_WRITE_OR_NONE);
        expect(readdirSync(folder).filter((name) => /lock|part/.test(name))).toEqual([]);
        expect(readRecord(readFileSync(path('bench.json'), 'utf8')).ok).toBe(true);
        expect(readFileSync(path('bench.json.trail'), 'utf8')).toMatch(
          /"do":"go","at":\{"stage":"tube".*\n$/,
        );
      } finally {
        await terminal.close();
      }
    });
});
