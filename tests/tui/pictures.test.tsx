/** The pictures of the stages: one choice for each, one direction for all, and colours for any terminal. */
import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import { decoded, luminanceOf } from '../../src/lines/screen-colour.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { PICTURES } from '../../src/tui/state.ts';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { lookOf, type Tone } from '../../src/tui/views/theme.ts';
import { FILLED } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { tab, backTab } = KEYS;
const SIZES = [
  [60, 20],
  [80, 24],
  [140, 40],
] as const;

function drawn(bench: ReturnType<typeof openBench>, columns = 80, rows = 24): string {
  return renderToString(<BenchScreen state={bench.state()} columns={columns} rows={rows} ascii={false} />, {
    columns,
  });
}

describe('Space', () => {
  it.each(SIZES)(
    'at %d x %d shows something else at every press, and the list in the end',
    (columns, rows) => {
      for (const [tabs, stage] of [
        [1, 'lamp'],
        [2, 'tube'],
        [3, 'answer'],
      ] as const) {
        const bench = openBench(FILLED);
        bench.type(...Array<string>(tabs).fill(tab));
        const frames = PICTURES[stage].map(() => {
          const before = drawn(bench, columns, rows);
          bench.type(' ');
          return before;
        });
        expect(new Set(frames).size, stage).toBe(frames.length);
        expect(drawn(bench, columns, rows)).toBe(frames[0]);
      }
    },
  );

  it('leaves the other stages as they are', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab);
    const tube = drawn(bench);
    bench.type(backTab, ' ');
    const curve = drawn(bench);
    bench.type(tab);
    expect(drawn(bench)).toBe(tube);
    bench.type(backTab);
    expect(drawn(bench)).toBe(curve);
  });

  it('is not offered where there is one view only, and is no text there', () => {
    const bench = openBench(FILLED);
    bench.type(' ');
    expect(bench.state().entry.text).toBe('');
    expect(drawn(bench)).not.toContain('Space');
  });
});

describe('spectrum and curve', () => {
  const ends = (text: string) =>
    text
      .split('\n')
      .map((row) => /^\s*(red|violet) .*(?<!\w)(red|violet)\s*$/.exec(row))
      .flatMap((found) => (found === null ? [] : [`${found[1]} ${found[2]}`]));

  it('run the same way, and say which end is red', () => {
    const bench = openBench(FILLED);
    bench.type(tab, ' ');
    expect(ends(drawn(bench))).toEqual(['red violet', 'red violet']);
    expect(drawn(bench)).toMatch(/700 +650 +600 .* 450/);
  });

  it('have red at the right on a circle that is numbered the other way', () => {
    // The same bench, its circle read backwards: 360° minus every reading.
    const turned = (reading: string): string => {
      const [, degrees = 0, minutes = 0] = /(\d+)°(\d+)/.exec(reading) ?? [];
      const left = 360 * 60 - (60 * Number(degrees) + Number(minutes));
      return `${Math.floor(left / 60)}°${String(left % 60).padStart(2, '0')}'`;
    };
    const mirrored = JSON.parse(JSON.stringify(FILLED), (_, value) =>
      typeof value === 'string' && /^\d+°\d+'$/.test(value) ? turned(value) : value,
    ) as BenchForm;
    const bench = openBench(mirrored);
    bench.type(tab, ' ');
    expect(ends(drawn(bench))).toEqual(['violet red', 'violet red']);
    expect(drawn(bench)).toMatch(/450 .* 600 +650 nm/);
  });
});

describe('colours', () => {
  const luminance = (hex: string): number =>
    luminanceOf([1, 3, 5].map((at) => decoded(Number.parseInt(hex.slice(at, at + 2), 16) / 255)));
  /** WCAG 2.1: contrast ratio to a white and to a black terminal. */
  const contrasts = (hex: string): readonly number[] => [
    1.05 / (luminance(hex) + 0.05),
    (luminance(hex) + 0.05) / 0.05,
  ];
  const look = lookOf('evening', false);

  it('of lines can be made out on a white and on a black terminal', () => {
    for (let nm = 380; nm <= 780; nm += 1)
      for (const contrast of contrasts(look.lineColour(nm)!))
        expect(contrast, `${nm} nm`).toBeGreaterThan(2.95);
  });

  it('of words can be read on both', () => {
    for (const tone of ['normal', 'strong', 'faint', 'accent', 'good', 'doubt', 'bad'] satisfies Tone[]) {
      const hex = look.colourOf(tone);
      if (hex === undefined) continue;
      for (const contrast of contrasts(hex)) expect(contrast, tone).toBeGreaterThan(4);
    }
  });

  it('keep their hue: red, yellow, green, blue, violet stay apart', () => {
    const parts = (nm: number) =>
      [1, 3, 5].map((at) => Number.parseInt(look.lineColour(nm)!.slice(at, at + 2), 16));
    const [red, yellow, green, blue] = [656, 580, 530, 460].map(parts) as number[][];
    expect(Math.max(...red!)).toBe(red![0]);
    expect(Math.abs(yellow![0]! - yellow![1]!)).toBeLessThan(60);
    expect(Math.max(...green!)).toBe(green![1]);
    expect(Math.max(...blue!)).toBe(blue![2]);
  });
});

it('an exercise marks no reading as off from a tube that it keeps back', () => {
  const bench = openBench({ ...FILLED, ranking: 'after-answer' });
  bench.type(tab, tab);
  const rows = drawn(bench).split('\n');
  const pointers = rows.findIndex((row) => row.includes('▼'));
  expect(pointers).toBeGreaterThan(0);
  expect(rows[pointers + 1]?.trim()).toBe('');
  bench.type(tab);
  expect(drawn(bench, 60, 20)).toContain('Possible tubes: kept back until your answer is written.');
});
