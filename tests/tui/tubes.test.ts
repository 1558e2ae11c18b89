import { describe, expect, it } from 'vitest';
import type { BenchForm, TubeForm } from '../../src/tui/form.ts';
import { formText } from '../../src/tui/form.ts';
import { recordReader } from '../../src/tui/record-reader.ts';
import { readTrail, writeTrail } from '../../src/tui/trail.ts';
import { FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { tab, enter, left, right, up } = KEYS;
const END = '\x1b[F';

function benchAtTube(form = FILLED) {
  const bench = openBench(form);
  bench.type(tab, tab);
  return bench;
}

const labels = (bench: ReturnType<typeof openBench>) =>
  bench.state().history.record.unknown.map(({ label }) => label);

/** Chooses "a new tube", the last in the list of tubes. */
const NEW_TUBE = [act('tubes'), END, enter] as const;

const lines: TubeForm['lines'] = FILLED.unknown[0]!.lines;
const three: BenchForm = {
  ...FILLED,
  unknown: [
    { label: 'one', lines },
    { label: 'two', lines: [] },
    { label: 'three', lines },
  ],
};

describe('a tube added by mistake', () => {
  it('is removed by d while nothing is written down for it, and everything is undone and done again', () => {
    const bench = benchAtTube();
    bench.type(...NEW_TUBE);
    expect(labels(bench)).toEqual(['tube C', 'tube 2']);
    bench.type(KEYS.delete);
    expect(labels(bench)).toEqual(['tube C']);
    expect(bench.state().notice?.text).toBe('tube 2 removed. Ctrl+Z brings it back.');
    expect(bench.state().history.place).toMatchObject({ stage: 'tube', tube: 0, row: 4 });
    bench.type(KEYS.undo);
    expect(labels(bench)).toEqual(['tube C', 'tube 2']);
    expect(bench.state().history.place.tube).toBe(1);
    bench.type(KEYS.undo);
    expect(formText(bench.state().history.record)).toBe(formText(FILLED));
    bench.type(KEYS.redo, KEYS.redo);
    expect(labels(bench)).toEqual(['tube C']);
  });

  it.each<[string, TubeForm]>([
    ['a line', { lines }],
    ['a place where nothing was', { lines: [], notSeen: [{ reading: "229°41'" }] }],
    ['its own central image', { lines: [], central: ["181°05'"] }],
    ['an answer', { lines: [], answer: 'neon' }],
  ])('stays when it has %s', (_, tube) => {
    const bench = benchAtTube({ ...FILLED, unknown: [...FILLED.unknown, { label: 'two', ...tube }] });
    bench.type(right, END, KEYS.delete);
    expect(labels(bench)).toEqual(['tube C', 'two']);
    expect(bench.state().notice?.text).toMatch(/something is written down for the tube/);
  });

  it('stays when it is the only one, and while the cursor is on a line d takes a reading', () => {
    const empty = benchAtTube({ ...FILLED, unknown: [{ label: 'tube C', lines: [] }] });
    empty.type(KEYS.delete);
    expect(labels(empty)).toEqual(['tube C']);
    const bench = benchAtTube(three);
    bench.type(up, KEYS.delete);
    expect(labels(bench)).toEqual(['one', 'two', 'three']);
    expect(bench.state().history.record.unknown[0]?.lines).toHaveLength(3);
  });

  it('gives its number to no other tube that is there', () => {
    const bench = benchAtTube();
    bench.type(...NEW_TUBE, ...NEW_TUBE, left, KEYS.delete, ...NEW_TUBE);
    expect(labels(bench)).toEqual(['tube C', 'tube 3', 'tube 4']);
  });
});

it('the answer of another tube opens on its likeliest tube', () => {
  const bench = benchAtTube({ ...three, unknown: three.unknown.filter(({ label }) => label !== 'two') });
  bench.type(tab, right);
  expect(bench.state().history.place).toMatchObject({ stage: 'answer', tube: 1, row: 0 });
});

describe('what has been seen of the ranking', () => {
  it('moves with its tube when an empty one before it goes and comes back', () => {
    const bench = benchAtTube(three);
    bench.store.dispatch({ type: 'ranking-seen', tube: 2 });
    bench.type(right, KEYS.delete);
    expect(labels(bench)).toEqual(['one', 'three']);
    expect(bench.state().history.rankingSeen).toEqual([1]);
    bench.type(KEYS.undo);
    expect(bench.state().history.rankingSeen).toEqual([2]);
    bench.type(KEYS.redo);
    expect(bench.state().history.rankingSeen).toEqual([1]);
    const trail = readTrail(writeTrail(bench.state().history), recordReader.checkedForm);
    expect(trail?.rankingSeen).toEqual([1]);
  });

  it('is forgotten with its tube', () => {
    const bench = benchAtTube(three);
    bench.store.dispatch({ type: 'ranking-seen', tube: 1 });
    bench.store.dispatch({ type: 'ranking-seen', tube: 2 });
    bench.type(right, KEYS.delete);
    expect(bench.state().history.rankingSeen).toEqual([1]);
  });
});
