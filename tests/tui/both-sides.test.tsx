/** Benches that read left and right, with one window and with two. */
import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import { analyseForm } from '../../src/tui/computation.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { guidance } from '../../src/tui/guidance.ts';
import { rowsOf } from '../../src/tui/rows.ts';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { BLANK_FORM } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { tab, enter, left, right } = KEYS;

/** An invented bench around 181°04', helium read: by one window, and by two. */
const helium = (windows: 1 | 2): BenchForm => {
  const side = (first: string, second: string) =>
    windows === 2 ? ([first, second] as [string, string]) : first;
  const line = (wavelengthNm: number, l: string, l2: string, r: string, r2: string) => ({
    wavelengthNm,
    readings: [{ left: side(l, l2), right: side(r, r2) }] as [{ left: string; right: string }],
  });
  return {
    ...BLANK_FORM,
    instrument: { method: 'both-sides', leastCount: "1'", windows },
    known: [
      {
        lamp: 'helium',
        lines: [
          line(667.82, "228°40'", "48°41'", "133°28'", "313°29'"),
          line(587.56, "229°19'", "49°20'", "132°49'", "312°50'"),
          line(447.15, "231°20'", "51°21'", "130°48'", "310°49'"),
        ],
      },
    ],
  };
};

function screen(bench: ReturnType<typeof openBench>, columns = 80, rows = 24): string {
  return renderToString(<BenchScreen state={bench.state()} columns={columns} rows={rows} ascii={false} />, {
    columns,
  });
}

describe('a bench that reads both sides, at 80 columns', () => {
  it.each([
    [1, /587\.56 +l 229°19' r 132°49' .*48°15'/],
    [2, /587\.56 +l 229 19\/49 20 r 132 49\/312 50 +[+-]/],
  ] as const)('shows every reading of a known line, %d window(s)', (windows, row) => {
    const bench = openBench(helium(windows), undefined, analyseForm);
    bench.type(tab);
    expect(screen(bench)).toMatch(row);
    expect(screen(bench)).not.toMatch(/\d~/);
  });

  it('shows every reading of a line of the tube, and keeps its wavelength', () => {
    const bench = openBench(helium(2), undefined, analyseForm);
    bench.type(tab, tab, "228°50' / 48°51' / 133°18' / 313°19'\r");
    expect(screen(bench)).toMatch(/l 228 50\/48 51 r 133 18\/313 19 6\d\d/);
  });

  it('says when the left is in, and where the right is to be expected', () => {
    const bench = openBench(helium(1), undefined, analyseForm);
    bench.type(tab, '\x1b[H', '\x1b[B', '\x1b[B');
    expect(guidance(bench.state())).toMatch(/^Find the green line 501\.6, near left 230/);
    bench.type("230°18'\r");
    expect(guidance(bench.state())).toMatch(
      /^Left is in\. Now the other side: the same line on the right of the central image, near 13\d°\d\d'/,
    );
    const two = openBench(helium(2), undefined, analyseForm);
    two.type(tab, tab, "228°50'\r");
    expect(guidance(two.state())).toMatch(/^Now left window B, with the telescope where it is\./);
    two.type("48°51'\r");
    expect(guidance(two.state())).toMatch(/^Left is in\./);
  });

  it("draws the strip on the left side's own circle", () => {
    const bench = openBench(helium(1), undefined, analyseForm);
    bench.type(tab, tab);
    expect(screen(bench)).toMatch(/┼229°00' .*┼230°00'/);
    bench.type("228°50'\r133°18'\r");
    // The pointer of 228°50' stands before the mark of 229°00'.
    const rows = screen(bench).split('\n');
    const axis = rows.find((row) => row.includes('┼229°00')) ?? '';
    const pointers = rows[rows.indexOf(axis) + 1] ?? '';
    expect(pointers.indexOf('▼')).toBeGreaterThan(0);
    expect(pointers.indexOf('▼')).toBeLessThan(axis.indexOf('┼229°00'));
  });
});

describe('what a method excludes', () => {
  const fields = (bench: ReturnType<typeof openBench>) =>
    rowsOf(bench.state()).flatMap((row) => (row.kind === 'field' ? [row.field] : []));

  it('is not offered: no prism set once on both sides, none at all on a scale', () => {
    const bench = openBench(BLANK_FORM);
    expect(fields(bench)).toContain('prism');
    bench.type(right);
    expect(bench.state().history.record.instrument.method).toBe('both-sides');
    expect(fields(bench)).not.toContain('prism');
    bench.type(right);
    expect(fields(bench)).not.toContain('prism');
  });

  it('goes when the method is chosen', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(enter, enter, enter, right);
    expect(bench.state().history.record.instrument.prism).toBe('fixed');
    bench.type('\x1b[H', right);
    expect(bench.state().history.record.instrument).toEqual({ method: 'both-sides', leastCount: "1'" });
    bench.type(left);
    expect(fields(bench)).toContain('prism');
  });

  it('can still be changed where a record says it', () => {
    const instrument = { method: 'both-sides', leastCount: "1'", prism: 'fixed' } as const;
    const bench = openBench({ ...BLANK_FORM, instrument });
    bench.type(enter, enter, enter, left);
    expect(bench.state().history.record.instrument.prism).toBe('each-line');
  });
});

it('a colour that has no room stands there in short, as it may be typed', () => {
  const form: BenchForm = {
    ...BLANK_FORM,
    central: ['181 04'],
    known: [
      { lamp: 'mercury', lines: [{ wavelengthNm: 435.83, readings: ['231 26'], color: 'blue-violet' }] },
    ],
    unknown: [
      {
        lines: [
          { readings: ['231 20'], color: 'blue-violet', brightness: 'strong' },
          { readings: ['228 40'], color: 'deep red' },
        ],
      },
    ],
  };
  const bench = openBench(form, undefined, analyseForm);
  bench.type(tab);
  expect(screen(bench)).toMatch(/435\.83 bv +231 26/);
  bench.type(tab);
  expect(screen(bench)).toMatch(/231 20 +bv strong/);
  expect(screen(bench)).toMatch(/228 40 +deep red/);
});
