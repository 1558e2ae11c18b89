import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import { analyseForm } from '../../src/tui/computation.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { BLANK_FORM } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

/** As a grating of 600 lines per mm turns them in the first order, from the central image at 181°04'. */
const onGrating = (...wavelengthsNm: readonly number[]): BenchForm => ({
  ...BLANK_FORM,
  central: ["181°04'"],
  known: [
    {
      lamp: 'mercury',
      lines: wavelengthsNm.map((wavelengthNm) => {
        const arcmin = Math.round(60 * (181 + 4 / 60 + (Math.asin(wavelengthNm * 600e-6) * 180) / Math.PI));
        return { wavelengthNm, readings: [`${Math.floor(arcmin / 60)}°${arcmin % 60}'`] };
      }),
    },
  ],
  unknown: [{ lines: [] }],
});
const FOUR = onGrating(435.83, 546.07, 576.96, 579.07);
const WHY = 'The longer wavelengths deviate more, and a prism does the opposite: is this a grating?';
const TOO_FEW = /two or three/;

function screens(form: BenchForm, keys: readonly string[], columns: number, rows: number): string {
  const bench = openBench(form, undefined, analyseForm);
  bench.type(KEYS.tab, ...keys);
  const frame = renderToString(
    <BenchScreen state={bench.state()} columns={columns} rows={rows} ascii={false} />,
    { columns },
  );
  return frame.replace(/[\s│]+/g, ' ');
}

describe('without a curve though there are lines enough', () => {
  it.each([
    [60, 20],
    [80, 24],
    [140, 40],
  ])('the screen of %d x %d says why, on the stages of the lamp and the tube', (columns, rows) => {
    // Beside the list the sentence stands in lines of its own, between those of the list.
    const words = columns > 100 ? 'is this a grating?' : WHY;
    for (const keys of [[], [KEYS.tab], [' ', ' '], [' ', ' ', ' ']]) {
      const text = screens(FOUR, keys, columns, rows);
      expect(text).toContain(words);
      expect(text).not.toMatch(TOO_FEW);
    }
  });

  it('the linear screen and the quick check say it too', () => {
    const bench = openBench(FOUR, undefined, analyseForm);
    bench.type(KEYS.tab);
    expect(linearSentences(bench.state(), false).join('\n')).toContain(WHY);
    bench.type(KEYS.quickCheck, 'helium\r');
    expect(bench.state().entry.refusal).toBe(WHY);
  });

  it('with one line it is only said that more are needed', () => {
    const text = screens(onGrating(546.07), [' ', ' '], 80, 24);
    expect(text).toMatch(TOO_FEW);
    expect(text).not.toContain('grating');
  });
});
