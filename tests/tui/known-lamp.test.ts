import { describe, expect, it } from 'vitest';
import { analyseForm } from '../../src/tui/computation.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { guidance } from '../../src/tui/guidance.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { tab, enter } = KEYS;
const said = (bench: ReturnType<typeof openBench>) => linearSentences(bench.state(), false).join('\n');
const prompt = (bench: ReturnType<typeof openBench>) => said(bench).split('\n').at(-1);

function benchAtLamp(lamp: string) {
  const bench = openBench({ ...BLANK_FORM, central: ["181°04'"] });
  bench.type(tab, `${lamp}\r`);
  return bench;
}

describe('the first line of a known lamp', () => {
  // What everybody sees at once: the yellow line of helium, the green one of mercury (common practice, no source).
  it.each([
    ['helium', '587.6 yellow: '],
    ['mercury', '546.1 green: '],
  ])('of %s is the one that is surely seen', (lamp, first) => {
    expect(prompt(benchAtLamp(lamp))).toBe(first);
  });

  it('is followed by those towards the violet, then by those towards the red', () => {
    const bench = benchAtLamp('mercury');
    bench.type('229 40\r');
    expect(prompt(bench)).toMatch(/^435\.8/);
    bench.type('231 26\r', '232 18\r');
    expect(prompt(bench)).toMatch(/^(579\.1|577\.0) yellow/);
  });
});

describe('a line that is not to be seen', () => {
  it('is passed over by one key and not asked for again', () => {
    const bench = benchAtLamp('mercury');
    bench.type('229 40\r', '-');
    expect(bench.state().notice?.text).toMatch(/^435\.83? passed over; it stays in the list\.$/);
    expect(prompt(bench)).toMatch(/^404\.7 violet/);
    bench.type('232 18\r', '229 21\r', '229 22\r');
    expect(prompt(bench)).toMatch(/^another line/);
    expect(said(bench)).toContain('435.83 blue-violet');
  });

  it('is not asked for again on coming back to the stage', () => {
    const bench = benchAtLamp('mercury');
    bench.type('-');
    expect(prompt(bench)).not.toMatch(/^546/);
    bench.type(tab, KEYS.backTab);
    expect(prompt(bench)).not.toMatch(/^(546|another)/);
  });
});

describe('names shifted along the lamp', () => {
  // Helium on the fixture's prism, the reading of each line under the name of its neighbour towards the red.
  const readings = ["228°44'", "229°17'", "230°13'", "230°21'", "230°44'", "231°14'"];
  const shifted = [706.52, 667.82, 587.56, 501.57, 492.19, 471.31];
  const form: BenchForm = {
    ...FILLED,
    known: [
      {
        lamp: 'helium',
        lines: readings.map((reading, at) => ({
          wavelengthNm: shifted[at]!,
          readings: [reading] as [string],
        })),
      },
    ],
    unknown: [{ lines: [] }],
  };

  it('are put right together by one action, and back by one undo', () => {
    const bench = openBench(form, undefined, analyseForm);
    bench.type(tab);
    const names = () => bench.state().history.record.known[0]!.lines.map(({ wavelengthNm }) => wavelengthNm);
    expect(said(bench)).toMatch(
      /\d lines read like other lines than they are named for: \/names as they read/,
    );
    bench.type(act('names'));
    expect(names()).toEqual([667.82, 587.56, 501.57, 492.19, 471.31, 447.15]);
    bench.type(KEYS.undo);
    expect(names()).toEqual(shifted);
    bench.type(act('names'), act('names'));
    expect(bench.state().notice?.text).toBe('Every known line reads like the line it is named for.');
  });
});

describe('lines enough', () => {
  const mercury: BenchForm = {
    ...FILLED,
    known: [
      {
        lamp: 'mercury',
        lines: [...FILLED.known[0]!.lines, { wavelengthNm: 576.96, readings: ["229°22'"] }],
      },
    ],
  };

  it('are said to be so, with how good the curve is and where, once there are six and none is doubted', () => {
    const bench = openBench(mercury);
    bench.type(tab);
    expect(guidance(bench.state())).not.toMatch(/^Enough/);
    bench.type('\x1b[F', "623.44 = 228°59'\r", enter);
    expect(bench.state().result?.analysis?.calibration.doubts).toEqual([]);
    bench.type('\x1b[F');
    expect(guidance(bench.state())).toMatch(
      /^Enough: the curve is good to \d+(\.\d+)? nm between 405 and 623 nm; Tab goes to the tube\./,
    );
    // A line that is left out by the person is no doubt of the program's.
    bench.type("708.19 = 228°20'\r", enter, '\x1b[H', act('set-aside'), '\x1b[F');
    expect(bench.state().history.record.known[0]?.lines.at(-1)?.use).toBe(false);
    expect(guidance(bench.state())).toMatch(/^Enough/);
  });
});

it('two lines are not ticked, for a curve goes through any two; a slip in the first is found at the third', () => {
  const bench = openBench({ ...BLANK_FORM, central: ["181°04'"] }, undefined, analyseForm);
  // Half a degree too far: 229°40' it should be.
  bench.type(tab, 'mercury\r', '230 10\r', '231 26\r');
  expect(said(bench).match(/too few to tell/g)).toHaveLength(2);
  expect(said(bench)).not.toMatch(/' ✓/);
  bench.type('232 18\r');
  expect(said(bench)).toMatch(/the line named 546\.07 \(230 10\) does not: half a degree/);
  bench.type('\x15', KEYS.up, KEYS.up, KEYS.edit, '\x15', '229 40\r', KEYS.down, KEYS.down, '232 18\r');
  expect(said(bench)).not.toContain('too few to tell');
});
