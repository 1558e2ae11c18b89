/** What the reader of records would not take back never becomes the record, and nothing that was typed is lost by it. */
import { describe, expect, it } from 'vitest';
import { most } from '../../src/record/limits.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { tab, enter, escape: leave, up, right, left, down } = KEYS;
const noAnalysis = () => {
  throw new Error('left out');
};
const open = (form: BenchForm) => openBench(form, undefined, noAnalysis);
const pasted = (...lines: readonly string[]): string => `\x1b[200~${lines.join('\n')}\x1b[201~`;
const readings = (count: number): readonly string[] =>
  Array.from(
    { length: count },
    (_, at) => `${200 + Math.floor(at / 60)} ${String(at % 60).padStart(2, '0')}`,
  );
const SCALE: BenchForm = { ...BLANK_FORM, instrument: { method: 'scale', leastCount: 0.1 } };

describe('an edit that no record could hold', () => {
  it('readings pasted on the first stage of a scale bench', () => {
    const bench = open(SCALE);
    const { overlay, notice, history } = bench.type(pasted('12.3', '13.4'));
    expect(overlay).toBeNull();
    expect(notice?.text).toBe('A plain scale has no central image; readings are pasted on stage 2 or 3.');
    expect(history.record).toBe(SCALE);
  });

  it('two pastes that together pass the bound: the second stays in its preview', () => {
    const bench = open(FILLED);
    bench.type(tab, tab, pasted(...readings(300)), enter);
    expect(bench.state().history.record.unknown[0]?.lines).toHaveLength(304);
    const before = bench.state().history;
    const after = bench.type(pasted(...readings(200)), enter);
    expect(after.history).toBe(before);
    expect(after.overlay).toMatchObject({ kind: 'paste' });
    expect(after.notice?.text).toMatch(
      /^Not done, because the record could not be opened again: unknown.*500/,
    );
    bench.type(leave, pasted(...readings(196)), enter);
    expect(bench.state().history.record.unknown[0]?.lines).toHaveLength(500);
  });

  it('a paste of more lines than are looked at says so', () => {
    const bench = open(FILLED);
    expect(bench.type(tab, tab, pasted(...readings(500))).overlay).toMatchObject({ leftOut: 0 });
    expect(bench.type(leave, pasted(...readings(501))).overlay).toMatchObject({ leftOut: 1 });
  });

  it('one more repeat, line, tube or check line than a record takes', () => {
    const repeats = readings(most.repeats) as [string, ...string[]];
    const bench = open({ ...FILLED, unknown: [{ lines: [{ readings: repeats }] }] });
    const before = bench.type(tab, tab, up).history.record;
    const after = bench.type('200 07', enter, enter);
    expect(after.history.record).toBe(before);
    expect(after.entry.text).toBe('200 07');
    expect(after.entry.refusal).toContain('must have at most 100 entries');
  });

  it('a title longer than a record takes stays in the line', () => {
    const bench = open(BLANK_FORM);
    bench.type(...Array<string>(7).fill(down), pasted('n'.repeat(most.nameCharacters + 1)), enter);
    expect(bench.state().entry).toMatchObject({ text: 'n'.repeat(most.nameCharacters + 1) });
    expect(bench.state().entry.refusal).toContain('title: ');
    bench.type(KEYS.backspace, enter);
    expect(bench.state().history.record.title).toBe('n'.repeat(most.nameCharacters));
  });

  it('a note of every length that a record takes goes into it; what has no room in the line is said', () => {
    const bench = open(FILLED);
    bench.type(tab, tab, up, act('note'), pasted('n'.repeat(most.noteCharacters)), 'm');
    expect(bench.state().notice?.text).toBe('The line holds 2000 characters; "m" had no room in it.');
    bench.type(enter);
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)?.note).toBe('n'.repeat(most.noteCharacters));
  });

  it('a least count coarser than the divisions of the main scale', () => {
    const form: BenchForm = {
      ...BLANK_FORM,
      instrument: { method: 'central', leastCount: "1'", scaleDivision: "2'" },
    };
    const bench = open(form);
    const { history, notice } = bench.type(down, right);
    expect(history.record).toBe(form);
    expect(notice?.text).toContain('could not be opened again: instrument.scaleDivision: ');
    expect(bench.type(left).history.record).not.toBe(form);
  });

  it.each(['Infinity', '1e999', '1e308'])('the least count %s of a scale', (text) => {
    const bench = open(SCALE);
    bench.type(down, KEYS.edit, '\x15');
    const { history, entry } = bench.type(pasted(text), enter);
    expect(history.record).toBe(SCALE);
    expect(entry.text).toBe(text);
    expect(entry.refusal).not.toBeNull();
  });
});

describe('a paste without an end', () => {
  it('is over after a pause: its lines can be taken, and keys are keys again', () => {
    const bench = open(FILLED);
    bench.type(tab, tab, '\x1b[200~228 10\n228 20');
    expect(bench.state().overlay).toBeNull();
    expect(bench.pause().overlay).toMatchObject({ kind: 'paste', lines: ['228 10', '228 20'] });
    bench.type(enter, '228 30', enter);
    expect(
      bench
        .state()
        .history.record.unknown[0]?.lines.slice(-3)
        .map((line) => line.readings[0]),
    ).toEqual(['228 10', '228 20', '228 30']);
  });

  it('never keeps Ctrl+C from leaving', () => {
    const bench = open(FILLED);
    bench.type('\x1b[200~', 'abc', '\x03');
    expect(bench.hasQuit()).toBe(false);
    expect(bench.state().overlay).toEqual({ kind: 'quit', cursor: 0 });
    bench.type('\x03');
    expect(bench.hasQuit()).toBe(true);
  });

  it('is not over while it comes', () => {
    const bench = open(FILLED);
    bench.type(tab, tab, '\x1b[200~228 1', '0\n228', ' 20\x1b[201~');
    expect(bench.pause().overlay).toMatchObject({ lines: ['228 10', '228 20'] });
  });
});

describe('the line being typed', () => {
  it('goes and erases by whole characters', () => {
    const bench = open(BLANK_FORM);
    bench.type(...Array<string>(7).fill(down), 'a𝛌b', left, left);
    expect(bench.state().entry.caret).toBe(1);
    bench.type(right, KEYS.backspace);
    expect(bench.state().entry.text).toBe('ab');
  });

  it('takes all lines of a paste into a note', () => {
    const bench = open(FILLED);
    bench.type(tab, tab, up, act('note'), pasted('one', 'two'), enter);
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)?.note).toBe('one two');
  });

  it('takes the words of a title as they are pasted', () => {
    const bench = open(BLANK_FORM);
    bench.type(...Array<string>(7).fill(down), pasted('bench 4; prism\tB', 'second row'), enter);
    expect(bench.state().history.record.title).toBe('bench 4; prism B second row');
  });

  it('takes a paste into the search of a list', () => {
    const bench = open(FILLED);
    const { overlay } = bench.type(tab, tab, tab, enter, pasted('neo'));
    expect(overlay).toMatchObject({ kind: 'pick', query: 'neo' });
  });
});
