import { describe, expect, it } from 'vitest';
import type { BenchForm } from '../../src/tui/form.ts';
import { recordReader } from '../../src/tui/record-reader.ts';
import { readTrail, writeTrail } from '../../src/tui/trail.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { enter, tab, backspace } = KEYS;
const said = (bench: ReturnType<typeof openBench>) => linearSentences(bench.state(), false).join('\n');
const tubeReadings = (bench: ReturnType<typeof openBench>) =>
  bench.state().history.record.unknown[0]?.lines.map(({ readings }) => readings[0]);

function benchAtTube(form: BenchForm = FILLED) {
  const bench = openBench(form);
  bench.type(tab, tab);
  return bench;
}

describe('a number with a decimal mark typed on a circle with minutes', () => {
  it('is asked about where both meanings are possible; Enter takes the first', () => {
    const bench = benchAtTube();
    bench.type('229.10\r');
    expect(bench.state().entry.query?.[0]).toBe("229°06' (decimal degrees), or 229°10' (degrees.minutes)?");
    expect(said(bench)).toContain("Enter takes the first, Tab writes 229°10'.");
    expect(said(bench)).toContain("229°06' (decimal degrees) or 229°10' (degrees.minutes)?");
    bench.type(enter);
    expect(tubeReadings(bench)?.at(-1)).toBe("229°06'");
    expect(bench.state().notice?.text).toBe("229°06' (decimal degrees) taken.");
  });

  it('is the other by one key, with the colour typed behind it, and that is offered first from then on', () => {
    const bench = benchAtTube();
    bench.type('229,10 red\r', tab, enter);
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)).toEqual({
      readings: ["229°10'"],
      color: 'red',
    });
    bench.type('229.35\r');
    expect(bench.state().entry.query?.[0]).toBe("229°35' (degrees.minutes), or 229°21' (decimal degrees)?");
    bench.type(enter);
    expect(tubeReadings(bench)?.at(-1)).toBe("229°35'");
    const trail = readTrail(writeTrail(bench.state().history), recordReader.checkedForm);
    expect(trail?.decimals).toBe('minutes');
  });

  it('is taken with its meaning said where the circle allows one only', () => {
    const bench = openBench({ ...BLANK_FORM, instrument: { method: 'central', leastCount: "5'" } });
    bench.type(enter, enter, enter, enter, '96.333\r');
    expect(bench.state().history.record.central).toEqual(["96°20'"]);
    expect(bench.state().notice?.text).toBe("96°20' (decimal degrees) taken.");
  });

  it('is asked about as a central reading, and in each window', () => {
    const bench = openBench({
      ...BLANK_FORM,
      instrument: { method: 'central', leastCount: "1'", windows: 2 },
    });
    bench.type(enter, enter, enter, enter, '181.10\r');
    expect(bench.state().entry.query?.[0]).toMatch(/^181°06' .* or 181°10'/);
    bench.type(tab, enter);
    expect(bench.state().entry.parts).toEqual(["181°10'"]);
    bench.type('1.10\r', enter);
    expect(bench.state().history.record.central).toEqual([["181°10'", "1°10'"]]);
  });

  it('offers first what fits the curve, before anything was chosen', () => {
    const bench = openBench(FILLED);
    bench.type(tab, '576.96 = 229.22\r');
    expect(bench.state().entry.query).toEqual(["229°22' (degrees.minutes), or 229°13' (decimal degrees)?"]);
    bench.type(tab);
    expect(bench.state().entry.text).toBe("576.96 = 229°13'");
    // Looking at the other meaning chooses nothing; taking the reading does.
    bench.type(KEYS.escape);
    expect(bench.state().history.decimals).toBeNull();
    bench.type('576.96 = 229.22\r', tab, enter, enter);
    expect(bench.state().history.decimals).toBe('degrees');
  });

  it('edits a reading to the meaning asked about', () => {
    const bench = benchAtTube();
    bench.type(KEYS.up, KEYS.edit, ...Array.from({ length: 7 }, () => backspace), '229.20\r', tab, enter);
    expect(tubeReadings(bench)?.at(-1)).toBe("229°20'");
  });

  it('is answered in both meanings by the quick check, which writes nothing down', () => {
    const bench = benchAtTube();
    bench.type(KEYS.quickCheck, '229.20\r');
    expect(bench.state().notice?.text).toMatch(
      /^229°12' \(decimal degrees\): .* nm, .* Or 229°20' \(degrees\.minutes\): .* nm/,
    );
    expect(bench.state().history.record).toBe(FILLED);
  });

  it('is asked about in the preview of a paste, all lines at once', () => {
    const bench = benchAtTube();
    const paste = '\x1b[200~229.10\n229.35 red\n229 40\x1b[201~';
    bench.type(paste);
    expect(said(bench)).toContain("229°06' (decimal degrees): 229.10");
    expect(said(bench)).toContain('2 may be degrees.minutes: Tab takes them so.');
    bench.type(tab);
    expect(said(bench)).toContain("229°35' (degrees.minutes): 229.35 red");
    bench.type(enter);
    expect(tubeReadings(bench)?.slice(-3)).toEqual(["229°10'", "229°35'", '229 40']);
    expect(bench.state().history.decimals).toBe('minutes');
  });

  it('follows in a paste the lines that can be meant in one way only', () => {
    const bench = benchAtTube({ ...FILLED, instrument: { method: 'central', leastCount: '30"' } });
    bench.type('\x1b[200~229.1030\n229.30\x1b[201~');
    expect(said(bench)).toContain('229°10\'30" (degrees.minutes): 229.1030');
    expect(said(bench)).toContain('229°30\'00" (degrees.minutes): 229.30');
  });

  it('may be a fraction of sixty', () => {
    const bench = benchAtTube();
    bench.type('229 12/60 red\r');
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)).toEqual({
      readings: ["229 12'"],
      color: 'red',
    });
  });

  it('is asked about as an apex angle', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(...Array.from({ length: 6 }, () => KEYS.down), "60.10 ± 2'\r");
    expect(bench.state().entry.query?.[0]).toBe("60°06' (decimal degrees), or 60°10' (degrees.minutes)?");
    bench.type(tab, enter);
    expect(bench.state().history.record.instrument.apexAngle).toEqual({ value: "60°10'", u: "2'" });
  });

  it('is replaced where it stands, not where the same figures stand in another number', () => {
    const bench = openBench({ ...FILLED, known: [{ lamp: 'mercury', lines: [] }] });
    bench.type(tab, '546.07 = 46.07\r', tab);
    expect(bench.state().entry.text).toMatch(/^546\.07 = 46°0[47]'$/);
    const sides = openBench({ ...BLANK_FORM, instrument: { method: 'both-sides', leastCount: "1'" } });
    sides.type(tab, KEYS.escape, '546.07 = right 121.50 left 21.50\r');
    const [question] = sides.state().entry.query ?? [];
    expect(question).toMatch(/^21°.* \/ 121°/);
    sides.type(tab);
    expect(sides.state().entry.text).toMatch(/^546\.07 = right 121°(30|50)' left 21°(30|50)'$/);
    sides.type(enter);
    const stored = sides.state().history.record.known[0]?.lines[0]?.readings[0];
    expect(stored).toEqual(
      sides.state().history.decimals === 'minutes'
        ? { left: "21°50'", right: "121°50'" }
        : { left: "21°30'", right: "121°30'" },
    );
  });

  it('of an apex angle is kept in the meaning that was shown, the right image typed first', () => {
    const bench = openBench(BLANK_FORM);
    const toApex = Array.from({ length: 6 }, () => KEYS.down);
    bench.type(...toApex, '60.10\r', tab, enter, KEYS.up, 'right 121.50 left 1.50\r');
    expect(bench.state().entry.query?.[0]).toMatch(/^1°50' \(degrees\.minutes\) \/ 121°50'/);
    bench.type(enter);
    const { apexAngle } = bench.state().history.record.instrument;
    expect(apexAngle).toEqual({ readings: { left: "1°50'", right: "121°50'" } });
  });
});
