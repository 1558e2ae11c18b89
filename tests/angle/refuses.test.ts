/** Every refusal of an angle text in one place, as a person reads it. */
import { describe, expect, it } from 'vitest';
import { circleOf } from '../../src/angle/circle.ts';
import { parseSmallAngle } from '../../src/angle/least-count.ts';
import { parseAngle } from '../../src/angle/parse-angle.ts';

describe('an angle is refused with what would be right', () => {
  it.each([
    ['', "there is no angle; write for instance 232°41'"],
    ['bla', `"bla" is not an angle; write for instance 232°41'`],
    ["41°75'", "41°75' has 75 minutes; minutes go from 0 to 59"],
    ['41 35 60', '41 35 60 has 60 seconds; seconds go from 0 to 59'],
    ['-12', '"-12" is negative; a circle goes from 0° to 360°'],
    ['360 01', '360 01 is past a full circle; a circle goes from 0° to 360°'],
    ['232 41x', `"232 41x" has "x" where no such sign can be; write for instance 232°41'`],
    ['232, 41', `232, 41 has "," where no such sign can be; write for instance 232°41'`],
    ['1 2 3 4', "1 2 3 4 has more numbers than degrees, minutes and seconds; write for instance 232°41'"],
    ["41'35'", "41'35' has the minutes twice; write for instance 232°41'"],
    ["35'41°", "35'41° has its degrees after a smaller unit; write for instance 232°41'"],
    ['231.5 28', '231.5 28 has decimals before its last number; with a vernier write 231.5 + 28'],
    ['231°:28', `231°:28 has ":" where it does not part two numbers; write for instance 232°41'`],
    ['231+', "231+ behind the plus sign has no number; write for instance 232°41'"],
    ["30'+28'", "30'+28' has no degrees before the plus sign; write for instance 232°41'"],
    ['1+2+3', '1+2+3 has more than one plus sign; write main scale + vernier'],
    ['231.5+75', '231.5+75 behind the plus sign has 75 minutes; minutes go from 0 to 59'],
  ])('%s', (text, problem) => {
    expect(parseAngle(text, circleOf(1))).toEqual({ ok: false, problem });
  });

  it('repeats at most 40 characters of what was typed, none of them a control character', () => {
    const angle = parseAngle(`\u001b[31m${'9'.repeat(90)}`);
    expect(angle.ok ? '' : angle.problem).toMatch(/^"\[31m9{35}…" has a sign that cannot be shown/);
  });
});

describe('a least count is refused with what would be right', () => {
  const cure = `write for instance 1' or 30" or 0.01°`;
  it.each([
    ['1', `1 does not say whether it is degrees, minutes or seconds; ${cure}`],
    ["0'", `0' is not a step that a divided circle has; ${cure}`],
    ['20°', `20° is not a step that a divided circle has; ${cure}`],
    ['one', `"one" has "o" where no such sign can be; ${cure}`],
    ['', `"" has no number; ${cure}`],
  ])('%s', (text, problem) => {
    expect(parseSmallAngle(text)).toEqual({ ok: false, problem });
  });

  it.each([
    ["1'", 1, false],
    ['30"', 0.5, false],
    ["5'", 5, false],
    ['1°', 60, false],
    ['0.5°', 30, false],
    ['0.01°', 0.6, true],
    ['0,1°', 6, true],
    ['1\'30"', 1.5, false],
    ["0°1'", 1, false],
    ['20 arcsec', 1 / 3, false],
  ])('%s is %f arc-minutes', (text, arcmin, decimal) => {
    const step = parseSmallAngle(text);
    expect(step.ok && step.arcmin).toBeCloseTo(arcmin, 8);
    expect(step.ok && step.decimal).toBe(decimal);
  });
});
