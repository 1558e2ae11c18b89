import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import { analyseForm } from '../../src/tui/computation.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { act, KEYS, openBench } from './harness.ts';

const HOME = '\x1b[H';

/** An invented bench: 491.61 named for its neighbour, one division of the main scale missed at 435.83. */
const DOUBTFUL: BenchForm = {
  whichgas: 1,
  instrument: { method: 'central', leastCount: "1'" },
  central: ['74 31', '74 32'],
  known: [
    {
      lamp: 'mercury',
      lines: [
        { wavelengthNm: 579.07, readings: ['128 11'] },
        { wavelengthNm: 576.96, readings: ['128 12'] },
        { wavelengthNm: 546.07, readings: ['128 36'] },
        { wavelengthNm: 435.83, readings: ['130 28'] },
        { wavelengthNm: 623.44, readings: ['127 43'] },
        { wavelengthNm: 496.01, readings: ['129 32'] },
        { wavelengthNm: 404.66, readings: ['132 10'] },
      ],
      check: [{ wavelengthNm: 546.07, readings: ['128 37'] }],
    },
  ],
  unknown: [{ lines: [] }],
};

function screenOf(
  columns: number,
  rows: number,
  ascii: boolean,
  keys: readonly string[],
  form = DOUBTFUL,
): string {
  const bench = openBench(form, undefined, analyseForm);
  bench.type(KEYS.tab, ...keys);
  return renderToString(<BenchScreen state={bench.state()} columns={columns} rows={rows} ascii={ascii} />, {
    columns,
  });
}

const asText = (screen: string): string => screen.replace(/\s+/g, ' ');
const count = (text: string, part: string): number => text.split(part).length - 1;
const NAMED = 'the line named 496.01 reads like 491.61';

describe('a known line named for its neighbour', () => {
  it('is said with the key that confirms it, away from its row and at it', () => {
    const away = asText(screenOf(80, 24, false, []));
    expect(away).toContain(
      'mark it confirmed if you are sure. On its row /confirm keeps it, /which line changes it.',
    );
    const here = asText(screenOf(80, 24, false, [HOME, ...Array(5).fill(KEYS.down)]));
    expect(here).toContain('mark it confirmed if you are sure. /confirm keeps it, /which line changes it.');
    expect(count(here, NAMED)).toBe(1);
  });

  it('is doubted no longer once h has confirmed it', () => {
    const held = asText(screenOf(80, 24, false, [HOME, ...Array(5).fill(KEYS.down), act('confirm')]));
    expect(held).not.toContain(NAMED);
    expect(held).toMatch(/496\.01 .*\(held\)/);
  });

  it.each([
    [60, 20],
    [80, 24],
    [140, 40],
  ])('at %d x %d every sentence is whole, on every row and in the pictures', (columns, rows) => {
    for (let row = 0; row < 9; row += 1) {
      for (const pictures of [[], [' '], [' ', ' ']]) {
        const screen = screenOf(columns, rows, false, [HOME, ...Array(row).fill(KEYS.down), ...pictures]);
        const text = asText(screen.replaceAll('│', ' '));
        expect(screen).not.toMatch(/\w~/);
        expect(count(text, NAMED)).toBe(count(text, '/which line changes it.'));
        expect(count(text, 'reads like 130°58')).toBe(count(text, 'Read it again.'));
      }
    }
  });

  it('says how many doubts have no room', () => {
    expect(asText(screenOf(60, 20, false, [' ', ' ']))).toContain(
      '! 1 more doubt: go to the line marked ! in the list.',
    );
  });
});

it('a screen reader hears how many lines the curve goes through, and every doubt', () => {
  const bench = openBench(DOUBTFUL, undefined, analyseForm);
  bench.type(KEYS.tab);
  const said = linearSentences(bench.state(), false).join('\n');
  expect(said).toMatch(
    /^Curve through 6 of 7 lines as read, 1 with its slip undone; the largest residual is [+-]0\.\d' at \d+\.\d nm\.$/m,
  );
  expect(said).toContain('! Known line 4 (the line named 435.83, read 130 28): ');
  expect(said).toContain(NAMED);
});

describe('a plain scale', () => {
  const form: BenchForm = {
    whichgas: 1,
    instrument: { method: 'scale', leastCount: 0.1 },
    known: [
      {
        lamp: 'helium',
        lines: [
          { wavelengthNm: 706.52, readings: [3.1] },
          { wavelengthNm: 587.56, readings: [5.2] },
          { wavelengthNm: 501.57, readings: [8.3] },
          { wavelengthNm: 447.15, readings: [11.3] },
        ],
      },
    ],
    unknown: [{ lines: [] }],
  };

  it('has no deviations, and says to a tenth of its least count how far off a line lies', () => {
    const drawn = screenOf(80, 24, false, [], form);
    expect(drawn).not.toContain('deviation');
    expect(drawn).toMatch(/587\.56 +5\.2 +[+-]0\.\d\d units/);
  });
});

describe('the residual picture', () => {
  const picture = (ascii: boolean, form = DOUBTFUL) => screenOf(80, 24, ascii, [' ', ' '], form);

  it('draws the check line with a sign of its own beside the line it re-reads, and says what the signs mean', () => {
    const drawn = picture(false);
    expect(drawn).toContain('● in fit  × out, farther off  ◇ check line');
    // Read a minute further along the circle than its line in the fit: in the same column, higher up.
    const rows = drawn.split('\n').filter((text) => text.includes('│'));
    const check = rows.findIndex((text) => text.includes('◇'));
    const column = rows[check]?.indexOf('◇') ?? -1;
    expect(rows.findIndex((text) => text[column] === '●')).toBeGreaterThan(check);
  });

  it('does so in plain characters', () => {
    const drawn = picture(true);
    expect(drawn).toContain('o in fit  x out, farther off  c check line');
    expect(drawn).toMatch(/^[ +\d.]+\| +c *$/m);
    expect(drawn).toMatch(/^[\x20-\x7e\n]*$/);
  });

  it('draws both signs side by side where they fall on one place', () => {
    const [lamp] = DOUBTFUL.known;
    const same = {
      ...DOUBTFUL,
      known: [{ ...lamp!, check: [{ wavelengthNm: 546.07, readings: ['128 36'] as [string] }] }],
    };
    expect(picture(false, same)).toContain('●◇');
  });

  it('has no key where every point is an ordinary one', () => {
    const [lamp] = DOUBTFUL.known;
    const lines = lamp!.lines.filter(
      ({ wavelengthNm }) => wavelengthNm !== 435.83 && wavelengthNm !== 496.01,
    );
    const drawn = picture(false, { ...DOUBTFUL, known: [{ lamp: 'mercury', lines }] });
    expect(drawn).toContain('read minus curve, arc-minutes');
    expect(drawn).not.toContain('in the fit');
  });
});

describe('readings rounded to whole and half degrees', () => {
  const ROUNDED: BenchForm = {
    whichgas: 1,
    instrument: { method: 'central', leastCount: "1'" },
    central: ['180 00'],
    known: [
      {
        lamp: 'mercury',
        lines: [
          { wavelengthNm: 404.66, readings: ['231 30'] },
          { wavelengthNm: 435.83, readings: ['230 30'] },
          { wavelengthNm: 491.61, readings: ['229 30'] },
          { wavelengthNm: 546.07, readings: ['228 30'] },
          { wavelengthNm: 623.44, readings: ['228 00'] },
        ],
      },
    ],
    unknown: [{ lines: [{ readings: ['230 00'] }, { readings: ['229 00'] }, { readings: ['227 30'] }] }],
  };

  it('are said below the known lines', () => {
    const shown = asText(screenOf(110, 40, false, [], ROUNDED));
    expect(shown).toContain("the known lines: all readings are multiples of 30'");
  });
});
