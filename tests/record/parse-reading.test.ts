import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circleOf } from '../../src/angle/circle.ts';
import { parseReadings } from '../../src/record/parse-reading.ts';
import type { ReadingForm } from '../../src/record/read-setting.ts';

const circle = circleOf(1);
const oneWindow: ReadingForm = { method: 'central', windows: 1, circle };
const twoWindows: ReadingForm = { method: 'central', windows: 2, circle };
const bothSides: ReadingForm = { method: 'both-sides', windows: 1, circle };
const bothSidesTwoWindows: ReadingForm = { method: 'both-sides', windows: 2, circle };
const scale: ReadingForm = { method: 'scale', windows: 1, circle: null };

const values = (text: string, form: ReadingForm, target: 'line' | 'central' = 'line') => {
  const typed = parseReadings(text, form, target);
  return typed.ok ? typed.readings.map(({ value }) => value) : typed.problem;
};

describe('readings as they are typed', () => {
  it.each<[string, ReadingForm, unknown]>([
    ['232 41', oneWindow, ['232 41']],
    ['232 41; 232 42 ;', oneWindow, ['232 41', '232 42']],
    ['231 04 / 51 05', twoWindows, [['231 04', '51 05']]],
    [
      '231 04/51 05; 231 05/51 05',
      twoWindows,
      [
        ['231 04', '51 05'],
        ['231 05', '51 05'],
      ],
    ],
    ['left 308 58 right 212 18', bothSides, [{ left: '308 58', right: '212 18' }]],
    ['l308 58 r212 18', bothSides, [{ left: '308 58', right: '212 18' }]],
    ["R: 212°18', L: 308°58'", bothSides, [{ left: "308°58'", right: "212°18'" }]],
    ['Left 308 deg Right 212 degrees', bothSides, [{ left: '308 deg', right: '212 degrees' }]],
    ['left 1/181 right 270/90', bothSidesTwoWindows, [{ left: ['1', '181'], right: ['270', '90'] }]],
    ['12,35; -3.5', scale, [12.35, -3.5]],
  ])('%s', (text, form, expected) => {
    expect(values(text, form)).toEqual(expected);
  });

  it('gives the setting in degrees and the text for messages', () => {
    expect(parseReadings('L 308 58 R 212 18', bothSides)).toEqual({
      ok: true,
      odd: [],
      readings: [
        {
          value: { left: '308 58', right: '212 18' },
          setting: { kind: 'both-sides', left: [308 + 58 / 60], right: [212 + 18 / 60] },
          text: 'left 308 58 right 212 18',
        },
      ],
    });
  });

  it('takes one place for the central image also where lines have two sides', () => {
    expect(values('260 38', bothSides, 'central')).toEqual(['260 38']);
  });

  it.each<[string, ReadingForm, string[]]>([
    ['232 41; 233 11', oneWindow, ['repeats-disagree']],
    ['231 04 / 51 34', twoWindows, ['windows-disagree']],
    ['left 308°58" right 212 18', bothSides, ['seconds-for-minutes']],
  ])('%s is odd', (text, form, expected) => {
    const typed = parseReadings(text, form);
    expect(typed.ok && typed.odd.map(({ code }) => code)).toEqual(expected);
  });

  it.each<[string, ReadingForm, string]>([
    ['', oneWindow, "there is no reading; write for instance 232°41'"],
    ['231 04', twoWindows, "231 04: the circle is read in two windows; write for instance 231°04' / 51°05'"],
    ['1 / 181', oneWindow, `"1 / 181": the circle is read in one window; write for instance 232°41'`],
    ['308 58', bothSides, "308 58 needs both sides; write left 232°41' right 232°41'"],
    ['left 1 left 2', bothSides, '"left 1 left 2" has the left side twice'],
    ['left 308 58', oneWindow, '"left" is for readings on both sides; here there is one side'],
    ['12 35', scale, '12 35 is not a reading of the scale; write a plain number such as 12.35'],
    ['232 75', oneWindow, '232 75 has 75 minutes; minutes go from 0 to 59'],
  ])('%s is refused', (text, form, problem) => {
    expect(values(text, form)).toBe(problem);
  });

  it('never stumbles over any text', () => {
    const typed = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.stringMatching(/^(left|right|l|r|L:|R:|[0-9 .,;/°'"+-]){0,30}$/),
    );
    const form = fc.constantFrom(oneWindow, twoWindows, bothSides, bothSidesTwoWindows, scale);
    fc.assert(
      fc.property(typed, form, (text, onForm) => {
        const result = parseReadings(text, onForm);
        if (result.ok) expect(result.readings.length).toBeGreaterThan(0);
        else expect(result.problem).not.toMatch(/\p{Cc}/u);
      }),
      { numRuns: 600 },
    );
  });
});
