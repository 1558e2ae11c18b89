/** What is said at the right moment of looking, setting and going on (common practice, no source). */
import { describe, expect, it } from 'vitest';
import { adviseLamps } from '../../src/analysis/advise-lamp.ts';
import { analyseForm } from '../../src/tui/computation.ts';
import { demoBench } from '../../src/tui/demo-bench.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { guidance } from '../../src/tui/guidance.ts';
import { rowsOf } from '../../src/tui/rows.ts';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { tab, enter } = KEYS;
const told = (bench: ReturnType<typeof openBench>) => guidance(bench.state());

describe('setting', () => {
  it('begins with sharp cross-hairs and a bright central image', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(enter, enter, enter, enter);
    expect(told(bench)).toMatch(/^Cross-hairs sharp first\..*dim\? Move lamp and slit\./);
  });

  it('says at the first line how the least deviation is found, and later only what to do', () => {
    const bench = openBench({ ...FILLED, known: [{ lamp: 'mercury', lines: [] }] });
    bench.type(tab);
    expect(told(bench)).toContain(
      'turn the prism on while it nears the central image; read where it turns back.',
    );
    bench.type('229 21\r');
    expect(told(bench)).toContain('turn the prism, read where it stops and turns back.');
    const fixed = openBench({
      ...BLANK_FORM,
      central: ['181 04'],
      instrument: { ...BLANK_FORM.instrument, prism: 'fixed' },
    });
    fixed.type(tab, 'mercury\r');
    expect(told(fixed)).not.toContain('turn');
  });

  it('asks for patience with a line that is less bright, and with no other', () => {
    const bench = openBench({ ...FILLED, known: [{ lamp: 'helium', lines: [] }] });
    bench.type(tab);
    const brightnesses = rowsOf(bench.state()).flatMap((row, at) =>
      row.kind === 'expected'
        ? [{ at, isLessBright: row.expected.brightness !== 'strong' && row.expected.prominence < -1 }]
        : [],
    );
    expect(new Set(brightnesses.map(({ isLessBright }) => isLessBright)).size).toBe(2);
    for (const { at, isLessBright } of brightnesses) {
      bench.type('\x1b[H', ...Array<string>(at).fill(KEYS.down));
      expect(told(bench).includes('give your eyes time, keep room light off')).toBe(isLessBright);
    }
  });
});

describe('bands', () => {
  /** The demonstration's bench with other readings of the tube. */
  const withTube = (readings: readonly string[], more: Partial<BenchForm> = {}): BenchForm => ({
    ...demoBench,
    ...more,
    unknown: [{ lines: readings.map((reading) => ({ readings: [reading] as [string] })) }],
  });
  // Heads of the second positive system, 405.9, 399.8, 394.3, 380.5 are hard; those in sight on this bench.
  const neon = demoBench.unknown[0]!.lines.map(({ readings }) => String(readings[0]));

  it('are set on at their sharp edge, said before anything leads', () => {
    const bench = openBench(withTube([]), undefined, analyseForm);
    bench.type(tab, tab);
    expect(told(bench)).toMatch(/bare eye beside the prism.*bands at their sharp edge\.$/);
  });

  it('are spoken of no more where the leader has none', () => {
    const bench = openBench(withTube(neon), undefined, analyseForm);
    bench.type(tab, tab);
    expect(told(bench)).not.toContain('band');
  });

  it('have a side for each tube, and no tube is named where an exercise keeps it back', () => {
    const shelved = { shelf: ['nitrogen'] } as Partial<BenchForm>;
    const bench = openBench(withTube(neon.slice(0, 2), shelved), undefined, analyseForm);
    bench.type(tab, tab);
    expect(told(bench)).toMatch(
      /^On a band of nitrogen set on the sharp edge, on its red side\. Colour may follow/,
    );
    const exercise = openBench(
      withTube(neon.slice(0, 2), { ...shelved, ranking: 'after-answer' }),
      undefined,
      analyseForm,
    );
    exercise.type(tab, tab);
    expect(told(exercise)).toMatch(/^One line after another/);
  });
});

describe('once the known lines are enough', () => {
  it('says which further one helps most, as the command that advises does', () => {
    const six = {
      ...demoBench,
      known: demoBench.known.map((lamp) => ({ ...lamp, lines: lamp.lines.slice(0, 6) })),
    };
    const bench = openBench(six, undefined, analyseForm);
    bench.type(tab, '\x1b[F', '404.66 = 232 24\r', KEYS.undo);
    const { analysis } = bench.state().result!;
    const { bench: benchNow, calibration } = analysis!;
    const advice = adviseLamps(benchNow, calibration, calibration.curve!, ['mercury']);
    const [line] = advice.lamps[0]!.lines;
    expect(told(bench)).toMatch(/^Enough: the curve is good to/);
    expect(told(bench)).toContain(
      `Of what is left ${line!.wavelengthNm.toFixed(1)} ${line!.colour} (near ${line!.reading}) helps most: the lines of tubes then have ± ${line!.rmsNm.toPrecision(2)} nm instead of ± ${advice.nowNm.toPrecision(2)}.`,
    );
  });

  it('says only that more may be typed where none would help', () => {
    const bench = openBench(demoBench, undefined, analyseForm);
    bench.type(tab, '\x1b[F', "404.66 = 232°24'\r", KEYS.undo);
    expect(told(bench)).toMatch(
      /^Enough.*Tab goes to the tube\. (More lines may still be typed|Of what is left)/,
    );
  });
});

it('once the answer is written, what can be done with it is said', () => {
  const bench = openBench(FILLED);
  bench.type(tab, tab, tab);
  expect(told(bench)).toMatch(/^Type the name \(Enter: the list\)\./);
  bench.type('neon\r');
  expect(told(bench)).toBe(
    'Your answer is written; another name changes it. Now /write the report, /another tube, or Ctrl+C leaves.',
  );
});
