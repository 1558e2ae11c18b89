import { describe, expect, it } from 'vitest';
import { untakenText } from '../../src/tui/untaken.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { enter, tab, up, right, backspace } = KEYS;
const CTRL_P = '\x10';
const CTRL_U = '\x15';
const CTRL_Z = '\x1a';

/** At the lamp, three lines read; 435.83 is next. */
function benchAtLamp() {
  const bench = openBench(BLANK_FORM);
  bench.type(
    enter,
    enter,
    enter,
    enter,
    '181 04\r',
    tab,
    'merc',
    enter,
    '\x1b[H',
    '229 21\r229 22\r229 40\r',
  );
  return bench;
}

const said = (bench: ReturnType<typeof openBench>) => linearSentences(bench.state(), false).join('\n');
const readingsOf = (bench: ReturnType<typeof openBench>) =>
  bench.state().history.record.known[0]?.lines.map(({ readings }) => readings);

describe('a reading that was asked about and overtyped', () => {
  it('is said not to be taken, until the edit after the one that took its place', () => {
    const bench = benchAtLamp();
    bench.type('230 56\r', '231 26');
    expect(said(bench)).toContain('"230 56" was not taken; Ctrl+P brings it back, Esc lets it go.');
    bench.type(enter);
    expect(readingsOf(bench)?.at(-1)).toEqual(['231 26']);
    expect(said(bench)).toContain('"230 56" was not taken');
    bench.type('232 18\r');
    expect(said(bench)).not.toContain('was not taken');
  });

  it('comes back by Ctrl+P, which swaps it with what is typed', () => {
    const bench = benchAtLamp();
    bench.type('230 56\r', '231 26', CTRL_P);
    expect(bench.state().entry.text).toBe('230 56');
    bench.type(CTRL_P);
    expect(bench.state().entry.text).toBe('231 26');
    bench.type(CTRL_P, enter, enter);
    expect(readingsOf(bench)?.at(-1)).toEqual(['230 56']);
  });

  it('comes back after the other reading was taken, and can be let go', () => {
    const bench = benchAtLamp();
    bench.type('230 56\r', '231 26\r', CTRL_P);
    expect(bench.state().entry.text).toBe('230 56');
    bench.type(KEYS.escape);
    expect(bench.state().entry.text).toBe('');
    const other = benchAtLamp();
    other.type('230 56\r', '231 26\r', KEYS.escape);
    expect(untakenText(other.state())).toBeNull();
  });

  it('is kept with all others that were overtyped unseen, and the key leads through them', () => {
    const bench = benchAtLamp();
    bench.type('230 56\r', '232 56\r', '233 01\r', '231 26');
    expect(said(bench)).toContain(
      '"230 56", "232 56", "233 01" were not taken; Ctrl+P brings them back, Esc lets them go.',
    );
    const seen: string[] = [];
    for (let press = 0; press < 5; press += 1) seen.push(bench.type(CTRL_P).entry.text);
    expect(seen).toEqual(['233 01', '232 56', '230 56', '231 26', '233 01']);
  });

  it('is kept when a pasted reading takes its place', () => {
    const bench = benchAtLamp();
    bench.type('230 56\r', '\x1b[200~231 26\x1b[201~');
    expect(bench.state().entry.text).toBe('231 26');
    expect(untakenText(bench.state())).toContain('230 56');
  });

  it('is not said of a line that is merely edited', () => {
    const bench = benchAtLamp();
    bench.type('230 56\r', backspace, '7', enter, ' blue');
    expect(untakenText(bench.state())).toBeNull();
  });
});

describe('what else can drive a line out', () => {
  it.each([
    ['undo while one types', ['230 5', CTRL_Z], '230 5'],
    ['clearing', ['230 5', CTRL_U], '230 5'],
    ['leaving', ['230 5', KEYS.escape], '230 5'],
  ])('%s keeps what was typed for Ctrl+P', (_, keys, text) => {
    const bench = benchAtLamp();
    bench.type(...keys);
    expect(bench.state().entry.text).toBe('');
    bench.type(CTRL_P);
    expect(bench.state().entry.text).toBe(text);
  });

  it('stays on the row, and keeps the first window for Ctrl+P when the reading is left', () => {
    const bench = openBench({ ...FILLED, ...twoWindows });
    bench.type(tab, KEYS.escape, '228 40\r');
    for (const key of [tab, up, KEYS.down, right]) {
      bench.type(KEYS.escape);
      bench.type('228 40\r', key);
      expect(bench.state().notice?.text).toBe(
        'The reading is not whole yet: type the rest, or Esc leaves it.',
      );
      expect(bench.state().history.place).toMatchObject({ stage: 'lamp', lamp: 0, row: 0 });
      expect(bench.state().entry.parts).toEqual(['228 40']);
    }
    bench.type(KEYS.escape, CTRL_P);
    expect(bench.state().entry.text).toBe('228 40');
  });

  it('brings a note back as a note, on its line', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, up, up, act('note'), 'sharp', CTRL_U, KEYS.escape, KEYS.down, CTRL_P, enter);
    expect(bench.state().history.record.unknown[0]?.lines[2]?.note).toBe('sharp');
  });

  it('says nothing of a reading looked at and left as it was', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, up, KEYS.edit, KEYS.escape);
    expect(bench.state().untaken).toEqual([]);
  });

  it('says so when there is nothing to bring back', () => {
    const bench = openBench(FILLED);
    expect(bench.type(CTRL_P).notice?.text).toBe('Nothing typed was left behind.');
  });
});

it('an emptied edit stays with its line: the arrows do not carry it to another tube', () => {
  const bench = openBench({ ...FILLED, unknown: [...FILLED.unknown, { label: 'D', lines: [] }] });
  bench.type(tab, tab, up, KEYS.edit, CTRL_U, right, "229°18'\r");
  expect(bench.state().history.place.tube).toBe(0);
  expect(bench.state().history.record.unknown[0]?.lines.at(-1)?.readings).toEqual(["229°18'"]);
});

const twoWindows = {
  instrument: { method: 'central', leastCount: "1'", windows: 2 },
  central: [["181°04'", "1°04'"]],
  known: [{ lines: [] }],
  unknown: [{ lines: [] }],
} as const;

describe('a reading that was refused', () => {
  it('gives way to the next one typed, and comes back by its key', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, '228 75\r', '228 57 red\r229 08\r');
    const readings = bench.state().history.record.unknown[0]?.lines.map((line) => line.readings[0]);
    expect(readings?.slice(-2)).toEqual(['228 57', '229 08']);
    expect(said(bench)).not.toContain('was not taken');
    bench.type(CTRL_P);
    expect(bench.state().entry.text).toBe('228 75');
  });

  it('stays where it is gone on with, or mended in the middle', () => {
    const bench = openBench(FILLED);
    bench.type(tab, '576.96 =\r');
    expect(bench.state().entry.refusal).toMatch(/no reading in it/);
    bench.type('229 22\r');
    expect(bench.state().history.record.known[0]?.lines.at(-1)).toEqual({
      wavelengthNm: 576.96,
      readings: ['229 22'],
    });
    bench.type(tab, '228 75\r', KEYS.left, backspace, '4\r');
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)?.readings).toEqual(['228 45']);
  });

  it('is no file name: there a digit goes on', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(act('report'), enter);
    expect(bench.state().entry.refusal).not.toBeNull();
    bench.type('2');
    expect(bench.state().entry.text).toBe('bench-report.html2');
  });
});

it('letters behind a reading stand for colour and brightness', () => {
  const bench = openBench(FILLED);
  bench.type(tab, tab, '22857 r s\r22904 y w\r22912 bg m\r');
  expect(bench.state().history.record.unknown[0]?.lines.slice(-3)).toEqual([
    { readings: ['228 57'], color: 'red', brightness: 'strong' },
    { readings: ['229 04'], color: 'yellow', brightness: 'weak' },
    { readings: ['229 12'], color: 'blue-green', brightness: 'medium' },
  ]);
  expect(bench.type('22913 r x\r').entry.refusal).toMatch(/"r x" is no colour or brightness/);
});
