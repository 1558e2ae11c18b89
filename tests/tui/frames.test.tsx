import { renderToString } from 'ink';
import { cleanup, render } from 'ink-testing-library';
import stringWidth from 'string-width';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { ToldCalibration } from '../../src/analysis/types.ts';
import { BenchApp } from '../../src/tui/app.tsx';
import { analyseForm } from '../../src/tui/computation.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import type { ScreenState } from '../../src/tui/state.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

afterEach(cleanup);

interface Size {
  readonly columns: number;
  readonly rows: number;
}

const SIZES: readonly Size[] = [
  { columns: 60, rows: 20 },
  { columns: 80, rows: 24 },
  { columns: 120, rows: 33 },
  { columns: 140, rows: 40 },
];

function frame(state: ScreenState, { columns, rows }: Size, ascii = false): string {
  return renderToString(<BenchScreen state={state} columns={columns} rows={rows} ascii={ascii} />, {
    columns,
  });
}

/** Every place of the screen that a person can get to with few keys. */
const PLACES: readonly (readonly [string, BenchForm, readonly string[]])[] = [
  ['a new bench', BLANK_FORM, []],
  ['the circle', FILLED, []],
  [
    'a central reading being typed',
    FILLED,
    [KEYS.down, KEYS.down, KEYS.down, KEYS.down, KEYS.down, KEYS.down, "181°04'"],
  ],
  ['the lamp list', BLANK_FORM, [KEYS.tab]],
  ['the known lamp', FILLED, [KEYS.tab]],
  ['a known line being typed', FILLED, [KEYS.tab, "229°22'"]],
  ['a reading asked about', FILLED, [KEYS.tab, "228°52'\r"]],
  ['a reading refused', FILLED, [KEYS.tab, '229 75\r']],
  ['the tube', FILLED, [KEYS.tab, KEYS.tab]],
  ['looking', FILLED, [KEYS.tab, KEYS.tab, KEYS.look]],
  ['nothing there', FILLED, [KEYS.tab, KEYS.tab, KEYS.look, '-']],
  ['the paste preview', FILLED, [KEYS.tab, KEYS.tab, '\x1b[200~229 39\n231 26 blue\nrubbish\x1b[201~']],
  ['the answer', FILLED, [KEYS.tab, KEYS.tab, KEYS.tab]],
  ['the answer list', FILLED, [KEYS.tab, KEYS.tab, KEYS.tab, KEYS.enter, 'ne']],
  ['the ranking kept back', { ...FILLED, ranking: 'after-answer' }, [KEYS.tab, KEYS.tab, KEYS.tab]],
  ['the keys', FILLED, [KEYS.tab, KEYS.tab, '?']],
  ['the list of actions', FILLED, [KEYS.tab, KEYS.tab, '/']],
  ['an action searched', FILLED, [KEYS.tab, KEYS.tab, '/shelf']],
  ['the curve', FILLED, [KEYS.tab, ' ']],
  ['the residuals', FILLED, [KEYS.tab, ' ', ' ']],
  ['the possible tubes', FILLED, [KEYS.tab, KEYS.tab, ' ']],
  ['the residuals of a tube', FILLED, [KEYS.tab, KEYS.tab, ' ', ' ']],
  ['the quick check', FILLED, [KEYS.tab, KEYS.tab, KEYS.quickCheck, "229°40'\r"]],
  ['the question before leaving', FILLED, [KEYS.tab, '229', '\x03']],
];

describe.each(SIZES)('at $columns x $rows', (size) => {
  it.each(PLACES)('%s fills the frame and breaks no line', (_, form, keys) => {
    const bench = openBench(form);
    bench.type(...keys);
    for (const ascii of [false, true]) {
      const lines = frame(bench.state(), size, ascii).split('\n');
      expect(lines.length).toBe(size.rows - 1);
      for (const line of lines) expect(stringWidth(line)).toBeLessThan(size.columns);
      expect(lines.join('\n')).not.toMatch(/undefined|NaN|\[object|ERROR/);
      if (ascii) expect(lines.join('')).toMatch(/^[\x20-\x7e]*$/);
    }
  });
});

describe('at 60 columns', () => {
  const at60 = (form: BenchForm, ...keys: readonly string[]): readonly string[] => {
    const bench = openBench(form);
    bench.type(...keys);
    return frame(bench.state(), SIZES[0]!).split('\n');
  };

  it('keeps the residual and the sign of a known line, and its whole reading', () => {
    const bothSides: BenchForm = {
      ...FILLED,
      instrument: { method: 'both-sides', leastCount: "1'" },
      known: [{ lamp: 'mercury', lines: [{ wavelengthNm: 546.07, readings: [sides, sides] }] }],
      unknown: [{ lines: [] }],
    };
    expect(at60(FILLED, KEYS.tab).join('\n')).toMatch(/ 3 546\.07 229°40' +[+-]\d\.\d' +✓/);
    expect(at60(bothSides, KEYS.tab).join('\n')).toMatch(/1 546\.07 l 229 40 r 132 28 \+1$/m);
    const held = at60(FILLED, KEYS.tab, '\x1b[H', act('set-aside')).join('\n');
    expect(held).toContain('set aside by you');
  });

  it('keeps the difference of a reading from the compared tube', () => {
    expect(at60(FILLED, KEYS.tab, KEYS.tab).join('\n')).toMatch(
      /228°53' +\d+\.\d ± \d\.\d.* 640\.2 +[+-]\d\.\d/,
    );
  });

  it('shortens what is read in two windows on both sides, and says so', () => {
    const sides: BenchForm = {
      whichgas: 1,
      instrument: { method: 'both-sides', leastCount: "1'", windows: 2 },
      known: [
        {
          lamp: 'helium',
          lines: [
            { wavelengthNm: 706.52, readings: [{ left: ['210 35', '30 36'], right: ['93 58', '273 59'] }] },
            { wavelengthNm: 667.82, readings: [{ left: ['210 50', '30 51'], right: ['93 43', '273 44'] }] },
          ],
        },
      ],
      unknown: [{ lines: [] }],
    };
    const shown = at60(sides, KEYS.tab).join('\n');
    expect(shown).toMatch(/667\.82 l 210 50~ r 93 43~ .*too few to tell/);
    expect(shown).toMatch(/587\.56 yellow +near left 211°\d\d' right 9\d°\d\d'/);
    expect(shown).not.toMatch(/\d~$/m);
  });

  it('shows both meanings of decimals whole', () => {
    expect(at60(FILLED, KEYS.tab, KEYS.tab, '229.17').join('\n')).toContain(
      "229°10' (decimal degrees) or 229°17' (degrees.minutes)?",
    );
  });

  it('names all four stages, the one at hand in brackets', () => {
    expect(at60(FILLED, KEYS.tab, KEYS.tab, KEYS.tab)[1]).toBe(
      '  1 Circle ✓  2 mercury, 4  3 tube C, 4 [4 Answer]',
    );
  });

  it('has two rows for every step at hand, so that the list keeps its own', () => {
    const steps = [
      at60(FILLED, KEYS.tab),
      at60(FILLED, KEYS.tab, '\x1b[H'),
      at60(FILLED, KEYS.tab, '\x1b[F'),
      at60({ ...FILLED, known: [{ lamp: 'mercury', lines: [] }] }, KEYS.tab),
      at60(FILLED, KEYS.tab, KEYS.tab),
      at60(FILLED, KEYS.tab, KEYS.tab, KEYS.look),
      at60(FILLED, KEYS.tab, KEYS.tab, KEYS.tab),
      at60({ ...FILLED, ranking: 'after-answer' }, KEYS.tab, KEYS.tab, KEYS.tab),
    ];
    // The line typed stands above the panel of seven rows, the step of two and the keys.
    for (const lines of steps) expect(lines.findIndex((text) => text.includes('›'))).toBe(8);
  });

  it('cuts no sentence: a long one takes rows of the list', () => {
    const slip = at60(FILLED, KEYS.tab, KEYS.tab, "229°03'\r");
    expect(slip.join(' ').replace(/\s+/g, ' ')).toContain(
      'That is the place of line 3 again; a repeat of it is typed on its own row (the up arrow, while nothing is typed). Enter takes it all the same.',
    );
    expect(slip.join('')).toContain("229°03'▏");
  });

  it('cuts no sentence of the paste preview and of the question before leaving', () => {
    const pasted = at60(FILLED, KEYS.tab, KEYS.tab, '\x1b[200~229 39\n139 20\nrubbish 5\x1b[201~').join('\n');
    expect(pasted).not.toContain('~');
    expect(pasted).toContain('No visible light falls there on this bench.');
    expect(pasted.replace(/\s+/g, ' ')).toContain('What cannot be read is left out.');
    const many = Array.from({ length: 30 }, (_, at) => `229 ${10 + at}`).join('\n');
    expect(at60(FILLED, KEYS.tab, KEYS.tab, `\x1b[200~${many}\x1b[201~`).join('\n')).toMatch(/and \d\d more/);
    expect(at60(FILLED, KEYS.tab, '229', '\x03').join('\n')).not.toContain('~');
  });

  it('says what is being written where it is not the next reading', () => {
    expect(at60(FILLED, KEYS.tab, KEYS.tab, KEYS.quickCheck).join('\n')).toContain('nothing is written down');
    expect(at60(FILLED, KEYS.tab, KEYS.tab, act('save-as')).join('\n')).toContain(
      'A new file: the record is kept there',
    );
    expect(at60(FILLED, KEYS.tab, KEYS.tab, KEYS.up, act('note')).join('\n')).toContain(
      'A note on this line',
    );
  });

  it('cuts no sentence of the help', () => {
    const bench = openBench(FILLED);
    bench.type(KEYS.tab, '?');
    for (let line = 0; line < 40; line += 1) {
      expect(frame(bench.state(), SIZES[0]!).split('\n').slice(3, -4).join('')).not.toContain('~');
      bench.type(KEYS.down);
    }
  });
});

const sides = { left: '229 40', right: '132 28' };

describe('what the screen says', () => {
  const at80 = (form: BenchForm, ...keys: readonly string[]): string => {
    const bench = openBench(form);
    bench.type(...keys);
    return frame(bench.state(), SIZES[1]!);
  };

  it('names no letter keys where letters are typed', () => {
    const last = at80(BLANK_FORM, '\x1b[F').trimEnd().split('\n').at(-1);
    expect(last?.trim()).toBe('Tab stage  F2 edit  Ctrl+Z undo  / all else  ? help');
    const answer = at80(FILLED, KEYS.tab, KEYS.tab, KEYS.tab).trimEnd().split('\n').at(-1);
    expect(answer?.trim()).toBe(
      'Tab stage  Enter list of names  Space picture  Ctrl+Z undo  / all else  ? help',
    );
  });

  it('names in the bottom line only keys that act while one types', () => {
    const last = at80(FILLED, KEYS.tab, '229 2').trimEnd().split('\n').at(-1);
    expect(last?.trim()).toBe('Enter take it  Esc leave it  Ctrl+U empty the line');
  });

  it('shows where the known lines still to be found are expected', () => {
    expect(at80(FILLED, KEYS.tab)).toMatch(/576\.96 +yellow +expected near 229°2\d'/);
  });

  it('says how far off an expected line may lie, where that is more than one step of the vernier', () => {
    const two: BenchForm = {
      ...FILLED,
      known: [{ lamp: 'mercury', lines: (FILLED.known[0]?.lines ?? []).slice(2) }],
    };
    expect(at80(two, KEYS.tab)).toMatch(/435\.83 +blue-violet +expected near 231°\d\d' ± 1?\d'/);
    expect(at80(FILLED, KEYS.tab)).toMatch(/576\.96 +yellow +expected near 229°2\d'\s/);
    expect(at80(FILLED, KEYS.tab)).not.toMatch(/576\.96.*±/);
  });

  it('numbers the known lines as the sentences do, and ticks only what lies on the curve', () => {
    const good = at80(FILLED, KEYS.tab);
    expect(good).toMatch(/ 1 404\.66 .*✓/);
    expect(good).toMatch(/ 4 579\.07 .*✓/);
    const bench = openBench(FILLED);
    bench.type(KEYS.tab);
    const result = bench.state().result!;
    const { calibration } = result.analysis!;
    const drawnWith = (change: Partial<ToldCalibration>): string => {
      const analysis = { ...result.analysis!, calibration: { ...calibration, ...change } };
      bench.store.dispatch({ type: 'analysed', result: { ...result, analysis } });
      return frame(bench.state(), SIZES[1]!);
    };
    const offByUs = (times: number) =>
      calibration.lines.map((line) =>
        line.index === 1 ? { ...line, residual: times * line.standardUncertainty! } : line,
      );
    expect(drawnWith({ lines: offByUs(-1.9) })).toMatch(/ 2 435\.83 .*✓/);
    const off = drawnWith({ lines: offByUs(-2.1) });
    expect(off).toMatch(/ 2 435\.83 .*' +\?\s/);
    expect(off).toMatch(/ 3 546\.07 .*✓/);
    const scattered = drawnWith({ warnings: [{ code: 'large-scatter', message: 'They scatter.' }] });
    expect(scattered).not.toMatch(/ \d \d{3}\.\d\d .*✓/);
    drawnWith({ lines: offByUs(-2.1) });
    bench.type('\x1b[H', KEYS.down, KEYS.down, KEYS.down);
    expect(frame(bench.state(), SIZES[1]!)).toMatch(
      /Known line 2 lies -\d\.\d' away from the curve, 2\.1 times/,
    );
    bench.type('?');
    expect(frame(bench.state(), SIZES[1]!)).toContain('? farther off');
  });

  it('draws the vernier as the reading was understood', () => {
    const drawn = at80(FILLED, KEYS.tab, "229°22'");
    expect(drawn).toContain("understood as 229°22': main scale 229°00', vernier tick 22 of 30 (22')");
    expect(drawn).toContain("▲ 22'");
  });

  it('writes the difference between each pointer and its line in arc-minutes', () => {
    const strip = at80(FILLED, KEYS.tab, KEYS.tab);
    expect(strip).toContain('┼229°00');
    expect(strip).toMatch(/▼.*▼/);
    expect(strip).toMatch(/[+-]\d\.\d/);
  });

  it('says how well a tube fits, and draws no difference of a reading that fits with a slip undone', () => {
    const bench = openBench(FILLED);
    bench.type(KEYS.tab, KEYS.tab);
    const result = bench.state().result!;
    const [tube] = result.analysis!.tubes;
    const [neon, argon] = tube!.candidates;
    const [first, second] = neon!.matches;
    const matches = [
      { ...first!, residualSigma: 3, residualNm: 1.1 },
      { ...second!, residualSigma: 4, residualNm: -7.7, asRead: false },
    ];
    const candidates = [{ ...neon!, matches, unexplained: [2, 3], missing: [] }, argon!];
    const analysis = { ...result.analysis!, tubes: [{ ...tube!, candidates }] };
    const draw = (...keys: readonly string[]): string => {
      bench.type(...keys);
      bench.store.dispatch({ type: 'analysed', result: { ...result, analysis } });
      return frame(bench.state(), SIZES[1]!);
    };
    const list = draw();
    expect(list).toMatch(/ 1 {2}228°49' .*\+1\.1/);
    expect(list).toMatch(/ 2 {2}228°53' .*\(misread\?\)/);
    expect(list).not.toContain('-7.7');
    expect(list).toMatch(/ misread\?\s/);
    const residuals = draw(' ', ' ');
    expect(residuals).toMatch(/ 2 .*\(misread\?\)/);
    expect(residuals).not.toMatch(/-7\.7|4\.0 u/);
    expect(draw(KEYS.tab)).toContain('2 of 4 fit, 1 if misread');
    expect(draw('?')).toMatch(/it fits\s+only\s+if\s+that\s+reading\s+is\s+misread/);
  });

  it('says in every row of the possible tubes what speaks against it, and whole at the cursor', () => {
    const bench = openBench(FILLED, undefined, analyseForm);
    bench.type(KEYS.tab, KEYS.tab, KEYS.tab);
    const [tube] = bench.state().result!.analysis!.tubes;
    const at = tube!.candidates.findIndex((each) => each.reasonInShort !== null && each.with.length === 0);
    const { substance, reasonInShort, reasonAgainst } = tube!.candidates[at]!;
    const row = frame(bench.state(), SIZES[3]!)
      .split('\n')
      .map((text) => text.slice(0, 78))
      .find((text) => text.includes(` ${substance} `) && text.includes(' fit') && !text.includes('+'));
    expect(row).toContain(reasonInShort);
    bench.type(...Array<string>(at).fill(KEYS.down));
    expect(frame(bench.state(), SIZES[1]!).replace(/\s+/g, ' ')).toContain(reasonAgainst);
  });

  it('keeps the ranking and every candidate name back until an answer is written', () => {
    const exercise: BenchForm = { ...FILLED, ranking: 'after-answer' };
    for (const keys of [[], [KEYS.look], [' '], [' ', ' '], [KEYS.tab], [KEYS.tab, ' ']]) {
      const bench = openBench(exercise);
      bench.type(KEYS.tab, KEYS.tab, ...keys);
      for (const size of SIZES) expect(frame(bench.state(), size)).not.toMatch(/neon|argon/);
    }
    expect(at80(exercise, KEYS.tab, KEYS.tab, KEYS.tab, KEYS.enter, 'argon', KEYS.enter)).toContain('neon');
  });

  it('says a plain sentence in a window that is too small', () => {
    const bench = openBench(FILLED);
    expect(frame(bench.state(), { columns: 50, rows: 24 })).toContain('needs a window of at least 60 x 20');
  });

  it('names the shelf where the possible tubes are shown, or how many stand on it', () => {
    const shelf = (...names: readonly string[]): BenchForm => ({
      ...FILLED,
      unknown: FILLED.unknown.map((tube) => ({ ...tube, shelf: names })),
    });
    const answer = [KEYS.tab, KEYS.tab, KEYS.tab];
    expect(at80(shelf('neon', 'argon'), ...answer)).toContain('not written yet  it can be: neon, argon');
    expect(at80(shelf('neon', 'argon'), KEYS.tab, KEYS.tab, ' ')).toContain('it can be: neon');
    const many = ['neon', 'argon', 'krypton', 'xenon', 'helium', 'carbon dioxide', 'nitrogen'];
    expect(at80(shelf(...many), ...answer)).toContain('it can be: 7 tubes');
    expect(at80(FILLED, ...answer)).not.toContain('it can be');
  });

  it('has for each lamp the cautions that belong to it', () => {
    const helpAt = (lamp: string): string => {
      const bench = openBench({ ...FILLED, known: [{ lamp, lines: [] }] });
      bench.type(KEYS.tab, '?');
      return linearSentences(bench.state(), true).join(' ');
    };
    expect(helpAt('mercury')).toMatch(/stays in its housing.*warm up/);
    expect(helpAt('fluorescent lamp')).toContain('stays in its housing');
    expect(helpAt('sodium')).toContain('warm up');
    expect(helpAt('sodium')).not.toContain('housing');
    expect(helpAt('helium')).toContain('The glass is hot');
    expect(helpAt('helium')).not.toMatch(/housing|warm up/);
    expect(helpAt('a lamp of ours')).toMatch(/Supply off.*stays in its housing.*warm up/);
  });

  it('warns of the supply before the first line', () => {
    const bench = openBench({ ...BLANK_FORM, central: ["181°04'"], known: [{ lamp: 'mercury', lines: [] }] });
    bench.type(KEYS.tab);
    expect(frame(bench.state(), SIZES[1]!)).toContain('Supply off and unplugged');
  });

  it('reads linearly for a screen reader, the plots in words', () => {
    const bench = openBench(FILLED);
    bench.type(KEYS.tab, KEYS.tab);
    const said = linearSentences(bench.state(), false).join('\n');
    expect(said).toContain('Possible tubes: neon 97.0 %; argon 2.0 %');
    expect(said).not.toMatch(/[│┃▼●█─]/);
  });
});

/** Waits until the frame holds what is expected; fails with the frame when it does not come. */
function waitFor(lastFrame: () => string | undefined, content: string | RegExp): Promise<string> {
  const look = (): string => {
    const now = lastFrame() ?? '';
    if (typeof content === 'string' ? now.includes(content) : content.test(now)) return now;
    throw new Error(`"${content}" did not come; the frame is\n${now}`);
  };
  return vi.waitFor(look, { timeout: 20_000, interval: 5 });
}

describe('the app in Ink', () => {
  it('takes two chunks that come before a frame, and Backspace sent as DEL', async () => {
    const bench = openBench(BLANK_FORM);
    const app = render(<BenchApp store={bench.store} ascii={false} />);
    await waitFor(app.lastFrame, 'What is read');
    app.stdin.write('\r\r');
    app.stdin.write('\r\r');
    app.stdin.write('181 045');
    app.stdin.write('\x7f\r');
    const shown = await waitFor(app.lastFrame, /Central image 1 +181 04/);
    expect(shown).not.toContain('ERROR');
  });

  it('lives on after a key nobody has a name for', async () => {
    const bench = openBench(BLANK_FORM);
    const app = render(<BenchApp store={bench.store} ascii={false} />);
    await waitFor(app.lastFrame, 'What is read');
    app.stdin.write('\x1b[1;5P');
    app.stdin.write('?');
    await waitFor(app.lastFrame, 'Help (? closes');
  });

  it('marks the ranking as seen only once it has been shown', async () => {
    const bench = openBench(FILLED);
    const app = render(<BenchApp store={bench.store} ascii={false} />);
    await waitFor(app.lastFrame, 'Circle');
    expect(bench.state().history.rankingSeen).toEqual([]);
    app.stdin.write('\t\t');
    await waitFor(app.lastFrame, 'neon');
    await waitFor(() => JSON.stringify(bench.state().history.rankingSeen), '[0]');
  });
});
