import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import { demoBench } from '../../src/tui/demo-bench.ts';
import { formText } from '../../src/tui/form.ts';
import { FILLED } from './fixture.ts';
import { hasTmux, key, Terminal, type TerminalOptions } from './terminal.ts';

let folder: string;
let terminals: Terminal[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'bench-'));
  terminals = [];
});
afterEach(async () => {
  const closed = await Promise.allSettled(terminals.map((terminal) => terminal.close()));
  rmSync(folder, { recursive: true, force: true });
  for (const outcome of closed) if (outcome.status === 'rejected') throw outcome.reason;
});

function open(options: Partial<TerminalOptions> = {}): Terminal {
  const terminal = new Terminal({ folder, ...options });
  terminals.push(terminal);
  return terminal;
}

const enter = key('Enter');

function readRecordFile(name = 'bench.json') {
  const read = readRecord(readFileSync(join(folder, name), 'utf8'));
  if (!read.ok) throw new Error(`${name}: ${JSON.stringify(read.problems)}`);
  return read.record;
}

/** A new bench up to the known lamp. */
async function toLamp(terminal: Terminal): Promise<void> {
  await terminal.waitFor('What is read');
  terminal.type(enter, enter, enter, enter);
  await terminal.waitFor('central image ›');
  terminal.type('181 04', enter);
  await terminal.waitFor(/Central image 1 +181 04/);
  terminal.type(key('Tab'));
  await terminal.waitFor('Which known lamp?');
  terminal.type('merc', enter);
  await terminal.waitFor('579.07');
  // The bench begins with the brightest line; here they are typed from the red end.
  terminal.type(key('Home'));
}

describe.skipIf(!hasTmux)('in a real terminal', () => {
  it('a whole bench, with a slip queried and corrected, undo, a paste and a resize', async () => {
    const terminal = open();
    await toLamp(terminal);
    terminal.type('229 21', enter, '229 22', enter, '229 40', enter);
    await terminal.waitFor(/546\.07 +229 40 +48°/);
    await terminal.waitFor(/435\.83 +blue-violet +expected near 231°2\d'/);
    terminal.type('230 56', enter);
    await terminal.waitFor('half a degree (30');
    terminal.type(key('BSpace', 4), '1 26', enter);
    await terminal.waitFor(/435\.83 +231 26/);
    terminal.type('232 18', enter);
    await terminal.waitFor(/404\.66 +232 18/);
    terminal.type(key('Tab'));
    await terminal.waitFor('next line ›');
    terminal.paste('228 44 red\n228 49 red strong\n228 53\trubbish\n229 03 orange\n');
    await terminal.waitFor('Pasted: 4 lines, 3 can be taken');
    terminal.type(enter);
    await terminal.waitFor('3 pasted readings taken');
    terminal.type(key('C-z'));
    await terminal.waitFor('Undone: 3 pasted readings');
    terminal.type(key('C-y'));
    await terminal.waitFor(/3 +229 03/);
    terminal.resize(140, 40);
    await terminal.waitFor('readings against');
    terminal.resize(50, 15);
    await terminal.waitFor('needs a window of at least');
    terminal.resize(80, 24);
    await terminal.waitFor('next line ›');
    terminal.type(key('C-c'));
    await terminal.ended();
    const record = readRecordFile();
    expect(record.known[0]?.lines.map(({ readings }) => readings[0])).toEqual([
      '229 21',
      '229 22',
      '229 40',
      '231 26',
      '232 18',
    ]);
    expect(record.unknown[0]?.lines.map(({ readings }) => readings[0])).toEqual([
      '228 44',
      '228 49',
      '229 03',
    ]);
    expect(readdirSync(folder).sort()).toEqual(['bench.json', 'bench.json.trail']);
  });

  it.each([
    [60, 20],
    [80, 24],
    [140, 40],
  ])(
    'a whole bench from the central image to the answer, a slip among it, at %i x %i',
    async (columns, rows) => {
      const terminal = open({ columns, rows });
      await toLamp(terminal);
      const known = [
        ['579.07', '229 21'],
        ['576.96', '229 22'],
        ['546.07', '229 40'],
      ] as const;
      for (const [line, reading] of known) {
        terminal.type(reading, enter);
        await terminal.waitFor(new RegExp(`${line.replace('.', '\\.')}.* ${reading}`));
      }
      terminal.type('230 56', enter);
      await terminal.waitFor(/half a degree/);
      terminal.type(key('C-u'), '231 26', enter);
      await terminal.waitFor(/435\.83.* 231 26/);
      terminal.type('232 18', enter);
      await terminal.waitFor(/404\.66.* 232 18/);
      for (const reading of ['228 59', '228 37', '230 23']) {
        terminal.type(key('End'), reading, enter);
        await terminal.waitFor(new RegExp(` ${reading}`));
      }
      terminal.type(key('Tab'));
      await terminal.waitFor('next line ›');
      for (const [i, { readings }] of demoBench.unknown[0]!.lines.entries()) {
        terminal.type(String(readings[0]), enter);
        await terminal.waitFor(new RegExp(`${i + 1} +${readings[0]}`));
      }
      terminal.type(key('Tab'));
      await terminal.waitFor(/The tube is neon/);
      terminal.type('neon', enter);
      await terminal.waitFor('Your answer: neon');
      terminal.type(key('C-c'));
      await terminal.ended();
      const record = readRecordFile();
      expect(record.known[0]?.lines).toHaveLength(8);
      expect(record.unknown[0]?.lines).toHaveLength(9);
      expect(record.unknown[0]?.answer).toBe('neon');
    },
  );

  it('loses nothing that was shown as taken when it is killed, and opens where one was', async () => {
    for (let round = 0; round < 3; round += 1) {
      const terminal = open(round === 0 ? {} : { args: ['bench.json'] });
      if (round === 0) {
        await toLamp(terminal);
        terminal.type(key('Tab'));
      }
      await terminal.waitFor('next line ›');
      const typed = `229 ${20 + round}`;
      terminal.type(typed, enter);
      await terminal.waitFor(new RegExp(`${round + 1} +${typed}`));
      terminal.type('228 1');
      await terminal.kill();
      expect(readRecordFile().unknown[0]?.lines.map(({ readings }) => readings[0])).toEqual(
        Array.from({ length: round + 1 }, (_, at) => `229 ${20 + at}`),
      );
    }
    const terminal = open({ args: ['bench.json'] });
    await terminal.waitFor(/3 +229 22/);
    terminal.type(key('C-z'));
    await terminal.waitFor('Undone: 229 22');
  });

  it('keeps a second lamp, a check line and two reflected images, killed and opened again', async () => {
    const terminal = open();
    await toLamp(terminal);
    terminal.type('229 21', enter, '229 22', enter, '229 40', enter);
    await terminal.waitFor(/546\.07 +229 40 +48°/);
    await terminal.waitFor(/435\.83 +blue-violet +expected near 231°2\d'/);
    terminal.type('230 56', enter);
    await terminal.waitFor('half a degree (30');
    terminal.type('231 26', enter);
    await terminal.waitFor('"230 56" was not taken; Ctrl+P brings it back');
    await terminal.waitFor(/435\.83 +231 26/);
    terminal.type(key('C-p'));
    await terminal.waitFor('› 230 56');
    terminal.type(key('C-u'), '546.07 = 229 41 check', enter);
    await terminal.waitFor(/546\.07 +229 41 .*check line/);
    terminal.type('/another lamp', enter, 'cadm', enter);
    await terminal.waitFor('cadmium is lamp 2 of 2');
    terminal.type(key('Home'), '228 52', enter);
    await terminal.waitFor(/643\.85 +228 52/);
    terminal.type(key('BTab'));
    await terminal.waitFor('The instrument and the central image');
    terminal.type(key('Home'), ...Array.from({ length: 7 }, () => key('Down')));
    await terminal.waitFor('Apex angle ›');
    terminal.type('left 121 04 right 1 02', enter);
    await terminal.waitFor("60°01' from left 121 04 right 1 02");
    await terminal.kill();
    expect(readRecordFile()).toMatchObject({
      instrument: { apexAngle: { readings: { left: '121 04', right: '1 02' } } },
      known: [
        { lamp: 'mercury', check: [{ wavelengthNm: 546.07, readings: ['229 41'] }] },
        { lamp: 'cadmium', lines: [{ wavelengthNm: 643.85, readings: ['228 52'] }] },
      ],
    });
    const again = open({ args: ['bench.json'], env: { NO_COLOR: '1' } });
    await again.waitFor('The instrument and the central image');
    again.type(key('Home'), key('C-z'));
    await again.waitFor('Undone: apex angle left 121 04 right 1 02');
    again.type(key('C-z'));
    await again.waitFor(/cadmium \(2 of 2\), 0 lines/);
    again.type(key('C-z'));
    await again.waitFor(/mercury, 4 lines/);
  });

  it('lives through Ctrl+F1, and asks at Ctrl+C only when something would be lost', async () => {
    const terminal = open();
    await toLamp(terminal);
    terminal.type(key('C-F1'), '229 2');
    await terminal.waitFor('› 229 2');
    terminal.type(key('C-c'));
    await terminal.waitFor('Leave now?');
    terminal.type(key('Escape'));
    await terminal.waitFor('› 229 2');
    terminal.type('1', enter);
    await terminal.waitFor(/579\.07 +229 21/);
    terminal.type(key('C-c'));
    await terminal.ended();
  });

  it('is not deaf after a paste whose end was lost', async () => {
    writeFileSync(join(folder, 'bench.json'), formText(FILLED));
    const terminal = open({ args: ['bench.json'] });
    await terminal.waitFor('saved');
    terminal.type(key('Tab'), key('Tab'));
    await terminal.waitFor('next line ›');
    terminal.type('\x1b[200~230 4');
    await terminal.waitFor('› 230 4');
    terminal.type('4', enter);
    await terminal.waitFor(/5 +230 44/);
    terminal.type('\x1b[200~231', key('C-c'));
    await terminal.waitFor('Leave now?');
    terminal.type(key('C-c'));
    await terminal.ended();
  });

  it('gives the terminal back at SIGTERM and SIGHUP', async () => {
    for (const signal of ['SIGTERM', 'SIGHUP'] as const) {
      const terminal = open({ args: [`${signal}.json`] });
      await terminal.waitFor('What is read');
      process.kill(terminal.pid, signal);
      expect(await terminal.ended()).toBe(signal === 'SIGTERM' ? '143' : '129');
      expect(existsSync(join(folder, `${signal}.json.lock`))).toBe(false);
    }
  });

  it('tells the second program on one record, which can keep its readings elsewhere', async () => {
    writeFileSync(join(folder, 'bench.json'), formText(FILLED));
    const first = open({ args: ['bench.json'] });
    await first.waitFor('saved');
    const second = open({ args: ['bench.json'] });
    await second.waitFor('has this record open');
    second.type(key('Tab'), key('Tab'));
    await second.waitFor('next line ›');
    second.type('229 42', enter);
    await second.waitFor('NOT SAVED');
    second.type('/keep in another place', enter);
    await second.waitFor('keep the record in');
    second.type(key('C-e'), key('BSpace', 200), 'mine.json', enter);
    await second.waitFor('Kept in mine.json');
    expect(readRecordFile('mine.json').unknown[0]?.lines).toHaveLength(5);
    expect(readRecordFile().unknown[0]?.lines).toHaveLength(4);
  });

  it('writes the report that was asked for, though one leaves at once', async () => {
    writeFileSync(join(folder, 'bench.json'), formText(FILLED));
    const terminal = open({ args: ['bench.json'] });
    // What computes is there, or nothing could be reported.
    terminal.type(key('Tab'), key('Tab'));
    await terminal.waitFor(/\d ± \d/);
    terminal.type('/report', enter);
    await terminal.waitFor('bench-report.html');
    terminal.type(enter, key('C-c'));
    expect(await terminal.ended()).toBe('0');
    expect(terminal.screen().replace(/\n/g, '')).toMatch(/The report is in \S*bench-report\.html/);
    expect(readFileSync(join(folder, 'bench-report.html'), 'utf8')).toMatch(
      /^<!doctype html>[\s\S]*<\/html>\s*$/i,
    );
  });

  it('notices a record changed on disk, and takes it on request', async () => {
    writeFileSync(join(folder, 'bench.json'), formText(FILLED));
    const terminal = open({ args: ['bench.json'] });
    await terminal.waitFor('saved');
    // In one step: the program may look at any moment.
    writeFileSync(join(folder, 'changed'), formText({ ...FILLED, title: 'Changed elsewhere' }));
    renameSync(join(folder, 'changed'), join(folder, 'bench.json'));
    await terminal.waitFor('Another program has changed');
    terminal.type(key('Down'), key('Down'), enter);
    await terminal.waitFor('whichgas  Changed elsewhere');
    expect(readRecordFile().title).toBe('Changed elsewhere');
  });

  it.skipIf(process.getuid?.() === 0)('goes on in memory in a folder that cannot be written', async () => {
    chmodSync(folder, 0o555);
    try {
      const terminal = open();
      await toLamp(terminal);
      await terminal.waitFor('NOT SAVED');
    } finally {
      chmodSync(folder, 0o755);
    }
  });

  it('goes on in memory when the folder vanishes, and saves in another place', async () => {
    const gone = mkdtempSync(join(tmpdir(), 'gone-'));
    const terminal = open({ args: [join(gone, 'bench.json')] });
    await terminal.waitFor('What is read');
    rmSync(gone, { recursive: true });
    terminal.type(enter, enter, enter, enter, '181 04', enter);
    await terminal.waitFor('the folder is gone');
    terminal.type('/keep in another place', enter, key('BSpace', 100), 'saved.json', enter);
    await terminal.waitFor('Kept in saved.json');
    expect(readRecordFile('saved.json').central).toEqual(['181 04']);
  });

  it('draws no colour under NO_COLOR and truecolour otherwise', async () => {
    writeFileSync(join(folder, 'bench.json'), formText(FILLED));
    const plain = open({ args: ['bench.json'], env: { NO_COLOR: '1' } });
    await plain.waitFor('saved');
    expect(plain.colours()).toEqual([]);
    plain.type(key('C-c'));
    await plain.ended();
    const coloured = open({ args: ['bench.json'], env: { COLORTERM: 'truecolor' } });
    await coloured.waitFor('saved');
    expect(coloured.colours().length).toBeGreaterThan(2);
  });

  it('never wipes what stands above it in the terminal', async () => {
    const terminal = open({ args: ['demo'] });
    await terminal.waitFor('nothing is written');
    terminal.type(key('Down'), key('Space'), key('Space'));
    await terminal.waitFor('off nm');
    terminal.type(key('C-c'));
    await terminal.ended();
    expect(await terminal.writtenUpTo('\u001b[?2004l')).not.toContain('\u001b[3J');
  });
});
