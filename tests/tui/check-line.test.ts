import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/read-record.ts';
import { formText } from '../../src/tui/form.ts';
import { recordReader } from '../../src/tui/record-reader.ts';
import { readTrail, writeTrail } from '../../src/tui/trail.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { calibrateAndTell as calibrate } from '../calibrate-and-tell.ts';
import { FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { tab, up, down, backspace } = KEYS;
const HOME = '\x1b[H';
const END = '\x1b[F';

/** On the lamp stage at the row of a wavelength. */
function benchAt(wavelength: string, form = FILLED) {
  const bench = openBench(form);
  bench.type(tab, HOME);
  for (let row = 0; row < 12; row += 1) {
    if (rowText(bench).includes(wavelength)) return bench;
    bench.type(down);
  }
  throw new Error(`no row with ${wavelength}`);
}

const said = (bench: ReturnType<typeof openBench>) => linearSentences(bench.state(), true);
const rowText = (bench: ReturnType<typeof openBench>) =>
  said(bench).find((text) => text.startsWith('>')) ?? '';
const lamp = (bench: ReturnType<typeof openBench>) => bench.state().history.record.known[0]!;
const statedIn = (lines: readonly { readonly wavelengthNm?: number | undefined }[] = []) =>
  lines.map(({ wavelengthNm }) => wavelengthNm);

describe('t on a known line', () => {
  it('takes it out of the curve as a check line, says so at the row, and back', () => {
    const bench = benchAt('546.07');
    bench.type(act('check-line'));
    expect(statedIn(lamp(bench).lines)).toEqual([404.66, 435.83, 579.07]);
    expect(lamp(bench).check).toEqual([{ wavelengthNm: 546.07, readings: ["229°40'"] }]);
    expect(bench.state().result?.analysis?.calibration.lines).toHaveLength(3);
    expect(rowText(bench)).toMatch(/^> 546\.07 229°40' 48°35\.5' [+-]\d\.\d' check line (ok|\?)$/);
    expect(said(bench).join('\n')).toContain('546.07 is a check line now, out of the curve');
    bench.type(act('check-line'));
    expect(statedIn(lamp(bench).lines)).toEqual([404.66, 435.83, 579.07, 546.07]);
    expect(lamp(bench)).not.toHaveProperty('check');
    expect(bench.state().result?.analysis?.calibration.lines).toHaveLength(4);
  });

  it('is undone and done again, and named in the trail', () => {
    const bench = benchAt('546.07');
    bench.type(act('check-line'), KEYS.undo);
    expect(formText(bench.state().history.record)).toBe(formText(FILLED));
    expect(bench.state().notice?.text).toBe('Undone: 546.07 a check line, out of the curve.');
    bench.type(KEYS.redo);
    expect(lamp(bench).check).toHaveLength(1);
    const trail = readTrail(writeTrail(bench.state().history), recordReader.checkedForm);
    expect(trail?.record).toEqual(bench.state().history.record);
    expect(trail?.past.at(-1)?.what).toBe('546.07 a check line, out of the curve');
  });

  it('keeps what was noted of the line', () => {
    const seen = { color: 'green', brightness: 'strong', note: 'sharp' } as const;
    const [first, ...rest] = FILLED.known[0]!.lines;
    const bench = benchAt('404.66', {
      ...FILLED,
      known: [{ lamp: 'mercury', lines: [{ ...first!, ...seen }, ...rest] }],
    });
    bench.type(act('check-line'));
    expect(lamp(bench).check).toEqual([{ wavelengthNm: 404.66, readings: ["232°18'"], ...seen }]);
    const read = readRecord(formText(bench.state().history.record));
    expect(read.ok && read.record.known[0]?.check).toEqual(lamp(bench).check);
    bench.type(act('check-line'));
    expect(lamp(bench).lines.at(-1)).toEqual({ wavelengthNm: 404.66, readings: ["232°18'"], ...seen });
  });

  it('is refused with a sentence where there is no line, or none with a wavelength', () => {
    const bench = benchAt('576.96');
    expect(bench.type(act('check-line')).notice?.text).toMatch(/^There is no line written down here/);
    bench.type(END, '230 10\r', '\r', up, act('check-line'));
    expect(bench.state().notice?.text).toMatch(/needs its wavelength/);
  });
});

describe('a check line', () => {
  it('is repeated, edited, coloured and deleted like any other, and cannot be set aside', () => {
    const bench = benchAt('546.07');
    bench.type(act('check-line'), '229 40\r');
    expect(lamp(bench).check?.[0]?.readings).toEqual(["229°40'", '229 40']);
    bench.type(HOME);
    while (!rowText(bench).includes('546.07')) bench.type(down);
    bench.type(KEYS.edit, backspace, '1\r');
    expect(lamp(bench).check?.[0]?.readings).toEqual(["229°40'", '229 41']);
    bench.type(act('brightness'), act('colour'), 'green\r', act('set-aside'));
    expect(lamp(bench).check?.[0]).toMatchObject({ brightness: 'strong', color: 'green' });
    expect(bench.state().notice?.text).toMatch(/^A check line is out of the curve already/);
    bench.type(KEYS.delete, KEYS.delete);
    expect(lamp(bench)).not.toHaveProperty('check');
    bench.type(KEYS.undo, KEYS.undo);
    expect(lamp(bench).check?.[0]?.readings).toEqual(["229°40'", '229 41']);
  });

  it('is typed beside the line it re-reads by the word check', () => {
    const bench = benchAt('546.07');
    bench.type('229 40 check\r');
    expect(lamp(bench).lines).toEqual(FILLED.known[0]!.lines);
    expect(lamp(bench).check).toEqual([{ wavelengthNm: 546.07, readings: ['229 40'] }]);
    bench.type('435.83 = 231 26 check\r', '+', '231 25\r');
    expect(lamp(bench).check?.[1]).toEqual({ wavelengthNm: 435.83, readings: ['231 26', '231 25'] });
    bench.type(END, '230 10 check\r');
    expect(bench.state().entry.refusal).toMatch(/needs its wavelength/);
    bench.type(KEYS.escape, tab, '230 10 check\r');
    expect(bench.state().entry.refusal).toMatch(/known line only/);
  });

  it('far off the curve is asked about, and its sentence says what it means', () => {
    const bench = benchAt('546.07');
    bench.type('229 52 check\r');
    expect(bench.state().entry.query?.join()).toMatch(/from where 546\.1 nm should be/);
    bench.type('\r', HOME);
    while (!rowText(bench).includes('check line')) bench.type(down);
    expect(rowText(bench)).toContain('check line ?');
    bench.type(KEYS.escape);
    expect(said(bench).join('\n')).toMatch(
      /The check line 546\.07 lies \+1[12]\.\d' away from the curve, \d+\.\d times its uncertainty/,
    );
  });

  it('that belongs to no lamp is shown with the first, and stays where the record has it', () => {
    const check = [{ wavelengthNm: 546.07, readings: ["229°41'"] as [string] }];
    const bench = benchAt('check line', { ...FILLED, check });
    bench.type('229 40\r');
    expect(bench.state().history.record.check?.[0]?.readings).toEqual(["229°41'", '229 40']);
    expect(lamp(bench)).not.toHaveProperty('check');
  });

  it('lies off the curve by what the calibration through the others leaves', () => {
    const bench = benchAt('546.07');
    bench.type(act('check-line'));
    const { bench: numbers } = bench.state().result!.analysis!;
    const curve = calibrate({ ...numbers, check: [] }).calibration.curve!;
    // 229°40' minus the mean of 181°04' and 181°05'.
    const off = 229 * 60 + 40 - (181 * 60 + 4.5) - curve.ordinateAt(546.07);
    expect(rowText(bench)).toContain(` ${off < 0 ? '-' : '+'}${Math.abs(off).toFixed(1)}' check line`);
  });
});
