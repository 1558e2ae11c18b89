import { describe, expect, it } from 'vitest';
import type { BenchForm } from '../../src/tui/form.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { tab, up, backspace, undo } = KEYS;
const CTRL_U = '\x15';
const CTRL_E = '\x05';
const PASTE = '\x1b[200~229 10\n229 35 red\x1b[201~';
const said = (bench: ReturnType<typeof openBench>) => linearSentences(bench.state(), false).join('\n');

function benchAtLine(form: BenchForm = FILLED) {
  const bench = openBench(form);
  bench.type(tab, tab, up);
  return bench;
}

describe('the key Delete', () => {
  it('takes no reading away while something else is written', () => {
    const bench = benchAtLine();
    bench.type(KEYS.quickCheck, KEYS.delete);
    expect(bench.state().history.record).toBe(FILLED);
    bench.type(KEYS.escape, KEYS.edit, CTRL_U, KEYS.delete);
    expect(bench.state().history.record).toBe(FILLED);
    bench.type(KEYS.escape, act('note'), KEYS.delete, '/', KEYS.delete);
    expect(bench.state().history.record).toBe(FILLED);
    bench.type(CTRL_U, KEYS.escape, KEYS.escape, KEYS.delete);
    expect(bench.state().history.record.unknown[0]?.lines).toHaveLength(3);
  });

  it('takes no reading away while the first window of another is written', () => {
    const form: BenchForm = {
      ...BLANK_FORM,
      instrument: { method: 'central', leastCount: "1'", windows: 2 },
      central: [["181°04'", "1°04'"]],
      known: [{ lamp: 'mercury', lines: [] }],
      unknown: [{ lines: [{ readings: [["228°49'", "48°49'"]] }] }],
    };
    const bench = benchAtLine(form);
    bench.type('228 49\r', KEYS.delete);
    expect(bench.state().entry.parts).toEqual(['228 49']);
    expect(bench.state().history.record).toBe(form);
  });

  it('erases no letter of a list, and puts down a line in hand that it takes away', () => {
    const bench = benchAtLine();
    bench.type('/colour', KEYS.delete);
    expect(bench.state().overlay).toMatchObject({ query: 'colour' });
    bench.type(KEYS.escape, act('move'), KEYS.delete);
    expect(bench.state().moving).toBe(false);
  });
});

describe('under the preview of a paste', () => {
  it('nothing is undone, and the line typed before stays as it is', () => {
    const bench = benchAtLine();
    bench.type('229 17\r', '229 41', PASTE);
    const { history, entry, overlay } = bench.state();
    expect(overlay?.kind).toBe('paste');
    bench.type(undo, KEYS.redo, backspace, KEYS.delete, KEYS.left, '\x01', CTRL_E, CTRL_U);
    expect(bench.state()).toMatchObject({ history, overlay });
    expect(bench.state().entry).toEqual(entry);
    expect(bench.state().notice?.text).toMatch(/Enter or Esc comes first/);
  });
});

describe('undo in a list', () => {
  it('closes it: the row that it was about may be gone', () => {
    const bench = benchAtLine();
    bench.type('229 17\r', up, act('colour'));
    expect(bench.state().overlay).toMatchObject({ kind: 'pick', purpose: 'colour' });
    bench.type(undo);
    expect(bench.state().overlay).toBeNull();
    expect(bench.state().history.record).toBe(FILLED);
  });
});

it('a suggestion that lies under a question is not taken by Tab', () => {
  const bench = benchAtLine();
  bench.type('\x1b[F', '2844 red\r');
  expect(bench.state().entry.suggestion).not.toBeNull();
  bench.type(KEYS.leave);
  expect(bench.state().overlay?.kind).toBe('quit');
  bench.type(tab);
  expect(bench.state().entry.text).toBe('2844 red');
});

describe('a minus on a scale', () => {
  const SCALE: BenchForm = {
    ...BLANK_FORM,
    instrument: { method: 'scale', leastCount: 0.1 },
    known: [{ lamp: 'mercury', lines: [] }],
  };

  it.each([1, 2])('is the sign of a reading and nowhere said to be a key (Tab %i times)', (times) => {
    const bench = openBench(SCALE);
    bench.type(...Array<string>(times).fill(tab), '-');
    expect(bench.state().entry.text).toBe('-');
    bench.type(KEYS.escape, '?');
    expect(said(bench)).not.toMatch(/^- /m);
    bench.type(KEYS.escape, '/not');
    expect(said(bench)).toMatch(/not seen this line|nothing there you looked/);
  });

  it('is the key on a circle', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, '?');
    expect(said(bench)).toMatch(/^- nothing there: you looked/m);
  });
});
