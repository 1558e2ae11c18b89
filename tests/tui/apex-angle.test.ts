import { describe, expect, it } from 'vitest';
import { analyseForm } from '../../src/tui/computation.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BLANK_FORM } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { down, up, backspace, enter } = KEYS;
const CTRL_U = '\x15';
const CTRL_Z = '\x1a';

/** With the cursor on the apex angle. */
function benchAtApex(form: BenchForm = BLANK_FORM) {
  const bench = openBench(form);
  bench.type(...Array.from({ length: 6 }, () => down));
  expect(cursorRow(bench)).toContain('Apex angle');
  return bench;
}

const cursorRow = (bench: ReturnType<typeof openBench>) =>
  linearSentences(bench.state(), false).find((text) => text.startsWith('▸')) ?? '';
const apexOf = (bench: ReturnType<typeof openBench>) => bench.state().history.record.instrument.apexAngle;

describe('the apex angle', () => {
  it('is typed as an angle, with its uncertainty or without', () => {
    const bench = benchAtApex();
    bench.type("60°00'\r", up, "59 58 ± 2'\r");
    expect(apexOf(bench)).toEqual({ value: '59 58', u: "2'" });
    // On the row of the title a u is a letter.
    bench.type(CTRL_Z);
    expect(apexOf(bench)).toBe("60°00'");
    bench.type("60 02 +/- 3'\r");
    expect(apexOf(bench)).toEqual({ value: '60 02', u: "3'" });
  });

  it('is typed as the two reflected images, and shown with half the angle between them', () => {
    const bench = benchAtApex();
    bench.type('left 121 04 right 1 02\r', up);
    expect(apexOf(bench)).toEqual({ readings: { left: '121 04', right: '1 02' } });
    expect(cursorRow(bench)).toBe("▸ Apex angle 60°01' from left 121 04 right 1 02");
    expect(analyseForm(bench.state().history.record).bench.apexAngle?.valueDeg).toBeCloseTo(60 + 1 / 60, 6);
  });

  it('of two windows has both of each image', () => {
    const bench = benchAtApex({
      ...BLANK_FORM,
      instrument: { method: 'central', leastCount: "1'", windows: 2 },
    });
    bench.type('left 121 04 right 1 02\r');
    expect(bench.state().entry.refusal).toMatch(/one line: left 121 04 \/ 301 05 right/);
    bench.type(CTRL_U, '121 04 / 301 05 / 1 02 / 181 02\r', up);
    expect(apexOf(bench)).toEqual({ readings: { left: ['121 04', '301 05'], right: ['1 02', '181 02'] } });
    expect(cursorRow(bench)).toContain("60°01' from left");
    bench.type(up, up, up, up, KEYS.left);
    expect(bench.state().history.record.instrument.windows).toBe(2);
    expect(bench.state().notice?.text).toMatch(/readings already/);
  });

  it('comes back for editing as it was typed, and is cleared by Delete', () => {
    const bench = benchAtApex();
    bench.type('left 121 04 right 1 02\r', up, KEYS.edit);
    expect(bench.state().entry.text).toBe('left 121 04 right 1 02');
    bench.type(backspace, '4', enter, up);
    expect(apexOf(bench)).toEqual({ readings: { left: '121 04', right: '1 04' } });
    bench.type(KEYS.delete);
    expect(apexOf(bench)).toBeUndefined();
    bench.type(KEYS.undo);
    expect(apexOf(bench)).toEqual({ readings: { left: '121 04', right: '1 04' } });
  });

  it.each([
    [
      '121 04\r',
      /not the angle of a prism.*The two reflected images are typed in one line: left 121 04 right 1 02/,
    ],
    ['121 04 / 1 75\r', /75 minutes/],
    ['121 04 / 100 02\r', undefined],
    ['181 04 / 1 04 / 3\r', /one line/],
    ['121 04 / 121 04\r', /not the angle of a prism/],
    ["60 00 ± x'\r", /not an angle|x/],
  ])('refuses %j with a sentence where it cannot be', (text, refusal) => {
    const bench = benchAtApex();
    bench.type(text);
    if (refusal === undefined) {
      expect(apexOf(bench)).toEqual({ readings: { left: '121 04', right: '100 02' } });
      return;
    }
    expect(bench.state().entry.refusal).toMatch(refusal);
    expect(apexOf(bench)).toBeUndefined();
  });

  it('is asked about once where it is odd', () => {
    const bench = benchAtApex();
    bench.type('left 121°04\'30" right 1 02\r');
    expect(bench.state().entry.query?.join()).toMatch(/finer/);
    bench.type(enter);
    expect(apexOf(bench)).toMatchObject({ readings: { left: '121°04\'30"' } });
  });
});
