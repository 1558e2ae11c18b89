import { describe, expect, it } from 'vitest';
import { formText } from '../../src/tui/form.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { tab, enter, left, right } = KEYS;
const END = '\x1b[F';

function benchAtLamp() {
  const bench = openBench(FILLED);
  bench.type(tab);
  return bench;
}

const lamps = (bench: ReturnType<typeof openBench>) =>
  bench.state().history.record.known.map(({ lamp, lines }) => [lamp, lines.length]);
const said = (bench: ReturnType<typeof openBench>) => linearSentences(bench.state(), false).join('\n');

describe('a second known lamp', () => {
  it('is added by a, its lines go to it and into the one curve, and their numbers go on', () => {
    const bench = benchAtLamp();
    bench.type(act('another-lamp'), 'cadm', enter);
    expect(lamps(bench)).toEqual([
      ['mercury', 4],
      ['cadmium', 0],
    ]);
    expect(said(bench)).toContain('[2 Known lamp: cadmium (2 of 2), 0 lines]');
    bench.type('508.58 = 230 10\r');
    expect(lamps(bench)).toEqual([
      ['mercury', 4],
      ['cadmium', 1],
    ]);
    expect(bench.state().result?.analysis?.calibration.lines).toHaveLength(5);
    expect(said(bench)).toMatch(/^5 508\.58 230 10 /m);
  });

  it('is left alone by a reading of the first: left and right go from lamp to lamp', () => {
    const bench = benchAtLamp();
    bench.type(act('another-lamp'), 'cadm', enter, left);
    expect(said(bench)).toContain('mercury (1 of 2)');
    bench.type("229°22'\r", right);
    expect(lamps(bench)).toEqual([
      ['mercury', 5],
      ['cadmium', 0],
    ]);
    expect(said(bench)).toContain('cadmium (2 of 2)');
    bench.type(right);
    expect(bench.state().history.place.lamp).toBe(1);
  });

  it('is not added when the list is left', () => {
    const bench = benchAtLamp();
    bench.type(act('another-lamp'), 'cad', KEYS.escape);
    expect(lamps(bench)).toHaveLength(1);
  });

  it('is removed by d while it has no lines, and everything is undone and done again', () => {
    const bench = benchAtLamp();
    bench.type(act('another-lamp'), 'cadm', enter, KEYS.delete);
    expect(lamps(bench)).toEqual([['mercury', 4]]);
    expect(bench.state().notice?.text).toBe('Lamp cadmium removed. Ctrl+Z brings it back.');
    bench.type(KEYS.undo);
    expect(lamps(bench)).toHaveLength(2);
    expect(bench.state().history.place.lamp).toBe(1);
    bench.type(KEYS.undo);
    expect(formText(bench.state().history.record)).toBe(formText(FILLED));
    bench.type(KEYS.redo, KEYS.redo);
    expect(lamps(bench)).toEqual([['mercury', 4]]);
  });

  it('stays while it has lines or check lines, and the only lamp stays', () => {
    const bench = benchAtLamp();
    bench.type(END, KEYS.delete);
    expect(lamps(bench)).toHaveLength(1);
    bench.type(act('another-lamp'), 'cadm', enter, '508.58 = 230 10 check\r', END, KEYS.delete);
    expect(bench.state().notice?.text).toMatch(/the lamp has lines/);
    expect(lamps(bench)).toHaveLength(2);
  });

  it('takes the place of a lamp that has neither name nor lines', () => {
    const bench = openBench({ ...FILLED, known: [{ lines: [] }] });
    bench.type(tab, KEYS.escape, act('another-lamp'), 'cadm', enter);
    expect(lamps(bench)).toEqual([['cadmium', 0]]);
  });
});
