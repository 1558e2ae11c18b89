/** What is typed in part, glued together, named by its side or put on another row is not taken for something else. */
import { describe, expect, it } from 'vitest';
import { readTypedLine } from '../../src/tui/typed.ts';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { tab } = KEYS;
const enter = '\r';
const lampBench = () => {
  const bench = openBench({ ...FILLED, known: [{ lamp: 'mercury', lines: [] }] });
  bench.type(tab, '\x1b[H');
  return bench;
};

describe('a wavelength typed first', () => {
  it.each(['546.07', '546', '546.07 nm'])(
    '%s is not dropped for the reading typed after it',
    (wavelength) => {
      const bench = lampBench();
      bench.type(wavelength, enter);
      expect(bench.state().entry.refusal).not.toBeNull();
      bench.type('229 40', enter);
      expect(bench.state().history.record.known[0]?.lines).toEqual([]);
      expect(bench.state().entry.text).toContain(wavelength);
    },
  );

  it('a refused reading gives way to the next one all the same', () => {
    const bench = lampBench();
    bench.type('229 75', enter);
    expect(bench.state().entry.refusal).not.toBeNull();
    bench.type('229 21', enter);
    expect(bench.state().history.record.known[0]?.lines[0]?.readings).toEqual(['229 21']);
  });
});

describe('the letters of units', () => {
  it.each(['229d 50m', '229d50m', '229d 50 m', '229 21m', '229d21m30s', '229 21 30s'])(
    '%s says nothing of brightness',
    (text) => {
      expect(readTypedLine(text)).toMatchObject({ brightness: null, parts: [text] });
    },
  );

  it.each([
    ['229 21 m', 'medium'],
    ["229°21' s", 'strong'],
    ['229 21 r w', 'weak'],
  ])('%s does', (text, brightness) => {
    expect(readTypedLine(text).brightness).toBe(brightness);
  });
});

describe('five digits', () => {
  const circle = { leastCountArcmin: 1, divisionArcmin: 30, decimal: false } as never;

  it('are degrees and minutes where they are more than a full circle, and only there', () => {
    expect(readTypedLine('22921', circle).parts).toEqual(['229 21']);
    expect(readTypedLine('00021', circle).parts).toEqual(['00021']);
  });
});

describe('a coloured line on the row of a setting', () => {
  it('is no central image', () => {
    const bench = openBench(BLANK_FORM);
    bench.type('229 40 green', enter);
    expect(bench.state().history.record.central ?? []).toEqual([]);
    expect(bench.state().entry.refusal).toMatch(/stages 2 and 3/);
  });
});

describe('a side', () => {
  const instrument = { method: 'both-sides', leastCount: "1'" } as const;
  const bothSides = () => {
    const bench = openBench({ ...BLANK_FORM, instrument, known: [{ lamp: 'mercury', lines: [] }] });
    bench.type(tab, '\x1b[H');
    return bench;
  };

  it('is not taken for the other', () => {
    const bench = bothSides();
    bench.type('r 132 48', enter);
    expect(bench.state().entry).toMatchObject({
      parts: [],
      refusal: expect.stringMatching(/left reading comes first/),
    });
    bench.type('\x15', 'l 229 21', enter);
    expect(bench.state().entry.parts).toHaveLength(1);
    bench.type('left 229 21', enter);
    expect(bench.state().entry.refusal).toMatch(/right one/);
    bench.type('\x15', 'right 132 48', enter, enter);
    expect(bench.state().history.record.known[0]?.lines[0]?.readings).toEqual([
      { left: '229 21', right: '132 48' },
    ]);
  });
});

describe('a prism that was set once', () => {
  it('does not go without a word', () => {
    const bench = openBench({ ...BLANK_FORM, instrument: { ...BLANK_FORM.instrument, prism: 'fixed' } });
    bench.type('\x1b[C');
    expect(bench.state().history.record.instrument.prism).toBeUndefined();
    expect(bench.state().notice?.text).toMatch(/for every line now/);
  });
});

describe('a suggestion for a line typed on the stage of the answer', () => {
  it('is taken by Tab there too', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, tab, '229 21 yelow', enter);
    expect(bench.state().entry.suggestion).toBe('229 21 yellow');
  });
});
