/** Readings typed on a stage or row that takes none. */
import { describe, expect, it } from 'vitest';
import { analyseForm } from '../../src/tui/computation.ts';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { tab, enter } = KEYS;

describe("a reading typed on the answer's stage", () => {
  it('is written down for the tube at hand, and the way back is said', () => {
    const bench = openBench({ ...FILLED, unknown: [...FILLED.unknown, { label: 'tube D', lines: [] }] });
    bench.type(tab, tab, KEYS.right, tab, '228 58 red\r');
    const { history, notice } = bench.state();
    expect(history.record.unknown[1]?.lines).toEqual([{ readings: ['228 58'], color: 'red' }]);
    expect(history.place).toMatchObject({ stage: 'tube', tube: 1, row: 1 });
    expect(notice?.text).toBe('228 58 red is written down for the tube (stage 3). Ctrl+Z takes it back.');
    bench.type(KEYS.undo);
    expect(bench.state().history.record.unknown[1]?.lines).toEqual([]);
  });

  it('is one of the known lamp where it names its line', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, tab, '576.96 = 229 22\r');
    expect(bench.state().history.record.known[0]?.lines.at(-1)).toEqual({
      wavelengthNm: 576.96,
      readings: ['229 22'],
    });
    expect(bench.state().history.place.stage).toBe('lamp');
  });

  it('is asked about there as anywhere', () => {
    const bench = openBench(FILLED, undefined, analyseForm);
    bench.type(tab, tab, tab, '282 44\r');
    expect(bench.state().entry.query?.join(' ')).toMatch(/visible|misread|digit/);
    expect(bench.state().history.place.stage).toBe('tube');
    bench.type('228 44\r');
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)?.readings).toEqual(['228 44']);
  });

  it('that is none is said to be none, and stays in the line', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, tab, '228 75\r');
    expect(bench.state().entry).toMatchObject({ text: '228 75', refusal: expect.stringMatching(/minutes/) });
    expect(bench.state().history.place.stage).toBe('answer');
  });
});

it('a reading typed on a setting of a scale is told where readings go', () => {
  const bench = openBench({ ...BLANK_FORM, instrument: { method: 'scale', leastCount: 0.1 } });
  bench.type('12.3', enter);
  expect(bench.state().entry.refusal).toMatch(/stages 2 and 3/);
});
